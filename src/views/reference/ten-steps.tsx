/* A notebook of one's own in ten steps: as a page, and one step at a time beside the sheet. */

import '../shelf/pages.css';
import { For, Match, Show, Switch } from 'solid-js';
import { PageHead } from '../shelf/page-head.tsx';
import { piecesOf, type StepPiece, tenSteps } from './ten-steps-text.ts';

export interface TenStepsProps {
  /** Puts the steps at the foot of the sheet, to be followed one by one. */
  readonly onFollow: () => void;
  readonly onReference: () => void;
  readonly onClose: () => void;
}

/** The page with all ten. */
export function TenSteps(props: TenStepsProps) {
  return (
    <section class="page reading" aria-labelledby="ten-title">
      <PageHead id="ten-title" title="Make your own in ten steps" onClose={props.onClose} />
      <p>
        From a blank page to a notebook that you can share: headbands for two heads. It takes ten minutes, and
        every step can be undone.
      </p>
      <div class="page-buttons">
        <button type="button" class="strong-button" onClick={props.onFollow}>
          Follow them on the sheet
        </button>
      </div>
      <ol class="ten-steps">
        <For each={tenSteps}>
          {(step) => (
            <li>
              <h3>{step.title}</h3>
              <p>
                <StepText text={step.text} />
              </p>
            </li>
          )}
        </For>
      </ol>
      <h3>And then</h3>
      <p>
        Sections keep a long page in order, a note says how to measure, and there is more to reckon with under{' '}
        <button type="button" class="link" onClick={props.onReference}>
          Units, functions, keys
        </button>
        : heel turns, sleeve shaping, increases spread evenly, dates. Any notebook of the list can be taken
        apart in the same way, and what you like of it used in yours.
      </p>
    </section>
  );
}

export interface GuideBarProps {
  /** Which step is shown, from 0. */
  readonly step: number;
  readonly onStep: (step: number) => void;
  readonly onClose: () => void;
}

/** One of the ten steps at the foot of the sheet, with the way to the next. */
export function GuideBar(props: GuideBarProps) {
  const step = () => tenSteps[props.step];
  const isLast = () => props.step >= tenSteps.length - 1;
  return (
    <Show when={step()} keyed>
      {(one) => (
        <section class="guide" aria-label="ten steps">
          <h2>
            <span class="guide-number">
              {props.step + 1} of {tenSteps.length}
            </span>{' '}
            {one.title}
          </h2>
          <p>
            <StepText text={one.text} />
          </p>
          <div class="guide-ways">
            <button type="button" class="quiet-button" onClick={props.onClose}>
              {isLast() ? 'Done' : 'Leave off'}
            </button>
            <span class="header-space" />
            <button
              type="button"
              class="quiet-button"
              disabled={props.step === 0}
              onClick={() => props.onStep(props.step - 1)}
            >
              Step back
            </button>
            <button
              type="button"
              class="strong-button"
              disabled={isLast()}
              onClick={() => props.onStep(props.step + 1)}
            >
              Next step
            </button>
          </div>
        </section>
      )}
    </Show>
  );
}

function StepText(props: { readonly text: string }) {
  return <For each={piecesOf(props.text)}>{(piece) => <Piece piece={piece} />}</For>;
}

function Piece(props: { readonly piece: StepPiece }) {
  return (
    <Switch fallback={props.piece.text}>
      <Match when={props.piece.kind === 'touch'}>
        <b>{props.piece.text}</b>
      </Match>
      <Match when={props.piece.kind === 'write'}>
        <code>{props.piece.text}</code>
      </Match>
      <Match when={props.piece.kind === 'press'}>
        <kbd>{props.piece.text}</kbd>
      </Match>
      <Match when={props.piece.kind === 'see'}>
        <samp>{props.piece.text}</samp>
      </Match>
    </Switch>
  );
}

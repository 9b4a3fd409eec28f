import { createSignal, For, Show } from 'solid-js';
import { type Desk, useDesk } from './desk.ts';
import { InlineText } from './inline-text.tsx';
import type { NotebookSignals } from './notebook-signals.ts';
import { RodMark } from './stitch-mark.tsx';

/** A button in the head. */
export interface HeaderAction {
  readonly label: string;
  /** `at` is where the button lies. */
  readonly choose: (desk: Desk) => void;
}

export interface HeaderProps {
  readonly notebook: NotebookSignals;
  readonly saved: string;
  readonly savedWhy: string;
  readonly actions: readonly HeaderAction[];
  readonly isNavOpen: boolean;
  readonly onNav: () => void;
}

/** The head of the page: whose it is, which notebook, and what can be done with all of it. */
export function Header(props: HeaderProps) {
  const view = () => props.notebook.view();
  return (
    <header class="header">
      <span class="brand">
        <RodMark />
        <span class="brand-name">Ellwand</span>
      </span>
      <button
        type="button"
        class="quiet-button nav-button"
        aria-expanded={props.isNavOpen}
        onClick={props.onNav}
      >
        <RodMark />
        <span class="nav-word">Notebooks</span>
      </button>
      <Title notebook={props.notebook} />
      <span class="saved" title={props.savedWhy || undefined}>
        {view().trial ? 'trying a change' : props.saved}
      </span>
      <span class="header-space" />
      <UnitSwitch notebook={props.notebook} place="head" />
      <HistoryButton word="Undo" what={view().undo} onChoose={() => props.notebook.page.undo()} />
      <HistoryButton word="Redo" what={view().redo} onChoose={() => props.notebook.page.redo()} />
      <Actions actions={props.actions} />
    </header>
  );
}

/** The buttons of what can be done with all of the notebook. */
export function Actions(props: {
  readonly actions: readonly HeaderAction[];
  /** One was chosen: a list lying over the page goes away. */
  readonly onChosen?: () => void;
}) {
  const desk = useDesk();
  return (
    <For each={props.actions}>
      {(action) => (
        <button
          type="button"
          class="quiet-button action"
          onClick={() => {
            action.choose(desk);
            props.onChosen?.();
          }}
        >
          {action.label}
        </button>
      )}
    </For>
  );
}

function Title(props: { readonly notebook: NotebookSignals }) {
  const desk = useDesk();
  const [isWriting, setWriting] = createSignal(false);
  const title = () => props.notebook.view().title;
  return (
    <h1 class="title">
      <Show
        when={isWriting()}
        fallback={
          <button
            type="button"
            class="title-button"
            title="rename this notebook"
            disabled={props.notebook.view().readOnly}
            onClick={() => setWriting(true)}
          >
            {title() || 'untitled'}
          </button>
        }
      >
        <InlineText
          label="the title of this notebook"
          text={title()}
          onCommit={(text, by) => {
            const done = text.trim() === title() || desk.heed(props.notebook.page.setTitle(text.trim()));
            if (done || by === 'blur') setWriting(false);
            return done || by === 'blur';
          }}
          onCancel={() => setWriting(false)}
        />
      </Show>
    </h1>
  );
}

/** Undo or redo, with what it would do. */
export function HistoryButton(props: {
  readonly word: string;
  readonly what: string;
  readonly onChoose: () => void;
}) {
  const words = () => (props.what ? `${props.word}: ${props.what}` : props.word);
  return (
    <button
      type="button"
      class={`quiet-button ${props.word.toLowerCase()}`}
      disabled={!props.what}
      title={words()}
      aria-label={words()}
      onClick={props.onChoose}
    >
      {props.word}
    </button>
  );
}

/** Inches or centimetres, for the whole notebook. `place` tells two switches on the page apart. */
export function UnitSwitch(props: { readonly notebook: NotebookSignals; readonly place: string }) {
  const desk = useDesk();
  return (
    <fieldset class="unit-switch">
      <legend class="hidden">show lengths in</legend>
      <For each={['in', 'cm'] as const}>
        {(unit) => (
          <label>
            <input
              type="radio"
              name={`units-${props.place}`}
              class="hidden"
              checked={props.notebook.view().units === unit}
              onChange={() => desk.heed(props.notebook.page.setUnits(unit))}
            />
            <span>{unit}</span>
          </label>
        )}
      </For>
    </fieldset>
  );
}

/*
 * What would have to change: asked in one sentence under a worked-out cell's row, answered while it is written, and
 * tried with one press. Esc closes it.
 */
import './work-back.css';
import { createEffect, createMemo, createSignal, For, onCleanup, onMount, Show, untrack } from 'solid-js';
import type { BackOffer, BackStart, BackView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { createQuestions, createTurns, goOnFor, lookedAt, NOT_FETCHED } from './asking.ts';

/** So long after the last letter the answer follows. */
const REST_MS = 120;
/** So long at a time an answer is worked out, and so long later it is said that this takes a while. */
const SLICE_MS = 8;
const LOOKING_MS = 400;

/** The question under the row of a cell. */
export function WorkBack(props: { readonly id: string }) {
  const desk = useDesk();
  const { page } = desk.notebook;
  const { questions, failed } = createQuestions(page);
  const turn = createTurns(page);
  const column = lookedAt(desk)?.id === props.id ? (lookedAt(desk)?.column ?? null) : null;
  const start = createMemo(() => {
    turn();
    return questions()?.backStart(props.id, column);
  });
  const close = () => {
    desk.askBack(undefined);
    desk.standAt(desk.stand(), true);
  };
  const tryIt = (offer: BackOffer) => {
    if (!desk.heed(page.tryOffer(offer))) return;
    desk.notebook.say(`Trying ${offer.label}: ${offer.gives}.`);
    close();
  };
  return (
    <div role="gridcell" class="back-ask">
      <Show
        when={start()}
        fallback={
          <p class="soft">
            {failed()
              ? NOT_FETCHED
              : questions()
                ? 'Nothing typed leads here, so there is nothing to change.'
                : ''}
            <Show when={failed() || questions()}>
              {' '}
              <button type="button" class="link" onClick={close}>
                close
              </button>
            </Show>
          </p>
        }
      >
        {(begun) => (
          <Question
            start={begun()}
            turn={turn()}
            answer={(giving, text) => {
              const place = begun().giving[giving]?.place;
              return place && text.trim() !== ''
                ? questions()?.workBack(props.id, column, place, text)
                : undefined;
            }}
            onTry={tryIt}
            onClose={close}
          />
        )}
      </Show>
    </div>
  );
}

interface QuestionProps {
  readonly start: BackStart;
  /** Grows when the notebook changes. */
  readonly turn: number;
  /** Works an answer out, a piece at a time; undefined where nothing is asked yet. */
  readonly answer: (giving: number, text: string) => Generator<undefined, BackView> | undefined;
  readonly onTry: (offer: BackOffer) => void;
  readonly onClose: () => void;
}

function Question(props: QuestionProps) {
  const [wanted, setWanted] = createSignal('');
  const [giving, setGiving] = createSignal(firstGiving(props.start));
  const [view, setView] = createSignal<BackView>();
  const [isLooking, setLooking] = createSignal(false);
  let isEntered = false;
  let isAnswered = false; // What is written, in full.
  let field: HTMLInputElement | HTMLSelectElement | undefined;
  let offers: HTMLParagraphElement | undefined;
  const isChoice = props.start.choices.length > 0;
  createEffect(() => {
    props.turn;
    isAnswered = false;
    const search = props.answer(giving(), wanted());
    let timer = setTimeout(goOn, REST_MS);
    const words = setTimeout(setLooking, LOOKING_MS, search !== undefined);
    function goOn() {
      const end = search && untrack(() => goOnFor(SLICE_MS, search));
      if (search && !end) timer = setTimeout(goOn, 0);
      else {
        const found = end?.value;
        clearTimeout(words);
        setLooking(false);
        setView(found);
        isAnswered = true;
        if (isEntered && found?.offers[0]) offers?.querySelector('button')?.focus();
        isEntered = false;
      }
    }
    onCleanup(() => {
      clearTimeout(timer);
      clearTimeout(words);
    });
  });
  onMount(() => field?.focus());
  const hearKey = (event: KeyboardEvent) => {
    event.stopPropagation(); // The grid's keys are not meant here.
    if (event.key === 'Escape') props.onClose();
    else if (event.key === 'Enter' && event.target === field) {
      const first = offers?.querySelector('button');
      if (first && isAnswered) first.focus();
      else isEntered = true; // Then it goes there when the answer comes.
    } else return;
    event.preventDefault();
  };
  return (
    <form onSubmit={(event) => event.preventDefault()} onKeyDown={hearKey}>
      <label class="back-part">
        <span>For {props.start.about} to be</span>
        <Show
          when={isChoice}
          fallback={
            <span class="back-wanted">
              <input
                ref={(element) => {
                  field = element;
                }}
                type="text"
                autocomplete="off"
                spellcheck={false}
                placeholder={props.start.now}
                value={wanted()}
                onInput={(event) => setWanted(event.currentTarget.value)}
              />
            </span>
          }
        >
          <select
            ref={(element) => {
              field = element;
            }}
            onChange={(event) => setWanted(event.currentTarget.value)}
          >
            <option value="">choose</option>
            <For each={props.start.choices}>{(choice) => <option value={choice}>{choice}</option>}</For>
          </select>
        </Show>
      </label>
      <label class="back-part">
        <span>what has to change is</span>
        <select value={String(giving())} onChange={(event) => setGiving(Number(event.currentTarget.value))}>
          <For each={props.start.giving}>
            {(one, at) => (
              <option value={String(at())}>
                {one.name}, now {one.now}
              </option>
            )}
          </For>
        </select>
      </label>
      <button type="button" class="link quiet back-close" onClick={() => props.onClose()}>
        close
      </button>
      <div class="back-answer" role="status">
        <Show when={isLooking()}>
          <p class="soft">looking …</p>
        </Show>
        <Show when={!isLooking() && view()}>{(one) => <p class={one().kind}>{one().sentence}</p>}</Show>
      </div>
      <Show when={!isLooking() && (view()?.offers.length ?? 0) > 0}>
        <p ref={offers} class="back-offers">
          <For each={view()?.offers}>
            {(offer) => (
              <button
                type="button"
                class="quiet-button"
                title={offer.gives}
                onClick={() => props.onTry(offer)}
              >
                Try {offer.label}
              </button>
            )}
          </For>
        </p>
      </Show>
    </form>
  );
}

/** Of what may give way, the first that is hers: a pattern's numbers are printed, and stay. */
function firstGiving({ giving }: BackStart): number {
  return Math.max(
    0,
    giving.findIndex(({ name }) => !/^pattern\b/.test(name)),
  );
}

/*
 * How far off can it be: of the cell she stands at. Bars first, then at most a few sentences: which measurement is worth
 * repeating, what would usually be said where nothing is, and what would be decided otherwise.
 */
import './doubt.css';
import { createEffect, createSignal, Index, onCleanup, Show, untrack } from 'solid-js';
import type { DecisionView, DoubtView, UsualView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { Keyed } from '../keyed.tsx';
import {
  createDecisions,
  createQuestions,
  createSeen,
  createTurns,
  type Looked,
  lookedAt,
  NOT_FETCHED,
} from './asking.ts';
import { Bars, GoTo } from './bars.tsx';
import { Tolerance } from './tolerance.tsx';

/** So long after she moved on or changed something the bars follow. */
const REST_MS = 120;

// Lines keep their place on the page while what they say changes: most of it stays, and what stays is not drawn anew.

/** The panel beside the sheet. */
export function DoubtPanel() {
  const desk = useDesk();
  const { page } = desk.notebook;
  let panel: HTMLDivElement | undefined;
  const isSeen = createSeen(() => panel);
  const { questions, failed } = createQuestions(page, isSeen);
  const turn = createTurns(page);
  const [doubt, setDoubt] = createSignal<DoubtView>();
  const [isAsking, setAsking] = createSignal(true);
  let last: Looked | undefined;
  let before: Looked | undefined;
  createEffect(() => {
    turn();
    last = lookedAt(desk) ?? last;
    const asked = questions();
    const looked = last;
    setAsking(!failed() && isSeen() !== false);
    if (!asked || !looked || !isSeen()) return;
    const answer = () => {
      const isSame = before?.id === looked.id && before.column === looked.column;
      const now = asked.doubt(looked.id, looked.column, isSame ? untrack(doubt)?.reach : undefined);
      before = looked;
      setDoubt(now);
      setAsking(false);
    };
    const timer = setTimeout(answer, REST_MS);
    onCleanup(() => clearTimeout(timer));
  });
  const { decisions, isLooking } = createDecisions(questions, turn, isSeen);
  return (
    <div ref={panel} class="doubt" aria-busy={isAsking() || isLooking()}>
      <Show when={failed()}>
        <p class="soft">{NOT_FETCHED}</p>
      </Show>
      <Show when={doubt()}>{(one) => <Told doubt={one()} />}</Show>
      <Decisions decisions={decisions()} />
    </div>
  );
}

function Told(props: { readonly doubt: DoubtView }) {
  const doubt = () => props.doubt;
  // One bar says it all.
  const isSaid = () => doubt().bars.filter((bar) => !bar.nothing).length === 1;
  return (
    <>
      <Bars doubt={doubt()} />
      <Show when={doubt().own?.tolerance ? doubt().own : undefined}>
        {(own) => (
          <p class="doubt-own">
            <Tolerance {...own()} name={doubt().about} /> {own().unit}
          </p>
        )}
      </Show>
      <Show when={!isSaid()}>
        <p class="doubt-sentence">{doubt().sentence}</p>
      </Show>
      <Show when={doubt().moves.length > 0}>
        <ul class="doubt-moves" aria-label="what that does">
          <Index each={doubt().moves}>
            {(move) => (
              <li>
                <GoTo place={{ cell: move().id, column: null }} name={move().name} />
                <span class="bar-text">{move().text}</span>
              </li>
            )}
          </Index>
        </ul>
      </Show>
      <Show when={doubt().worth}>
        <p class="doubt-worth">{doubt().worth}</p>
      </Show>
      <Usual list={doubt().usual.slice(0, doubt().bars.length > 0 ? 2 : 4)} />
    </>
  );
}

/** What would usually be said of how sure a value is, each put in with one press. */
function Usual(props: { readonly list: readonly UsualView[] }) {
  const desk = useDesk();
  const put = (one: UsualView) => {
    if (!desk.heed(desk.notebook.page.type(one.place, one.typed))) return;
    const sentence = `${one.name} is ${one.text} now.`;
    desk.announce(sentence, true);
  };
  return (
    <Show when={props.list.length > 0}>
      <ul class="usual" aria-label="what is usual where nothing is said">
        <Keyed each={props.list} key={({ place, text }) => `${place.cell} ${place.column} ${text}`}>
          {(one) => (
            <li>
              <Show
                when={!desk.notebook.view().readOnly}
                fallback={
                  <span>
                    {one().name} {one().text}
                  </span>
                }
              >
                <button type="button" class="usual-put" onClick={() => put(one())}>
                  {one().name} <b>{one().text}</b>
                </button>
              </Show>
              <small>{one().why}</small>
            </li>
          )}
        </Keyed>
      </ul>
    </Show>
  );
}

/** So many decisions are told at once. */
const FIRST_DECISIONS = 2;

function Decisions(props: { readonly decisions: readonly DecisionView[] }) {
  const rest = () => props.decisions.slice(FIRST_DECISIONS);
  return (
    <Show when={props.decisions.length > 0}>
      <section class="otherwise" aria-label="before casting on">
        <h3>Before casting on: what could fall otherwise</h3>
        <ul>
          <Index each={props.decisions.slice(0, FIRST_DECISIONS)}>
            {(one) => <Decision decision={one()} />}
          </Index>
        </ul>
        <Show when={rest().length > 0}>
          <details>
            <summary>{rest().length} more</summary>
            <ul>
              <Index each={rest()}>{(one) => <Decision decision={one()} />}</Index>
            </ul>
          </details>
        </Show>
      </section>
    </Show>
  );
}

function Decision(props: { readonly decision: DecisionView }) {
  return (
    <li>
      <GoTo place={{ cell: props.decision.cell, column: null }} name={props.decision.name} />:{' '}
      {props.decision.sentence}
    </li>
  );
}

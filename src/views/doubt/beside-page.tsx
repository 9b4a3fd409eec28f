/*
 * Side by side: the notebook as it stands, what is being tried, trials put aside, and other sizes. One chooses what stands
 * beside what; only what differs is shown, the rest is counted.
 */
import '../shelf/pages.css';
import './beside.css';
import { createMemo, createSignal, For, Show } from 'solid-js';
import type { AsideView, BesideChoice, BesideRow, BesideView, Outcome } from '../../session/index.ts';
import { InlineText } from '../inline-text.tsx';
import type { NotebookSignals } from '../notebook-signals.ts';
import { PageHead } from '../shelf/page-head.tsx';
import { createQuestions, createTurns } from './asking.ts';

export interface BesidePageProps {
  readonly notebook: NotebookSignals;
  /** What stood side by side the last time, by key; undefined where nothing was chosen yet. */
  readonly chosen: readonly string[] | undefined;
  /** Keeps what stands side by side for the next time. */
  readonly onChosen: (keys: readonly string[]) => void;
  readonly onClose: () => void;
}

/** So many columns stand side by side at first where no trial was made. */
const FIRST_COLUMNS = 3;

/** The page that sets trials and sizes side by side. */
export function BesidePage(props: BesidePageProps) {
  const { page, view } = props.notebook;
  const { questions, failed } = createQuestions(page);
  const turn = createTurns(page);
  const [said, setSaid] = createSignal('');
  const [picked, setPicked] = createSignal(props.chosen);
  const choices = createMemo((): readonly BesideChoice[] => {
    turn();
    return questions()?.besideChoices() ?? [];
  });
  const keys = createMemo(() => {
    const there = picked()?.filter((key) => choices().some((choice) => choice.key === key)) ?? [];
    return there.length > 0 ? there : firstKeys(choices());
  });
  const beside = createMemo(() => {
    turn();
    return keys().length > 1 ? questions()?.beside(keys()) : undefined;
  });
  const pick = (key: string, on: boolean) => {
    const now = on ? [...keys(), key] : keys().filter((one) => one !== key);
    setPicked(now);
    props.onChosen(now);
  };
  const heed = (outcome: Outcome) => setSaid(outcome.done ? '' : outcome.sentence);
  const putAside = () => {
    const put = page.putAside();
    heed(put);
    if (put.done && put.id !== undefined && picked()) pick(`aside ${put.id}`, true);
  };
  const aside = createMemo(() => {
    turn();
    return page.trialsAside();
  });
  return (
    <section class="page beside" aria-labelledby="beside-title">
      <PageHead id="beside-title" title="Side by side" onClose={props.onClose}>
        <Show when={view().trial && !view().readOnly}>
          <button type="button" class="strong-button" onClick={putAside}>
            Put aside what you are trying
          </button>
        </Show>
      </PageHead>
      <Show when={failed()}>
        <p>What works this out could not be fetched just now: load the page again.</p>
      </Show>
      <Show when={said()}>
        <p role="status">{said()}</p>
      </Show>
      <Show when={choices().length > 0}>
        <fieldset class="beside-choices">
          <legend class="soft">what stands side by side</legend>
          <For each={choices()}>
            {(choice) => (
              <label class="beside-choice">
                <input
                  type="checkbox"
                  checked={keys().includes(choice.key)}
                  onChange={(event) => pick(choice.key, event.currentTarget.checked)}
                />
                <span>{choice.title}</span>
              </label>
            )}
          </For>
        </fieldset>
      </Show>
      <Show
        when={beside()}
        fallback={
          <Show when={choices().length > 0}>
            <p class="soft">
              {choices().length > 1
                ? 'Choose two or more.'
                : 'Try a change on the sheet with − and +, then put it aside: here it stands beside the others.'}
            </p>
          </Show>
        }
      >
        {(one) => <BesideTable beside={one()} />}
      </Show>
      <Show when={aside().length > 0 && !view().readOnly}>
        <h3>Put aside</h3>
        <ul class="aside-list">
          <For each={aside()}>
            {(trial) => (
              <AsideTrial
                trial={trial}
                onName={(name) => heed(page.nameAside(trial.id, name))}
                onTakeUp={() => {
                  const taken = page.takeUp(trial.id);
                  heed(taken);
                  if (taken.done) props.onClose();
                }}
                onDrop={() => heed(page.dropAside(trial.id))}
              />
            )}
          </For>
        </ul>
      </Show>
    </section>
  );
}

/** As it stands beside every trial; where there is none, the first few columns. */
function firstKeys(choices: readonly BesideChoice[]): readonly string[] {
  const trials = choices.filter(({ key }) => key === 'trial' || key.startsWith('aside '));
  const columns = choices.filter(({ key }) => key.startsWith('column '));
  return (trials.length > 0 ? ['now', ...trials.map(({ key }) => key)] : columns.map(({ key }) => key)).slice(
    0,
    trials.length > 0 ? 4 : FIRST_COLUMNS,
  );
}

/** Rows under the sections they stand in. */
function grouped(rows: readonly BesideRow[]): readonly (readonly [string, readonly BesideRow[]])[] {
  const groups = new Map<string, BesideRow[]>();
  for (const row of rows) groups.set(row.section, [...(groups.get(row.section) ?? []), row]);
  return [...groups];
}

function BesideTable(props: { readonly beside: BesideView }) {
  const groups = createMemo(() => grouped(props.beside.rows));
  const count = () => props.beside.columns.length + 1;
  return (
    <>
      <Show when={groups().length > 0}>
        <section class="beside-scroll" tabindex="0" aria-label="outcomes side by side">
          <table class="beside-table">
            <thead>
              <tr>
                <td />
                <For each={props.beside.columns}>
                  {(column) => (
                    <th scope="col">
                      {column.title}
                      <Show when={column.changes}>
                        <small>{column.changes}</small>
                      </Show>
                    </th>
                  )}
                </For>
              </tr>
            </thead>
            <For each={groups()}>
              {([section, rows]) => (
                <tbody>
                  <tr class="beside-section">
                    <th scope="colgroup" colspan={count()}>
                      {section}
                    </th>
                  </tr>
                  <For each={rows}>{(row) => <OutcomeRow row={row} />}</For>
                </tbody>
              )}
            </For>
          </table>
        </section>
      </Show>
      <p class="soft">
        {groups().length === 0
          ? 'All of them come to the same.'
          : `${props.beside.same} other ${props.beside.same === 1 ? 'value is' : 'values are'} the same in all of them.`}
      </p>
    </>
  );
}

function OutcomeRow(props: { readonly row: BesideRow }) {
  return (
    <tr>
      <th scope="row">{props.row.name}</th>
      <For each={props.row.values}>
        {(value) => (
          <td classList={{ differs: value.differs }}>
            {value.text}
            <Show when={value.differs}>
              <span class="hidden">, differs</span>
            </Show>
          </td>
        )}
      </For>
    </tr>
  );
}

interface AsideTrialProps {
  readonly trial: AsideView;
  readonly onName: (name: string) => void;
  readonly onTakeUp: () => void;
  readonly onDrop: () => void;
}

function AsideTrial(props: AsideTrialProps) {
  const [isNaming, setNaming] = createSignal(false);
  const isNamed = () => props.trial.title !== props.trial.changes;
  return (
    <li>
      <Show
        when={isNaming()}
        fallback={
          <span class="aside-words">
            <button
              type="button"
              class="link quiet"
              title="give it a name"
              onClick={() => setNaming(true)}
              aria-label={`give ${props.trial.title} another name`}
            >
              {props.trial.title}
            </button>
            <Show when={isNamed()}>
              <small>{props.trial.changes}</small>
            </Show>
          </span>
        }
      >
        <InlineText
          class="aside-words"
          label={`a name for ${props.trial.changes}`}
          placeholder="a name, such as “needle 3.5”"
          text={isNamed() ? props.trial.title : ''}
          onCommit={(name) => {
            setNaming(false);
            props.onName(name);
            return true;
          }}
          onCancel={() => setNaming(false)}
        />
      </Show>
      <button
        type="button"
        class="quiet-button"
        aria-label={`Name it: ${props.trial.title}`}
        onClick={() => setNaming(true)}
      >
        Name it
      </button>
      <button
        type="button"
        class="quiet-button"
        aria-label={`Go on with it: ${props.trial.title}`}
        onClick={() => props.onTakeUp()}
      >
        Go on with it
      </button>
      <button
        type="button"
        class="quiet-button"
        aria-label={`Let it go: ${props.trial.title}`}
        onClick={() => props.onDrop()}
      >
        Let it go
      </button>
    </li>
  );
}

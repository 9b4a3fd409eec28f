/* Two states of a notebook side by side: what differs, and taking over what one wants of it. */
import './pages.css';
import { createMemo, Index, Show } from 'solid-js';
import type { ComparisonView, DifferenceView, PartView } from '../../session/index.ts';
import { Keyed } from '../keyed.tsx';
import { PageHead } from './page-head.tsx';

export interface ComparePageProps {
  readonly comparison: ComparisonView;
  /** What the two are called: "yours", "from Ada’s file". */
  readonly mine: string;
  readonly theirs: string;
  readonly canTake: boolean;
  /** Takes a difference over; of a changed cell, only that field where one is named. */
  readonly onTake: (key: string, field?: string) => void;
  readonly onTakeAll: () => void;
  readonly onClose: () => void;
}

const KIND_WORDS: Readonly<Record<DifferenceView['kind'], string>> = {
  changed: 'changed',
  added: 'only in the other',
  removed: 'only in yours',
  moved: 'stands elsewhere',
};

/** What taking a difference does, in a word. */
const TAKE_WORDS: Readonly<Record<DifferenceView['kind'], string>> = {
  changed: 'Take it',
  added: 'Add it',
  removed: 'Delete it here too',
  moved: 'Move it there',
};

/** What the buttons do to one's own notebook. */
const TAKING =
  'What you take over changes your own notebook: each thing is one change, and all of it is one, too. Undo takes it back.';

const differs = (count: number): string => `${count} ${count === 1 ? 'thing differs' : 'things differ'}.`;

interface Group {
  readonly where: string;
  readonly list: readonly DifferenceView[];
}

/** The differences by where they stand, in their order. */
function grouped(differences: readonly DifferenceView[]): readonly Group[] {
  const groups = new Map<string, DifferenceView[]>();
  for (const one of differences) groups.set(one.where, [...(groups.get(one.where) ?? []), one]);
  return [...groups].map(([where, list]) => ({ where, list }));
}

/** The page that compares. */
export function ComparePage(props: ComparePageProps) {
  const groups = createMemo(() => grouped(props.comparison.differences));
  const count = () => props.comparison.differences.length;
  let section!: HTMLElement;
  /** What has been taken goes from the list; the keyboard goes on with what stands there now. */
  const take = (key: string, field?: string) => {
    const buttons = () => [...section.querySelectorAll<HTMLElement>('.differences button')];
    const at = buttons().indexOf(document.activeElement as HTMLElement);
    props.onTake(key, field);
    const left = buttons();
    (left[at] ?? left.at(-1) ?? section.querySelector<HTMLElement>('.page-head button'))?.focus();
  };
  return (
    <section ref={section} class="page" aria-labelledby="compare-title">
      <PageHead id="compare-title" title="Compare the two" onClose={props.onClose}>
        <Show when={props.canTake && count() > 0}>
          <button type="button" class="quiet-button" onClick={props.onTakeAll}>
            Take all of it
          </button>
        </Show>
      </PageHead>
      <p role="status">
        {count() === 0
          ? 'There is no difference between the two.'
          : [differs(count()), ...(props.canTake ? [TAKING] : [])].join(' ')}
      </p>
      <Keyed each={groups()} key={(group) => group.where}>
        {(group) => (
          <>
            <h3>{group().where}</h3>
            <table class="differences">
              <thead>
                <tr>
                  <th scope="col">what</th>
                  <th scope="col">{props.mine}</th>
                  <th scope="col">{props.theirs}</th>
                  <th scope="col">
                    <span class="hidden">take over</span>
                  </th>
                </tr>
              </thead>
              <tbody>
                <Keyed each={group().list} key={(one) => one.key}>
                  {(one) => <Rows one={one()} canTake={props.canTake} onTake={take} />}
                </Keyed>
              </tbody>
            </table>
          </>
        )}
      </Keyed>
      <Show when={props.comparison.moved.length > 0}>
        <h3>What comes out otherwise{props.comparison.column && `, ${props.comparison.column}`}</h3>
        <table class="differences">
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col">{props.mine}</th>
              <th scope="col">{props.theirs}</th>
            </tr>
          </thead>
          <tbody>
            <Keyed each={props.comparison.moved} key={(one) => one.name}>
              {(one) => (
                <tr>
                  <th scope="row">{one().name}</th>
                  <td>{one().mine}</td>
                  <td>{one().theirs}</td>
                </tr>
              )}
            </Keyed>
          </tbody>
        </table>
      </Show>
    </section>
  );
}

interface RowsProps {
  readonly one: DifferenceView;
  readonly canTake: boolean;
  readonly onTake: (key: string, field?: string) => void;
}

const NOTHING: PartView = { label: '', mine: '', theirs: '' };

function Rows(props: RowsProps) {
  const parts = () => (props.one.parts.length > 0 ? props.one.parts : [NOTHING]);
  const many = () => parts().length > 1;
  return (
    <Index each={parts()}>
      {(part, at) => (
        <tr>
          <th scope="row">
            {props.one.what}
            <small>
              {many() || props.one.kind === 'changed' ? part().label : KIND_WORDS[props.one.kind]}
            </small>
          </th>
          <td>{part().mine || <Lack />}</td>
          <td>{part().theirs || <Lack />}</td>
          <td>
            <Show when={props.canTake && (many() || at === 0)}>
              <button
                type="button"
                class="quiet-button"
                onClick={() => props.onTake(props.one.key, many() ? part().label : undefined)}
              >
                {TAKE_WORDS[props.one.kind]}
                <span class="hidden">
                  {' '}
                  ({props.one.what} {part().label})
                </span>
              </button>
            </Show>
          </td>
        </tr>
      )}
    </Index>
  );
}

function Lack() {
  return (
    <>
      <span class="soft" aria-hidden="true">
        —
      </span>
      <span class="hidden">nothing</span>
    </>
  );
}

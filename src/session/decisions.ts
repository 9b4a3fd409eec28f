/*
 * Before casting on: what would be decided otherwise within the doubt of what is typed, in sentences. "size to follow is
 * M; L from 19.3 sts / 4 in of stitch gauge up."
 */

import {
  type Decision,
  decisionsOf,
  type Lane,
  laneOf,
  type Otherwise,
  type Uncertain,
  uncertainLanes,
} from '../doubt/index.ts';
import { isDecided, spacedName, walk } from '../formula/index.ts';
import { printed } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { limitTold } from './limits.ts';
import type { Live } from './live.ts';
import { printAt } from './show.ts';

/** A decision that would fall otherwise within the doubt. */
export interface DecisionView {
  readonly cell: string;
  /** "size to follow", or "cast on, M". */
  readonly name: string;
  /** What it is now: "M". */
  readonly now: string;
  /** "M now; L from stitch gauge 19.3 sts / 4 in up." */
  readonly sentence: string;
}

/** So many are told. */
const MOST = 6;

/**
 * What would be decided otherwise, one after another: sizes first, then findings, then counts of your size that steps
 * print. Undefined stands for one that stays. Each is some sweeps of what leads to it.
 */
export function* decisionsInTurn(live: Live): Generator<DecisionView | undefined, undefined> {
  const { sheet } = live;
  const uncertain = uncertainIn(live);
  const moving = new Set(uncertain.flatMap(({ id }) => sheet.feeds(id)));
  const lanes = sheet.cells
    .filter((id) => moving.has(id) && isDecision(live, id))
    .map((id) => laneOf(sheet, id, Math.max(0, sheet.chosenColumn)))
    .filter(({ id, column }) => !sheet.isPinned(id, column))
    .toSorted((a, b) => rankOf(live, a) - rankOf(live, b));
  let told = 0;
  for (const lane of lanes) {
    const [decision] = decisionsOf(sheet, [lane], uncertain);
    yield decision && viewOf(live, decision);
    if (decision) told += 1;
    if (told === MOST) return;
  }
}

/** The same for one value; undefined where it stays as it is. */
export function decisionView(live: Live, lane: Lane): DecisionView | undefined {
  const [decision] = decisionsOf(live.sheet, [lane], uncertainIn(live));
  return decision && viewOf(live, decision);
}

function uncertainIn(live: Live): readonly Uncertain[] {
  const { sheet } = live;
  const typed = sheet.cells
    .filter((id) => sheet.info(id).typed)
    .flatMap((id) =>
      Array.from({ length: sheet.info(id).each ? live.columns.length : 1 }, (_, column) => ({ id, column })),
    );
  return uncertainLanes(sheet, typed);
}

/** A size, a finding that speaks, or a count that is rounded in its own formula. */
function isDecision(live: Live, id: string): boolean {
  const { typed, type } = live.sheet.info(id);
  if (typed) return false;
  if (type.kind === 'label') return true;
  if (type.kind === 'truth') return live.cell(id)?.says !== undefined;
  const tree = isDecided(type) ? live.sheet.tree(id) : undefined;
  let rounds = false;
  if (tree)
    walk(tree, (node) => {
      const spec = node.kind === 'call' ? live.sheet.spec(node.name) : undefined;
      if (spec?.kind === 'number' && spec.holds === 'count') rounds = true;
    });
  return rounds;
}

function rankOf(live: Live, { id }: Lane): number {
  const { kind } = live.sheet.info(id).type;
  if (kind === 'label') return 0;
  if (kind === 'truth') return 1;
  const name = `{${live.sheet.nameOf(id)}}`;
  return live.notebook.steps.some((step) => step.text.includes(name)) ? 2 : 3;
}

function viewOf(live: Live, decision: Decision): DecisionView {
  const { id, column, now } = decision;
  const name = spacedName(live.sheet.nameOf(id));
  const label = live.sheet.info(id).each ? `, ${live.sheet.columnLabels[column] ?? ''}` : '';
  const told = tell(live, decision, now);
  return { cell: id, name: `${name}${label}`, now: told, sentence: sentenceOf(live, decision, told) };
}

/** A number of a decision as the page prints it. */
function tell(live: Live, { id, column }: Lane, number: number): string {
  const value = decidedValue(live, id, column, number);
  return value ? printed(printAt(live, id, column, value)) : 'nothing';
}

function decidedValue(live: Live, id: string, column: number, number: number): Value | undefined {
  if (Number.isNaN(number)) return undefined;
  const { type } = live.sheet.info(id);
  switch (type.kind) {
    case 'quantity':
      return { kind: 'quantity', value: number, type };
    case 'truth':
      return { kind: 'truth', truth: number === 1 };
    case 'label':
      return { kind: 'label', text: live.sheet.around.store.labelText(number) };
    default:
      return live.sheet.value(id, column);
  }
}

/** "208 sts now; 204 sts from stitch gauge 18.9 sts / 4 in down, 212 sts from 19.4 sts / 4 in up; 200 to 212 sts in all." */
function sentenceOf(live: Live, decision: Decision, now: string): string {
  const { type } = live.sheet.info(decision.id);
  if (decision.together) {
    const others = decision.values.filter((value) => value !== decision.now);
    return `${now} now; ${others.map((value) => tell(live, decision, value)).join(' or ')} when several are off at once.`;
  }
  const ends = decision.values.filter((value) => !Number.isNaN(value));
  const [least, most] = [ends[0] as number, ends.at(-1) as number];
  const isRange = type.kind === 'quantity' && ends.length > decision.otherwise.length + 1;
  const bare = tell(live, decision, least).split(' ')[0] ?? '';
  const range = isRange ? `; ${bare} to ${tell(live, decision, most)} in all` : '';
  return `${now} now; ${waysText(live, decision)}${range}.`;
}

/** The ways it falls otherwise; an uncertain value that does so both ways is named once. */
function waysText(live: Live, decision: Decision): string {
  const ways = decision.otherwise.map((one, i) => {
    const before = decision.otherwise[i - 1];
    const isNamed = before?.by.id === one.by.id && before.by.column === one.by.column;
    return `${i === 0 ? '' : isNamed ? ', ' : '; '}${wayText(live, decision, one, isNamed)}`;
  });
  return ways.join('');
}

/** "L from stitch gauge 19.3 sts / 4 in up". */
function wayText(live: Live, decision: Decision, otherwise: Otherwise, isNamed: boolean): string {
  const { by, side, value } = otherwise;
  const limit = limitTold(live, decision, otherwise);
  if (!limit) return tell(live, decision, value);
  const name = isNamed ? '' : `${spacedName(live.sheet.nameOf(by.id))}${columnOf(live, by)} `;
  return `${tell(live, decision, value)} from ${name}${printed(limit)} ${side === 'more' ? 'up' : 'down'}`;
}

function columnOf(live: Live, { id, column }: Lane): string {
  return live.sheet.info(id).each ? `, ${live.sheet.columnLabels[column] ?? ''},` : '';
}

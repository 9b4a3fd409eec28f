/*
 * A value as the page prints it: which unit it is shown in, as typed or to its step, what it was before the change
 * being tried, and what is said beside it.
 */

import {
  isDecided,
  type Node,
  nearest,
  nearestColumns,
  printTyped,
  problem,
  runAt,
  spacedName,
  type TypedNumber,
  typedNumber,
  walk,
} from '../formula/index.ts';
import {
  asPrinted,
  dimensionInWords,
  inSystem,
  isKnitted,
  LENGTH,
  type Manner,
  multiplied,
  PLAIN,
  type Printed,
  printDecimals,
  printDifference,
  printed,
  printValue,
  type Shown,
  same,
  usualUnit,
} from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import { planSays, planText, problemSentence } from '../telling/index.ts';
import type { Blamed } from './blame.ts';
import type { Live } from './live.ts';
import { isInRounds, shownAs, shownWhen } from './shown-as.ts';
import { verdictStep } from './verdict.ts';

/** How a notebook shows what has no unit of its own. */
export function mannerOf(live: Live): Manner {
  return { system: live.notebook.units, money: live.notebook.money ?? '€' };
}

/** The tree of what is typed at a place, where it can be read. */
function treeAt(live: Live, id: string, column: number): Node | undefined {
  return live.sheet.tree(id, column);
}

/** The unit that a cell asks to be shown in, where it is one of its kind. */
function ownUnit(live: Live, id: string, column: number, dimension: number): Shown | undefined {
  const shown = shownAs(live, id, column);
  return shown?.dimension === dimension ? shown : undefined;
}

/** The unit of a worked-out cell: the one the notebook asks for, the one of `… to cm`, or the usual one of its kind. */
function workedUnit(live: Live, id: string, column: number, value: Value & { kind: 'quantity' }): Shown {
  const { type } = value;
  const asked = ownUnit(live, id, column, type.dimension);
  const manner = mannerOf(live);
  if (asked) return inSystem(asked, manner);
  if (type.shown && treeAt(live, id, 0)?.kind === 'to') return type.shown;
  if (type.shown && type.shown.dimension === type.dimension) return inSystem(type.shown, manner);
  return usualUnit(type.dimension, manner);
}

/** The unit a value is shown in at a place; `asTyped` leaves typed lengths in the unit they were typed in. */
export function unitAt(
  live: Live,
  id: string,
  column: number,
  value: Value & { kind: 'quantity' },
  asTyped = false,
): Shown {
  if (!live.sheet.info(id).typed) return workedUnit(live, id, column, value);
  const { dimension } = value.type;
  const tree = treeAt(live, id, column);
  const typed = tree && typedNumber(tree)?.shown;
  // What was there before may have been another kind of thing than what is typed now.
  const shown =
    typed?.dimension === dimension ? typed : (value.type.shown ?? usualUnit(dimension, mannerOf(live)));
  if (asTyped) return shown;
  const asked = shownWhen(live.cell(id)?.shown) !== undefined && ownUnit(live, id, column, dimension);
  return asked || (tree?.kind === 'to' ? shown : inSystem(shown, mannerOf(live)));
}

/** Steps as a tape has them, coarse ones first, by the unit shown. */
const ON_TAPE: Readonly<Record<string, readonly number[]>> = {
  in: [1, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 100],
  cm: [1, 1 / 2, 1 / 10, 1 / 100],
};

/** A length's step in the other system as that one's tape has it: ⅛ in is a millimetre there, and a millimetre 1/16 in. */
function onTape(step: number, { label, factor }: Shown): number {
  const grains = ON_TAPE[label] ?? [];
  const most = step * (label === 'in' ? 1.7 : 1.3);
  return (grains.find((grain) => grain * factor <= most) ?? grains.at(-1) ?? 1) * factor;
}

/** A text taken apart, where it is a simple typed value; it need not stand in a cell. */
export function numberIn(live: Live, text: string | undefined): TypedNumber | undefined {
  const { parsed } = text === undefined ? { parsed: undefined } : live.sheet.look(text);
  return parsed?.kind === 'tree' && parsed.typed ? typedNumber(parsed.tree) : undefined;
}

/**
 * The step a cell is shown and nudged by, in base units; undefined where it has none of its own. In the other system
 * than it was written in it is that one's own: "½ st / 4 in" is half a stitch to 10 cm.
 */
export function ownStep(live: Live, id: string, dimension: number): number | undefined {
  const typed = numberIn(live, live.cell(id)?.step);
  if (!typed || typed.shown.dimension !== dimension || typed.number === 0) return undefined;
  const shown = inSystem(typed.shown, mannerOf(live));
  const step = Math.abs(typed.number) * typed.shown.factor;
  if (shown.label === typed.shown.label) return step;
  return dimension === LENGTH ? onTape(step, shown) : Math.abs(typed.number) * shown.factor;
}

/**
 * The step of what was typed in inches and is shown in centimetres, or the other way round. A length is told to a
 * sixteenth or a millimetre: the step it is nudged by is no measure of how finely it was meant, unless it is finer.
 */
function stepTypedElsewhere(own: number | undefined, { label, factor }: Shown): number | undefined {
  const fine = (label === 'in' ? 1 / 16 : 0.1) * factor;
  const step = Math.min(own ?? fine, fine);
  return step < fine || label === 'in' || label === 'cm' ? step : undefined;
}

/**
 * The step a cell's value is printed to in a unit; undefined for the usual one. `isElsewhere`: it was typed in a unit of
 * the other system. `finer`: a step that a length is told to, where its own is coarser.
 */
export function printStep(
  live: Live,
  id: string,
  shown: Shown,
  isElsewhere: boolean,
  finer: number | undefined,
): number | undefined {
  const own = ownStep(live, id, shown.dimension);
  const step = isElsewhere ? stepTypedElsewhere(own, shown) : own;
  return finer && shown.dimension === LENGTH ? Math.min(step ?? finer, finer) : step;
}

/** Whether a value is what the notebook has there, typed in inches where it is shown in centimetres or the other way. */
function isOfOtherSystem(live: Live, id: string, column: number, value: number): boolean {
  const cell = live.cell(id);
  const typed = numberIn(live, cell?.each?.[live.columns[column] ?? ''] ?? cell?.text);
  if (!typed || !same(typed.number * typed.shown.factor, value)) return false;
  return inSystem(typed.shown, mannerOf(live)).label !== typed.shown.label;
}

function printQuantity(
  live: Live,
  id: string,
  column: number,
  value: Value & { kind: 'quantity' },
  shown: Shown,
  finer: number | undefined,
): Printed {
  let isElsewhere = false;
  if (live.sheet.info(id).typed && !live.sheet.isPinned(id, column)) {
    const tree = treeAt(live, id, column);
    const typed = tree && typedNumber(tree);
    const asTyped =
      typed?.shown.label === shown.label && same(typed.number * typed.shown.factor, value.value);
    if (typed && asTyped) return printTyped(typed);
    isElsewhere =
      typed !== undefined &&
      (typed.shown.label !== shown.label || isOfOtherSystem(live, id, column, value.value));
    // What was typed before is no longer there to read; it is printed as it would have been typed.
    if (typed && (!isElsewhere || typed.shown.dimension !== shown.dimension))
      return printTyped({ number: Number((value.value / shown.factor).toPrecision(6)), shown });
  }
  const step = printStep(live, id, shown, isElsewhere, finer);
  return printValue(value.value, shown, isDecided(value.type), step);
}

const DAY = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

/** A day number as the page prints it: "24 Dec 2026". */
export function printDay(day: number): string {
  return DAY.format(new Date(day * 86_400_000));
}

/**
 * A value as printed; nothing for what is empty, waits or has a problem. `unit` is its `unitAt`, where that is known;
 * `finer` is a step that a length is told to, where its own is coarser.
 */
export function printAt(
  live: Live,
  id: string,
  column: number,
  value: Value,
  unit?: Shown,
  finer?: number,
): Printed {
  switch (value.kind) {
    case 'quantity':
      return printQuantity(live, id, column, value, unit ?? unitAt(live, id, column, value), finer);
    case 'truth':
      return { number: value.truth ? 'yes' : 'no', unit: '' };
    case 'label':
      return { number: value.text, unit: '' };
    case 'date':
      return { number: printDay(value.day), unit: '' };
    case 'plan':
      return { number: planText(value.plan, isInRounds(live, id, column)), unit: '' };
    case 'empty':
      return { number: '', unit: '' };
    default:
      return { number: '—', unit: '' };
  }
}

/** What counts are called at the end of a name, by the unit they are printed in; rounds are rows worked in the round. */
const ECHOES: Readonly<Record<string, RegExp>> = {
  st: /\b(stitches|sts?)$/i,
  row: /\b(rows|row)$/i,
  rnd: /\b(rounds|rnds?|rows)$/i,
  ridge: /\bridges?$/i,
  skein: /\bskeins?$/i,
  ball: /\bballs?$/i,
  hour: /\bhours?$/i,
  day: /\bdays?$/i,
  week: /\bweeks?$/i,
};

/** A printed value without its unit where it stands beside a name that ends with it: not "yoke rows 60 rows". */
export function unechoed(name: string, shown: Printed): Printed {
  const echo = ECHOES[shown.unit] ?? ECHOES[shown.unit.replace(/s$/, '')];
  return echo?.test(name) ? { ...shown, unit: '' } : shown;
}

/** A tolerance that was typed in another unit, in this one: as much of it as anybody means, one figure or from 1 up two. */
export function offIn(off: number, { factor }: Shown): number {
  return Number((off / factor).toPrecision(off < factor ? 1 : 2));
}

/** The tolerance typed with a value: "± ½", or "". */
export function printTolerance(live: Live, id: string, column: number, value: Value): string {
  const off = live.sheet.tolerance(id, column);
  if (off === 0 || value.kind !== 'quantity') return '';
  const shown = unitAt(live, id, column, value);
  const isAsTyped = unitAt(live, id, column, value, true).label === shown.label;
  const number = isAsTyped ? Number((off / shown.factor).toPrecision(4)) : offIn(off, shown);
  return `± ${printTyped({ number, shown }).number}`;
}

/** What is seen of a value that was typed in the other system than it is shown in, in base units. */
export function asShown(live: Live, id: string, value: number, shown: Shown): number {
  return asPrinted(value, shown, false, printStep(live, id, shown, true, undefined));
}

/** How much a value moved, signed: "+2¾"; "" where it did not or cannot be told so. `known` is the unit of `now`. */
export function printMove(
  live: Live,
  id: string,
  column: number,
  old: Value,
  now: Value,
  known?: Shown,
): string {
  if (old.kind !== 'quantity' || now.kind !== 'quantity' || old.type.dimension !== now.type.dimension)
    return '';
  const unit = known ?? unitAt(live, id, column, now);
  const isWhole = isDecided(now.type) && isDecided(old.type);
  const step = ownStep(live, id, now.type.dimension);
  // Worked-out values are printed rounded, and so is their difference, or the three would not add up.
  const read = (one: Value & { kind: 'quantity' }) => {
    if (!live.sheet.info(id).typed) return asPrinted(one.value, unit, isWhole, step);
    return isOfOtherSystem(live, id, column, one.value) ? asShown(live, id, one.value, unit) : one.value;
  };
  return printDifference(read(now) - read(old), unit, isWhole, step);
}

/** Whether two values are the same to a knitter. */
export function sameValue(a: Value, b: Value): boolean {
  if (a.kind === 'quantity' && b.kind === 'quantity') return a.value === b.value;
  return JSON.stringify(a) === JSON.stringify(b);
}

/** The name of what a value waits for, with spaces. */
export function waitsFor(live: Live, value: Value & { kind: 'waiting' }): string {
  const { chosen } = live.notebook;
  const follows = chosen && 'follow' in chosen ? chosen.follow : '';
  const name = value.name === '' ? follows : value.name;
  if (name === '') return `the chosen ${live.notebook.columns?.heading ?? 'column'}`;
  const blamed = live.blamedFor(live.sheet.idOf(name) ?? '');
  return spacedName(blamed ? live.sheet.nameOf(blamed.cell) : name);
}

/** What a formula waits for that does not fit because of one typed cell. */
export function blamedWords(live: Live, { cell }: Blamed): string {
  const { type } = live.sheet.info(cell);
  const isPlain = type.kind === 'quantity' && type.dimension === PLAIN;
  const why = isPlain ? 'which has no unit yet' : 'whose unit does not fit here';
  return `${spacedName(live.sheet.nameOf(cell))}, ${why}`;
}

/** What is said of the typed cell itself: what it should be, with its own number as an example. */
function blameSays(
  live: Live,
  { cell, wants }: Blamed,
  value: Value & { kind: 'quantity' },
  column: number,
): string {
  const shown = usualUnit(wants, mannerOf(live));
  const { number } = printAt(live, cell, column, value);
  const example = `${number} ${shown.label}`.trim();
  const isPlain = value.type.dimension === PLAIN;
  if (wants === PLAIN) return `What uses this needs a number without a unit, as ${number}.`;
  return isPlain
    ? `This needs its unit, as ${example}: other cells wait for it.`
    : `What uses this needs ${dimensionInWords(wants)}, as ${example}.`;
}

/** The column whose values a single sentence shows for cells with one for each: the chosen one. */
export function columnFor(live: Live, column: number | undefined): number {
  return column ?? Math.max(0, live.sheet.chosenColumn);
}

/** A cell's value in words: "42¾ in", "M", "not known yet". */
export function wordsAt(live: Live, id: string, column: number, finer?: number): string {
  const value = live.sheet.value(id, column);
  if (value.kind === 'empty') return 'not given';
  if (value.kind === 'waiting' || value.kind === 'problem') return 'not known yet';
  return printed(printAt(live, id, column, value, undefined, finer));
}

/**
 * Text with `{cell}` filled in; a cell with one value for each column shows the given column's, or the chosen one's.
 * `finer`: a step that lengths are told to. Two lengths in centimetres are told to a tenth, so that what one is more than
 * the other is seen to be so.
 */
export function fill(live: Live, text: string, column: number | undefined, finer?: number): string {
  const at = columnFor(live, column);
  let lengths = 0;
  const filled = (step: number | undefined) =>
    text.replace(/\{([^{}]{1,80})\}/gu, (whole, name: string) => {
      const id = live.sheet.idOf(name.trim().replace(/\s+/g, '_'));
      if (id === undefined) return whole;
      const words = wordsAt(live, id, at, step);
      if (/^\S+ cm$/.test(words)) lengths += 1;
      return words;
    });
  const told = filled(finer);
  return lengths > 1 && finer === undefined ? filled(100) : told;
}

/** Whether a value is a length or has one in it, as a gauge. */
export function isLengthish(value: Value): boolean {
  return (
    value.kind === 'quantity' &&
    (value.type.dimension === LENGTH || multiplied(value.type.dimension, LENGTH) !== PLAIN)
  );
}

/** "more", or of stitches and rows "fewer", of anything else "less". */
export function comparing(by: number, value: Value): 'more' | 'fewer' | 'less' {
  if (by > 0) return 'more';
  return value.kind === 'quantity' && isKnitted(value.type.dimension) ? 'fewer' : 'less';
}

/** How finely a miss is told: as what is compared or wanted; centimetres to a tenth, 2.7 being no 2.5. */
function missStep(live: Live, { args }: Node & { kind: 'call' }, shown: Shown): number | undefined {
  const steps = args.flatMap((arg) => {
    const id = arg.kind === 'cell' ? live.sheet.idOf(arg.name) : undefined;
    return (id !== undefined && ownStep(live, id, shown.dimension)) || [];
  });
  if (steps.length > 0) return Math.min(...steps);
  return shown.label === 'cm' ? 0.1 * shown.factor : undefined;
}

/** What `nearest` found, said with both neighbours and signed misses, and a tie where it is one. */
function nearestRemark(live: Live, call: Node & { kind: 'call' }): string {
  const spec = live.sheet.spec('nearest');
  if (spec?.kind !== 'run') return '';
  const { run } = runAt(spec, call, 0, live.sheet.around);
  const target = run.single(0);
  const best = nearestColumns(run);
  const labels = live.sheet.columnLabels;
  const [first] = best;
  if (first === undefined || Number.isNaN(target)) return '';
  const miss = (c: number) => run.value(0, c) - target;
  const other = Array.from({ length: run.columns }, (_, c) => c)
    .filter((c) => c !== first && !Number.isNaN(run.value(0, c)) && miss(c) * (miss(first) || 1) < 0)
    .sort((a, b) => Math.abs(miss(a)) - Math.abs(miss(b)))[0];
  const of = call.args[0] as Node;
  const wanted = live.sheet.workOut(call.args[1] as Node, 0);
  const tell = (c: number) => {
    const value = live.sheet.workOut(of, c);
    if (value.kind !== 'quantity') return '';
    const shown = inSystem(
      value.type.shown ?? usualUnit(value.type.dimension, mannerOf(live)),
      mannerOf(live),
    );
    // What is wanted may be half a month or a millimetre where what there is comes in wholes: all are told as finely.
    const decided = isDecided(value.type) && wanted.kind === 'quantity' && isDecided(wanted.type);
    const step = missStep(live, call, shown);
    const print = (x: number) => printed(printValue(x, shown, decided, step));
    const by = asPrinted(value.value, shown, decided, step) - asPrinted(target, shown, decided, step);
    const made = `${labels[c]} is ${print(value.value)}`;
    if (/^[0.]*( |$)/.test(print(Math.abs(by)))) return `${made}, just right`;
    return `${made}, ${print(Math.abs(by))} ${comparing(by, value)}${isSaid(c) ? ` than the ${print(target)} wanted` : ''}`;
  };
  const isSaid = (c: number) => c === first && best.length === 1; // Once, with the first.
  if (!isLengthish(wanted) && wanted.kind !== 'quantity') return '';
  if (best.length > 1)
    return `${best.map(tell).join('; ')}: equally near, so ${labels[first]}, which comes first`;
  return `${tell(first)}${other === undefined ? '' : `; ${tell(other)}`}`;
}

/** Columns that a function over the columns passed over because they are empty. */
function emptyRemark(live: Live, call: Node & { kind: 'call' }): string {
  const spec = live.sheet.spec(call.name);
  if (spec?.kind !== 'run' || spec.only) return '';
  const { run } = runAt(spec, call, 0, live.sheet.around);
  const missing = Array.from({ length: run.columns }, (_, c) => c).filter((c) =>
    Number.isNaN(run.value(0, c)),
  );
  if (missing.length === 0 || missing.length === run.columns) return '';
  const labels = missing.map((c) => live.sheet.columnLabels[c] ?? '');
  return `without ${labels.join(', ')}: nothing there yet`;
}

/** What is remarked about how a value came about: nearest and its neighbours, ties, columns left out. */
export function remarksAt(live: Live, id: string): readonly string[] {
  const tree = live.sheet.info(id).typed ? undefined : treeAt(live, id, 0);
  const calls = callsIn(tree);
  if (calls.length === 0) return NOTHING;
  const remarks: string[] = [];
  for (const call of calls) {
    if (call.name === 'nearest' && tree === call) remarks.push(nearestRemark(live, call));
    if (live.sheet.spec(call.name)?.kind === 'run') remarks.push(emptyRemark(live, call));
  }
  return remarks.filter((remark, i) => remark !== '' && remarks.indexOf(remark) === i);
}

/** Whether something can be remarked about how a cell's value came about. The same for a tree however values move. */
export function isRemarked(live: Live, id: string): boolean {
  const tree = treeAt(live, id, 0);
  if (!tree) return false;
  let remarked = remarkedTrees.get(tree);
  if (remarked === undefined) {
    remarked = callsIn(tree).some(({ name }) => live.sheet.spec(name)?.kind === 'run');
    remarkedTrees.set(tree, remarked);
  }
  return remarked;
}

const remarkedTrees = new WeakMap<Node, boolean>();

type Call = Node & { readonly kind: 'call' };

/** The calls in a tree. Asked for at every value that is printed, and the same however the values move. */
function callsIn(tree: Node | undefined): readonly Call[] {
  if (!tree) return NONE;
  let calls = callsOf.get(tree);
  if (!calls) {
    const found: Call[] = [];
    walk(tree, (node) => {
      if (node.kind === 'call') found.push(node);
    });
    calls = found;
    callsOf.set(tree, calls);
  }
  return calls;
}

const NONE: readonly Call[] = [];
const NOTHING: readonly string[] = [];
const callsOf = new WeakMap<Node, readonly Call[]>();

/** The label of the column that a function over all of them waits for, because it is broken further up. */
export function brokenColumn(value: Value): string | undefined {
  if (value.kind !== 'problem' || value.problem.code !== 'broken-column') return undefined;
  return `${value.problem.parts['column'] ?? ''}`;
}

/** A part of a sentence that is said again right after it. */
const TWICE = /(^|, )([^,]+), \2(?=,|$)/;

/** The sentence beside a value: its problem, what it waits for, what the cell says, or what is remarked. */
export function saysAt(live: Live, id: string, column: number, value: Value): string {
  const blamed = value.kind === 'problem' ? live.blamedFor(id) : undefined;
  if (blamed) return `waiting for ${blamedWords(live, blamed)}`;
  const broken = brokenColumn(value);
  if (broken !== undefined) return `waiting for ${broken}, which has a problem further up`;
  const blame = value.kind === 'quantity' ? live.blameOn(id) : undefined;
  if (blame && value.kind === 'quantity') return blameSays(live, blame, value, column);
  if (value.kind === 'problem') return problemSentence(value.problem);
  if (value.kind === 'waiting') return `waiting for ${waitsFor(live, value)}`;
  if (value.kind === 'empty') return '';
  const says = live.cell(id)?.says;
  const spoken = value.kind === 'truth' ? (value.truth ? says?.yes : says?.no) : says?.text;
  if (spoken) {
    const finer = value.kind === 'truth' ? verdictStep(live, id, column, value.truth) : undefined;
    // Two values that print alike are said once: "141 rnds make 48 cm".
    return fill(live, spoken, live.sheet.info(id).each ? column : undefined, finer).replace(TWICE, '$1$2');
  }
  const remarks = remarksAt(live, id);
  if (value.kind !== 'plan') return inOneSentence(remarks);
  return inOneSentence([...remarks, ...planSays(value.plan, isInRounds(live, id, column))]);
}

/** Remarks one after the other; only the last keeps its full stop. */
function inOneSentence(remarks: readonly string[]): string {
  if (remarks.length === 0) return '';
  return remarks.map((remark, i) => (i + 1 < remarks.length ? remark.replace(/\.$/, '') : remark)).join('; ');
}

/** A number of things a knitter counts, without a unit, for sentences. */
export function countWords(count: number, one: string, many: string): string {
  return `${printDecimals(count, 0)} ${count === 1 ? one : many}`;
}

/** A sentence for a name that nothing has, with a near one. */
export function unknownName(live: Live, name: string): string {
  const names = live.sheet.cells.map((id) => live.sheet.nameOf(id));
  const near = nearest(name, names);
  return problemSentence(
    near ? problem('unknown-name-near', { name, near }) : problem('unknown-name', { name }),
  );
}

/*
 * Which typed cell is to blame when what is worked out does not fit together. A gauge typed without its unit breaks
 * whatever uses it, far below, each in its own way; to a knitter one number is wrong and the rest waits. So for every
 * formula whose kinds do not fit, each number typed above it is tried as another kind of thing: the one that puts the
 * most right, and nothing wrong that was right, is named. Nothing is worked out for this, only kinds are looked at.
 *
 * A formula that is just being written wrongly must not be laid at the door of a cell that it uses. So a cell is named
 * only where several formulas would be mended, or where it is called a measure and has no unit at all; one that has a
 * unit, where even more would be. A formula of which nothing can be said any more is not mended by that.
 */

import { type Checked, checkTree, type Known, quantity, type Scope, type Type } from '../formula/index.ts';
import {
  type Dimension,
  divided,
  LENGTH,
  MASS,
  PLAIN,
  ROW,
  ROW_GAUGE,
  STITCH,
  STITCH_GAUGE,
  TIME,
} from '../quantity/index.ts';
import type { Sheet } from '../sheet/index.ts';

/** A typed cell that should be another kind of thing. */
export interface Blamed {
  readonly cell: string;
  readonly wants: Dimension;
}

/** Who is to blame for each formula that does not fit, by its cell id. */
export type Blame = ReadonlyMap<string, Blamed>;

const NOBODY: Blame = new Map();

/** The problems that come of one kind of thing standing where another is needed. */
const OF_KINDS: ReadonlySet<string> = new Set([
  'argument-kind',
  'arms-unlike',
  'compare-unlike',
  'count-with-number',
  'length-to-count',
  'length-with-count',
  'length-with-number',
  'not-a-number',
  'rows-with-stitches',
  'to-unlike',
  'unlike',
]);

/** The kinds a number is tried as. */
const KINDS: readonly Dimension[] = [
  LENGTH,
  STITCH_GAUGE,
  ROW_GAUGE,
  STITCH,
  ROW,
  PLAIN,
  MASS,
  TIME,
  divided(LENGTH, MASS),
];

/** More cells than this are not looked through at every key. */
const MOST_CELLS = 800;
/** Nor more typed cells than this above one formula. */
const MOST_ABOVE = 60;

/** What ends the name of a measure, which has a unit. */
const MEASURE =
  /(gauge|length|girth|width|depth|height|chest|ease|arm|wrist|head|neck|stitches|rows|rounds|weight|around)$/i;
/** So many formulas at least speak against a number without a unit, */
const SEVERAL = 2;
/** and so many against one that was typed with its unit. */
const MANY = 3;

/** Whether a cell's formula is one whose kinds do not fit. */
export function doesNotFit(sheet: Sheet, id: string): boolean {
  if (sheet.info(id).typed) return false;
  const value = sheet.value(id);
  return value.kind === 'problem' && OF_KINDS.has(value.problem.code);
}

/** Who is to blame for each of these formulas; those for which nobody can be named are left out. */
export function blameOf(sheet: Sheet, broken: readonly string[], money: string): Blame {
  if (broken.length === 0 || sheet.cells.length > MOST_CELLS) return NOBODY;
  const blame = new Map<string, Blamed>();
  const found: Supposed[] = [];
  for (const id of broken) {
    const known = found.find((one) => one.fits(id));
    const supposed = known ?? best(sheet, id, broken, money);
    if (!supposed) continue;
    if (!known) found.push(supposed);
    blame.set(id, supposed.blamed);
  }
  return blame;
}

/** The change of one typed cell that mends a formula and, with it, the most others. */
function best(sheet: Sheet, id: string, broken: readonly string[], money: string): Supposed | undefined {
  const tried = typedAbove(sheet, id)
    .slice(0, MOST_ABOVE)
    .flatMap((cell) => KINDS.map((wants) => new Supposed(sheet, { cell, wants }, money)))
    .filter((one) => one.isAnother && one.fits(id));
  const gains = tried.map((one) => one.gain(broken));
  const most = Math.max(...gains);
  const found = tried[gains.indexOf(most)];
  return found && isEnough(sheet, found.blamed.cell, most) ? found : undefined;
}

/** Whether so many formulas speak against a number that it is named. */
function isEnough(sheet: Sheet, cell: string, gain: number): boolean {
  if (lacksUnit(sheet, cell)) return gain > 0;
  return gain >= (isBare(sheet, cell) ? SEVERAL : MANY);
}

/** Whether a cell is called a measure and holds a bare number. */
function lacksUnit(sheet: Sheet, cell: string): boolean {
  return isBare(sheet, cell) && MEASURE.test(sheet.nameOf(cell));
}

function isBare(sheet: Sheet, cell: string): boolean {
  const { type } = sheet.info(cell);
  return type.kind === 'quantity' && type.dimension === PLAIN && type.shown === undefined;
}

/** The typed numbers a cell comes from, the nearest first. */
function typedAbove(sheet: Sheet, id: string): readonly string[] {
  const seen = new Set([id]);
  const found: string[] = [];
  for (const cell of seen)
    for (const use of sheet.uses(cell)) {
      if (seen.has(use)) continue;
      seen.add(use);
      const { typed, type } = sheet.info(use);
      if (typed && type.kind === 'quantity') found.push(use);
    }
  return found;
}

/** The kinds of all cells if one typed cell were another kind of thing. */
class Supposed {
  readonly blamed: Blamed;
  private readonly sheet: Sheet;
  private readonly touched: ReadonlySet<string>;
  private readonly seen = new Map<string, Checked>();
  private readonly scope: Scope;

  constructor(sheet: Sheet, blamed: Blamed, money: string) {
    this.sheet = sheet;
    this.blamed = blamed;
    this.touched = new Set(sheet.feeds(blamed.cell));
    this.scope = {
      cell: (name) => this.known(sheet.idOf(name)),
      cellNames: () => [],
      spec: (name) => sheet.spec(name),
      specNames: () => [],
      columns: sheet.columnLabels.length > 0,
      heading: '',
      money,
    };
  }

  /** Whether the cell would be another kind of thing than it is. */
  get isAnother(): boolean {
    const { type } = this.sheet.info(this.blamed.cell);
    return type.kind === 'quantity' && type.dimension !== this.blamed.wants;
  }

  /** Whether a formula that it reaches would fit together. */
  fits(id: string): boolean {
    if (!this.touched.has(id)) return false;
    const checked = this.checked(id);
    return checked.type.kind !== 'unknown' && !isOfKinds(checked);
  }

  /** How many of the broken formulas it mends; 0 where it breaks one that is right. */
  gain(broken: readonly string[]): number {
    const isBroken = new Set(broken);
    let gain = 0;
    for (const id of this.touched) {
      if (isBroken.has(id)) gain += this.fits(id) ? 1 : 0;
      else if (this.isRight(id) && isOfKinds(this.checked(id))) return 0;
    }
    return gain;
  }

  /** Whether a formula fits together as it stands, and all that it comes from. */
  private isRight(id: string): boolean {
    return this.sheet.info(id).type.kind !== 'unknown';
  }

  private known(id: string | undefined): Known | undefined {
    if (id === undefined) return undefined;
    const { type, each } = this.sheet.info(id);
    if (id === this.blamed.cell) return { type: quantity(this.blamed.wants, true), each };
    if (!this.touched.has(id)) return { type, each };
    const checked = this.checked(id);
    return { type: checked.type, each: checked.each };
  }

  private checked(id: string): Checked {
    const before = this.seen.get(id);
    if (before) return before;
    this.seen.set(id, UNSETTLED); // A ring of cells ends here.
    const text = this.sheet.textOf(id);
    const tree = this.sheet.tree(id);
    const { type, each } = this.sheet.info(id);
    const isFormula = tree !== undefined && typeof text === 'string';
    const checked = isFormula ? checkTree(text, tree, this.scope) : { type, each, problems: [] };
    this.seen.set(id, checked);
    return checked;
  }
}

const UNKNOWN: Type = { kind: 'unknown' };
const UNSETTLED: Checked = { type: UNKNOWN, each: false, problems: [] };

function isOfKinds({ problems }: Checked): boolean {
  return problems.some(({ code }) => OF_KINDS.has(code));
}

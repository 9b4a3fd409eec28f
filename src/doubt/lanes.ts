/*
 * Lanes: a cell in one column. Which typed lanes a value hangs on is read from the formulas, column by column: the
 * chest of size S does not move the ease of size M, unless a function over the columns looks at both.
 *
 * With `held`, what is decided is not followed: once a count is rounded, or a size named, nothing reaches through.
 */

import { exploring, type Replaced, type Sheet } from '../sheet/index.ts';

/** A cell in a column; the column is 0 for a cell with one value. */
export interface Lane {
  readonly id: string;
  readonly column: number;
}

/** A formula as the sheet reads it. */
export type Tree = NonNullable<ReturnType<Sheet['tree']>>;
export type Call = Tree & { readonly kind: 'call' };
/** What is known of a function. */
export type Spec = NonNullable<ReturnType<Sheet['spec']>>;
export type RunSpec = Spec & { readonly kind: 'run' };

/** A lane that has to be worked out on the way to another, with its formula (none for a typed one) and what it uses. */
export interface Leading extends Lane {
  readonly key: string;
  readonly tree: Tree | undefined;
  /** The lanes its formula uses, one as often as it stands there. */
  readonly uses: readonly string[];
}

/** The numbers of a lane as the sheet is, and then at each point. With `held`, what was decided stays. NaN for none. */
export function numbersAt(
  sheet: Sheet,
  { id, column }: Lane,
  points: readonly (readonly Replaced[])[],
  held: boolean,
): readonly number[] {
  return exploring(sheet, points, held, id, ({ variants, number }) =>
    Array.from({ length: variants }, (_, v) => number(id, column, v)),
  );
}

/** A lane as one text. */
export function keyOf(id: string, column: number): string {
  return `${id} ${column}`;
}

/** The lane of a cell in a column, whether it has one value or one for each. */
export function laneOf(sheet: Sheet, id: string, column: number): Lane {
  return { id, column: sheet.info(id).each ? column : 0 };
}

/** The lanes a lane can hang on, each after what it uses and itself last. Linear in what it hangs on. */
export function lanesTo(sheet: Sheet, lane: Lane, held: boolean): readonly Leading[] {
  const needed = new Map<string, Set<number>>([[lane.id, new Set([lane.column])]]);
  const found: Leading[] = [];
  for (const id of [...sheet.above(lane.id)].reverse())
    for (const column of needed.get(id) ?? []) {
      const leading = leadingOf(sheet, { id, column }, held);
      found.push(leading.lane);
      for (const use of leading.uses) {
        const columns = needed.get(use.id) ?? new Set();
        needed.set(use.id, columns.add(use.column));
      }
    }
  return found.reverse();
}

function leadingOf(
  sheet: Sheet,
  { id, column }: Lane,
  held: boolean,
): { readonly lane: Leading; readonly uses: readonly Lane[] } {
  const { typed, type } = sheet.info(id);
  const fixed = typed || sheet.isPinned(id, column) || (type.kind === 'unknown' && isRefused(sheet, id));
  const tree = fixed ? undefined : sheet.tree(id, column);
  const uses: Lane[] = [];
  if (tree) new Uses(sheet, held, uses).see(tree, column);
  const keys = uses.map((use) => keyOf(use.id, use.column));
  return { lane: { id, column, key: keyOf(id, column), tree, uses: keys }, uses };
}

/** Whether a formula is not worked out at all: something is wrong in its text, or it goes round in a circle. */
function isRefused(sheet: Sheet, id: string): boolean {
  const text = sheet.textOf(id);
  const value = sheet.value(id);
  if (value.kind === 'problem' && value.problem.code === 'circle') return true;
  return typeof text === 'string' && (sheet.look(text).checked?.problems.length ?? 0) > 0;
}

/** The columns a function over the columns looks at, for the arguments it takes column by column. */
export function columnsLookedAt(sheet: Sheet, call: Call, spec: RunSpec, held: boolean): readonly number[] {
  const all = Array.from({ length: sheet.columnLabels.length }, (_, c) => c);
  if (!held) return all;
  if (spec.followsChosen) return all.filter((c) => c === sheet.chosenColumn);
  const label = call.args.find((_, i) => spec.parameters[i]?.accepts === 'label');
  const named = label && spec.only ? steadyColumn(sheet, label) : undefined;
  return named === undefined ? all : [named];
}

/** The column a label names, where it is held: written out, typed, or found by a function over the columns. */
function steadyColumn(sheet: Sheet, label: Tree): number | undefined {
  const id = label.kind === 'cell' ? sheet.idOf(label.name) : undefined;
  const isSteady = label.kind === 'label' || (id !== undefined && isHeldLabel(sheet, id));
  const value = isSteady ? sheet.workOut(label, 0) : undefined;
  if (value?.kind !== 'label') return undefined;
  const text = value.text.toLowerCase();
  const column = sheet.columnLabels.findIndex((one) => one.toLowerCase() === text);
  return column < 0 ? undefined : column;
}

function isHeldLabel(sheet: Sheet, id: string): boolean {
  if (sheet.info(id).each) return false;
  if (sheet.info(id).typed) return true;
  const tree = sheet.tree(id);
  return tree?.kind === 'call' && isHeld(sheet.spec(tree.name));
}

/** Whether what a function decides is held. */
export function isHeld(spec: Spec | undefined): boolean {
  if (spec?.kind === 'number') return spec.holds === 'count';
  return spec?.kind === 'plan' || (spec?.kind === 'run' && spec.gives === 'label');
}

/** Collects the lanes that a formula uses in a column. */
class Uses {
  constructor(
    private readonly sheet: Sheet,
    private readonly held: boolean,
    private readonly found: Lane[],
  ) {}

  see(node: Tree, column: number): void {
    switch (node.kind) {
      case 'cell':
        return this.cell(node.name, column);
      case 'call':
        return this.call(node, column);
      case 'binary':
        this.see(node.left, column);
        return this.see(node.right, column);
      case 'minus':
      case 'not':
      case 'to':
        return this.see(node.of, column);
      case 'if':
        for (const part of [node.test, node.yes, node.no]) this.see(part, column);
    }
  }

  private cell(name: string, column: number): void {
    const id = this.sheet.idOf(name);
    if (id === undefined) return;
    this.found.push(laneOf(this.sheet, id, column));
  }

  private call(node: Call, column: number): void {
    const spec = this.sheet.spec(node.name);
    if (this.held && isHeld(spec)) return;
    if (spec?.kind === 'run') return this.run(node, spec, column);
    for (const arg of node.args) this.see(arg, column);
  }

  private run(node: Call, spec: RunSpec, column: number): void {
    const { followed } = this.sheet;
    if (spec.followsChosen && !this.held && followed !== undefined) this.cell(this.sheet.nameOf(followed), 0);
    const columns = columnsLookedAt(this.sheet, node, spec, this.held);
    node.args.forEach((arg, i) => {
      if (!spec.parameters[i]?.each) this.see(arg, column);
      else for (const c of columns) this.see(arg, c);
    });
  }
}

/*
 * How finely a verdict is told. Lengths are printed to a quarter of an inch or half a centimetre, and a verdict is worked
 * out from all of their digits: "2.5 cm off, and 2½ cm is allowed: no" would be seen to be false. So what is said beside
 * a yes or no is told to the first step, from the usual one down, at which the verdict follows from the lengths as they
 * are printed.
 */

import { isDecided, type Node, typedNumber, walk } from '../formula/index.ts';
import { asPrinted, LENGTH, usualUnit } from '../quantity/index.ts';
import type { Value } from '../sheet/index.ts';
import type { Live } from './live.ts';
import { mannerOf, printStep, unitAt } from './show.ts';

/** Steps finer than the usual one, in the unit of the notebook. */
const FINER = { in: [1 / 8, 1 / 16, 1 / 100], cm: [1 / 10, 1 / 100] } as const;

/**
 * The step, in base units, to which the lengths in the sentence beside a yes or no are told, so that it is seen to
 * follow; undefined where the usual one does, or where none would.
 */
export function verdictStep(live: Live, id: string, column: number, truth: boolean): number | undefined {
  const tree = live.sheet.tree(id, 0);
  if (!tree || !tellsLengths(live, tree)) return undefined;
  const unit = usualUnit(LENGTH, mannerOf(live));
  const steps = [undefined, ...FINER[live.notebook.units].map((step) => step * unit.factor)];
  return steps.find((step) => {
    const told = live.sheet.workOut(asTold(live, tree, column, step), column);
    return told.kind === 'truth' && told.truth === truth;
  });
}

/** The value of a cell in a column where it is a length that is printed rounded, not as it was typed. */
function lengthOf(live: Live, name: string, column: number): (Value & { kind: 'quantity' }) | undefined {
  const id = live.sheet.idOf(name);
  if (id === undefined) return undefined;
  const value = live.sheet.value(id, live.sheet.info(id).each ? column : 0);
  if (value.kind !== 'quantity' || value.type.dimension !== LENGTH) return undefined;
  if (!live.sheet.info(id).typed) return value;
  const tree = live.sheet.tree(id, column);
  const isAsTyped = tree && typedNumber(tree)?.shown.label === unitAt(live, id, column, value).label;
  return isAsTyped ? undefined : value;
}

function tellsLengths(live: Live, tree: Node): boolean {
  let tells = false;
  walk(tree, (node) => {
    if (node.kind !== 'cell') return;
    const { type } = live.sheet.info(live.sheet.idOf(node.name) ?? '') ?? {};
    if (type?.kind === 'quantity' && type.dimension === LENGTH) tells = true;
  });
  return tells;
}

/** A tree with the lengths it names as they are printed. What is asked of all columns at once stays as it is. */
function asTold(live: Live, tree: Node, column: number, step: number | undefined): Node {
  const told = (node: Node) => asTold(live, node, column, step);
  switch (tree.kind) {
    case 'cell':
      return literalOf(live, tree, column, step) ?? tree;
    case 'call':
      if (live.sheet.spec(tree.name)?.kind === 'run' || tree.name === 'given') return tree;
      return { ...tree, args: tree.args.map(told) };
    case 'binary':
      return { ...tree, left: told(tree.left), right: told(tree.right) };
    case 'minus':
    case 'not':
    case 'to':
      return { ...tree, of: told(tree.of) };
    case 'if':
      return { ...tree, test: told(tree.test), yes: told(tree.yes), no: told(tree.no) };
    default:
      return tree;
  }
}

function literalOf(
  live: Live,
  { name, at }: Node & { kind: 'cell' },
  column: number,
  finer: number | undefined,
): Node | undefined {
  const value = lengthOf(live, name, column);
  const id = live.sheet.idOf(name);
  if (!value || id === undefined) return undefined;
  const shown = unitAt(live, id, column, value);
  const step = printStep(live, id, shown, live.sheet.info(id).typed, finer);
  return {
    kind: 'literal',
    value: asPrinted(value.value, shown, isDecided(value.type), step),
    shown,
    percent: false,
    at,
  };
}

/*
 * Renaming reaches every text that names a cell or a column: formulas, what cells say, steps, drawings, what the
 * chosen column follows, labels in quotes. This works the new texts out; the change carries them.
 */

import { renameCellIn, renameLabelIn, spacedName } from '../formula/index.ts';
import {
  allCells,
  type Cell,
  type CellTexts,
  type Notebook,
  type Rewrites,
  type Says,
} from '../notebook/index.ts';
import { shownRenamed } from './shown-as.ts';

type Turn = (text: string) => string;

/** How each kind of text about a cell is turned. */
interface Turns {
  readonly formula: Turn;
  readonly sentence: Turn;
  readonly shown: Turn;
}

const asItIs: Turn = (text) => text;

function turnedBraces(text: string, old: string, renamed: string): string {
  return text.replace(/\{([^{}]+)\}/gu, (whole, name: string) => {
    const plain = name.trim().replace(/\s+/g, '_');
    if (plain !== old) return whole;
    return `{${name.includes('_') || !old.includes('_') ? renamed : spacedName(renamed)}}`;
  });
}

function turnedSays(says: Says | undefined, turn: Turn): Says | undefined {
  if (!says) return undefined;
  const { yes, no, text } = says;
  const next = {
    ...says,
    ...(yes === undefined ? {} : { yes: turn(yes) }),
    ...(no === undefined ? {} : { no: turn(no) }),
    ...(text === undefined ? {} : { text: turn(text) }),
  };
  return next.yes === yes && next.no === no && next.text === text ? undefined : next;
}

function turnedEach(each: Cell['each'], turn: Turn): Cell['each'] {
  if (!each) return undefined;
  const entries = Object.entries(each).map(([id, text]) => [id, turn(text)] as const);
  return entries.some(([id, text]) => text !== each[id]) ? Object.fromEntries(entries) : undefined;
}

function turnedCell(cell: Cell, { formula, sentence, shown: turn }: Turns): CellTexts | undefined {
  const text = cell.text === undefined ? undefined : formula(cell.text);
  const each = turnedEach(cell.each, formula);
  const says = turnedSays(cell.says, sentence);
  const shown = cell.shown === undefined ? undefined : turn(cell.shown);
  const texts: CellTexts = {
    ...(text !== undefined && text !== cell.text ? { text } : {}),
    ...(each ? { each } : {}),
    ...(says ? { says } : {}),
    ...(shown !== undefined && shown !== cell.shown ? { shown } : {}),
  };
  return Object.keys(texts).length > 0 ? texts : undefined;
}

function turnedCells(notebook: Notebook, turns: Turns): Record<string, CellTexts> {
  const turned: Record<string, CellTexts> = {};
  for (const cell of allCells(notebook)) {
    const texts = turnedCell(cell, turns);
    if (texts) turned[cell.id] = texts;
  }
  return turned;
}

function turnedSteps(notebook: Notebook, old: string, renamed: string): NonNullable<Rewrites['steps']> {
  const steps = notebook.steps.flatMap((step) => {
    const text = turnedBraces(step.text, old, renamed);
    const when = turnedWhen(step.when, old, renamed);
    const texts = {
      ...(text === step.text ? {} : { text }),
      ...(when === step.when || when === undefined ? {} : { when }),
    };
    return Object.keys(texts).length > 0 ? [[step.id, texts] as const] : [];
  });
  return Object.fromEntries(steps);
}

/** A step may happen when a cell says no, too: "not passes". */
function turnedWhen(when: string | undefined, old: string, renamed: string): string | undefined {
  const [, not = '', name] = /^(not\s+)?(.*)$/su.exec(when ?? '') ?? [];
  return name === old ? not + renamed : when;
}

function turnedDrawings(notebook: Notebook, old: string, renamed: string): NonNullable<Rewrites['drawings']> {
  const drawings = notebook.drawings.flatMap((drawing) => {
    const binds = Object.entries(drawing.binds).map(
      ([part, name]) => [part, name === old ? renamed : name] as const,
    );
    return binds.some(([part, name]) => drawing.binds[part] !== name)
      ? [[drawing.id, Object.fromEntries(binds)] as const]
      : [];
  });
  return Object.fromEntries(drawings);
}

/** Everything that is rewritten when a cell is renamed. */
export function rewritesForCell(notebook: Notebook, old: string, renamed: string): Rewrites {
  const cells = turnedCells(notebook, {
    formula: (text) => renameCellIn(text, old, renamed),
    sentence: (text) => turnedBraces(text, old, renamed),
    shown: (text) => shownRenamed(text, old, renamed),
  });
  const follows = notebook.chosen && 'follow' in notebook.chosen && notebook.chosen.follow === old;
  return {
    cells,
    steps: turnedSteps(notebook, old, renamed),
    drawings: turnedDrawings(notebook, old, renamed),
    ...(follows ? { follow: renamed } : {}),
  };
}

/** Everything that is rewritten when a column's label changes. */
export function rewritesForColumn(notebook: Notebook, old: string, renamed: string): Rewrites {
  return {
    cells: turnedCells(notebook, {
      formula: (text) => renameLabelIn(text, old, renamed),
      sentence: asItIs,
      shown: asItIs,
    }),
  };
}

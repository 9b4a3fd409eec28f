/*
 * The peers: other general ways to keep a sheet worked out, given the same formulas. Each sets chest, one value or one
 * for each column, and is asked for a number that hangs on it. All are used as their own pages say; where a peer rounds
 * ties otherwise than we do, that is its own arithmetic and costs it nothing.
 */

import { computed, signal } from 'alien-signals';
import { HyperFormula } from 'hyperformula';
import { all, create } from 'mathjs';
import type { Generated } from './generate.ts';
import type { Contender } from './race.ts';

/** Chest is one of these in turn, in inches; in further columns an inch more each. */
export const CHESTS = [47, 42] as const;

/** Gives `set` the one chest and the other in turn. */
export function toAndFro(name: string, set: (inches: number) => number): Contender {
  let next = 0;
  return {
    name,
    edit: () => {
      const inches = CHESTS[next] as number;
      next = 1 - next;
      return set(inches);
    },
  };
}

const INCH = 2540;
const round = (x: number) => Math.floor(x + 0.5);

/** A spreadsheet engine on plain numbers in base units, a row for each cell, formulas in its own notation. */
export function hyperformula(sheet: Generated, columns: number): Contender {
  const letters = Array.from({ length: columns }, (_, c) => String.fromCharCode(65 + c));
  const rows = [
    ...sheet.typed.map((value, i) => letters.map((_, c) => (i === sheet.chest ? value + c * INCH : value))),
    ...sheet.formulas.map((formula) => letters.map((letter) => inNotation(formula, letter))),
  ];
  const engine = HyperFormula.buildFromArray(rows, { licenseKey: 'gpl-v3', maxRows: rows.length + 1 });
  const last = sheet.names.length - 1;
  return toAndFro('hyperformula', (inches) => {
    engine.setCellContents({ sheet: 0, row: sheet.chest, col: 0 }, [
      letters.map((_, c) => (inches + c) * INCH),
    ]);
    return Number(engine.getCellValue({ sheet: 0, row: last, col: columns - 1 }));
  });
}

function inNotation({ shape, a, b, g }: Generated['formulas'][number], letter: string): string {
  const [A, B, G] = [a, b, g].map((i) => `${letter}${i + 1}`);
  return [
    `=(${A}+${B})/2`,
    `=${A}*${G}+${B}*(1-${G})`,
    `=MAX(${A},${B})-635`,
    `=${A}/${G}+317.5`,
    `=${A}*${G}`,
    `=ROUND(${A}*${G}/4,0)*4`,
    `=ROUND((${A}+${B})/2,0)`,
    `=${A}+ROUND(${B}*0.1,0)`,
  ][shape] as string;
}

/** The texts as mathjs writes them: its `in` is an operator, it has no `whole`, and rows are stitches here. */
function forMathjs(text: string): string {
  return text
    .replace(/(\d+) (\d+)\/(\d+) in/g, (_m, w, n, d) => `${Number(w) + Number(n) / Number(d)} inch`)
    .replace(/(\d+)\/(\d+) in/g, (_m, n, d) => `${Number(n) / Number(d)} inch`)
    .replace(/ in\b/g, ' inch')
    .replace(/ row\b/g, ' st')
    .replace(/\bwhole\((.*)\)$/, 'round($1, st)')
    .replace(/multiple\((.*), 4\)/, 'round(($1) / 4, st) * 4');
}

/**
 * mathjs with units: the cells that hang on chest, worked out in order into a scope, a scope for each column. As texts,
 * each given to `evaluate` as it stands; or `compiled` before, each once, which is more than `evaluate` does.
 */
export function mathjs(sheet: Generated, dirty: Int32Array, columns: number, compiled: boolean): Contender {
  const math = create(all!, {});
  math.createUnit('st');
  math.createUnit('sts', '1 st');
  const texts = sheet.texts.map(forMathjs);
  const scopes = Array.from({ length: columns }, () => new Map<string, unknown>());
  for (const scope of scopes)
    for (const [i, name] of sheet.names.entries()) scope.set(name, math.evaluate(texts[i]!, scope as never));
  const todo = Array.from(dirty, (f) => {
    const text = texts[sheet.inputs + f] as string;
    const code = math.compile(text);
    const work = (scope: never): unknown => (compiled ? code.evaluate(scope) : math.evaluate(text, scope));
    return { name: sheet.names[sheet.inputs + f] as string, work };
  });
  return toAndFro(compiled ? 'mathjs compiled' : 'mathjs', (inches) => {
    for (const [c, scope] of scopes.entries()) {
      scope.set('chest', math.unit(inches + c, 'inch'));
      for (const { name, work } of todo) scope.set(name, work(scope as never));
    }
    return scopes.at(-1)?.has(todo.at(-1)?.name ?? '') ? 1 : 0;
  });
}

/** A signals library with one memo a cell and column, all of those that hang on chest read. */
export function signals(sheet: Generated, dirty: Int32Array, columns: number): Contender {
  const graphs = Array.from({ length: columns }, () => memos(sheet, dirty));
  return toAndFro('signals', (inches) => {
    let sum = 0;
    for (let c = 0; c < columns; c += 1) {
      const { chest, read } = graphs[c] as ReturnType<typeof memos>;
      chest((inches + c) * INCH);
      for (const cell of read) sum += cell();
    }
    return sum;
  });
}

function memos(sheet: Generated, dirty: Int32Array) {
  const chest = signal(sheet.typed[sheet.chest]!);
  const cells: (() => number)[] = sheet.typed.map((value, i) =>
    i === sheet.chest ? () => chest() : signal(value),
  );
  for (const { shape, a, b, g } of sheet.formulas) {
    const [A, B, G] = [cells[a]!, cells[b]!, cells[g]!];
    const shapes: readonly (() => number)[] = [
      () => (A() + B()) / 2,
      () => A() * G() + B() * (1 - G()),
      () => Math.max(A(), B()) - 635,
      () => A() / G() + 317.5,
      () => A() * G(),
      () => round((A() * G()) / 4) * 4,
      () => round((A() + B()) / 2),
      () => A() + round(B() * 0.1),
    ];
    cells.push(computed(shapes[shape]!));
  }
  return { chest, read: Array.from(dirty, (f) => cells[sheet.inputs + f]!) };
}

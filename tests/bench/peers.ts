/*
 * The peers: other general ways to keep a sheet worked out, given the same formulas. Each sets chest and is read once.
 */

import { computed, signal } from 'alien-signals';
import { HyperFormula } from 'hyperformula';
import { all, create } from 'mathjs';
import type { Generated } from './generate.ts';

/** A way to keep a sheet worked out: set chest in inches, and give a number that depends on everything dirty. */
export interface Peer {
  readonly name: string;
  set(inches: number): number;
}

const round = (x: number) => Math.floor(x + 0.5);

/** A spreadsheet engine, plain numbers in base units: one column of cells, formulas in its own notation. */
export function hyperformula(sheet: Generated): Peer {
  const cell = (i: number) => `A${i + 1}`;
  const texts = sheet.formulas.map(({ shape, a, b, g }) => {
    const [A, B, G] = [cell(a), cell(b), cell(g)];
    return [
      `=(${A}+${B})/2`,
      `=${A}*${G}+${B}*(1-${G})`,
      `=MAX(${A},${B})-635`,
      `=${A}/${G}+317.5`,
      `=${A}*${G}`,
      `=ROUND(${A}*${G}/4,0)*4`,
      `=ROUND((${A}+${B})/2,0)`,
      `=${A}+ROUND(${B}*0.1,0)`,
    ][shape]!;
  });
  const engine = HyperFormula.buildFromArray(
    [...sheet.typed, ...texts].map((text) => [text]),
    { licenseKey: 'gpl-v3' },
  );
  const last = sheet.names.length - 1;
  return {
    name: 'hyperformula',
    set: (inches) => {
      engine.setCellContents({ sheet: 0, row: sheet.chest, col: 0 }, inches * 2540);
      return Number(engine.getCellValue({ sheet: 0, row: last, col: 0 }));
    },
  };
}

/** mathjs's own compiled expressions with units, the dirty ones evaluated in order into a scope. */
export function mathjs(sheet: Generated, dirty: Int32Array): Peer {
  const math = create(all!, {});
  math.createUnit('st');
  math.createUnit('sts', '1 st');
  const scope = new Map<string, unknown>();
  const texts = sheet.texts.map((text) =>
    text
      .replace(/(\d+) (\d+)\/(\d+) in/g, (_m, w, n, d) => `${Number(w) + Number(n) / Number(d)} inch`)
      .replace(/(\d+)\/(\d+) in/g, (_m, n, d) => `${Number(n) / Number(d)} inch`)
      .replace(/ in\b/g, ' inch')
      .replace(/ row\b/g, ' st')
      .replace(/whole\((.*)\)$/, 'round($1, st)')
      .replace(/multiple\((.*), 4\)/, 'round(($1) / 4, st) * 4'),
  );
  for (const [i, name] of sheet.names.entries()) scope.set(name, math.evaluate(texts[i]!, scope as never));
  const compiled = Array.from(dirty, (f) => {
    const at = sheet.inputs + f;
    return { name: sheet.names[at]!, code: math.compile(texts[at]!) };
  });
  const lastName = compiled.at(-1)?.name ?? 'chest';
  return {
    name: 'mathjs evaluate',
    set: (inches) => {
      scope.set('chest', math.unit(inches, 'inch'));
      for (const { name, code } of compiled) scope.set(name, code.evaluate(scope as never));
      const last = scope.get(lastName);
      return typeof last === 'number' ? last : 1;
    },
  };
}

/** A signals library with one memo a cell, all of them read. */
export function signals(sheet: Generated, dirty: Int32Array): Peer {
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
  const read = Array.from(dirty, (f) => cells[sheet.inputs + f]!);
  for (const cell of cells) cell();
  return {
    name: 'signals',
    set: (inches) => {
      chest(inches * 2540);
      let sum = 0;
      for (const cell of read) sum += cell();
      return sum;
    },
  };
}

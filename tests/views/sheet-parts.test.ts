import { createRoot } from 'solid-js';
import { expect, test } from 'vitest';
import type { RowView, Tone, ValueView } from '../../src/session/index.ts';
import { createFlags } from '../../src/views/flags.ts';
import { withArticle } from '../../src/views/grid/column-actions.ts';
import { sentencesOf } from '../../src/views/grid/sentences.ts';
import { strandPaths } from '../../src/views/grid/strand-path.ts';

const columns = ['S', 'M', 'L'].map((label) => ({ id: label, label, chosen: label === 'M' }));

function rowSaying(...said: readonly (readonly [string, Tone])[]): RowView {
  const values = said.map(([says, tone]): ValueView => {
    return {
      kind: 'quantity',
      text: '1',
      unit: '',
      tolerance: '',
      decided: false,
      pinned: false,
      says,
      tone,
      spoken: '',
    };
  });
  const each = values.length > 1;
  return {
    ...{ id: 'k1', name: 'x', formulaName: 'x', typed: false, unit: '', values, each },
    ...{ how: '', note: '', cautions: [], tried: false, nudges: false, choices: [] },
  };
}

test('a problem of some columns names them; one of all is said once', () => {
  const some = rowSaying(
    ['nothing to divide by', 'problem'],
    ['', 'plain'],
    ['nothing to divide by', 'problem'],
  );
  expect(sentencesOf(some, columns, 1)).toEqual([{ text: 'S, L: nothing to divide by', tone: 'problem' }]);
  const all = rowSaying(['no gauge', 'problem'], ['no gauge', 'problem'], ['no gauge', 'problem']);
  expect(sentencesOf(all, columns, 1)).toEqual([{ text: 'no gauge', tone: 'problem' }]);
});

test('of what the columns say, the chosen one’s is shown', () => {
  const row = rowSaying(['small', 'plain'], ['just right', 'yes'], ['large', 'plain']);
  expect(sentencesOf(row, columns, 1)).toEqual([{ text: 'just right', tone: 'yes' }]);
  expect(sentencesOf(row, columns, -1)).toEqual([]);
});

test('a row with one value says it beside the value, not under the row', () => {
  expect(sentencesOf(rowSaying(['just right', 'yes']), columns, 0)).toEqual([]);
});

test('each strand goes from the focused name to its knot, whether it lies below or above', () => {
  const knots = [
    { id: 'a', y: 500 },
    { id: 'b', y: 40 },
    { id: 'c', y: 200 },
  ];
  const [down = '', up = '', none] = strandPaths(200, knots, 6.5);
  expect(down).toMatch(/^M35 200C.* 35 500H46$/);
  expect(up).toMatch(/^M35 200C.* 35 40H46$/);
  expect(none).toBe('');
  expect(`${down}${up}`).not.toMatch(/NaN|Infinity/);
});

test('what hangs together is drawn once: other strands begin with a dash where they leave the furthest', () => {
  const knots = [300, 270, 900, 500.5, -600, -100, 800, -500, 1000, 700, -300, -200].map((y, i) => ({
    id: `k${i}`,
    y,
  }));
  const paths = strandPaths(200, knots, 6.5);
  const isWhole = (path: string) => path.startsWith('M35 200C');
  // The four furthest in each direction, and one too near to hang, are whole.
  const leaving = [300, 500.5, -100];
  expect(knots.filter((_, i) => !isWhole(paths[i] ?? '')).map(({ y }) => y)).toEqual(leaving);
  const entering = lengthOf([35, 0], [13, 0], [9, 11.9], [9, 34]);
  for (const [i, way] of [
    [0, 1],
    [3, 1],
    [5, -1],
  ] as const) {
    const [, x, start] = /^M(\S+) (\S+?)V/.exec(paths[i] ?? '') ?? [];
    const along = entering + way * (Number(start) - 200) - 34;
    const dashes = along / 6.5;
    expect(x).toBe('9');
    expect(Math.abs(dashes - Math.round(dashes))).toBeLessThan(0.01);
    const leavesAt = (knots[i]?.y ?? 0) - way * 34;
    expect(way * (leavesAt - Number(start))).toBeGreaterThanOrEqual(-0.01);
    expect(way * (leavesAt - Number(start))).toBeLessThan(6.51);
    expect(paths[i]).toContain(`35 ${knots[i]?.y}H46`);
  }
});

type Point = readonly [number, number];

/** How long a curve is, by many short lines. */
function lengthOf(a: Point, b: Point, c: Point, d: Point): number {
  const at = (t: number, i: 0 | 1) =>
    (1 - t) ** 3 * a[i] + 3 * (1 - t) ** 2 * t * b[i] + 3 * (1 - t) * t * t * c[i] + t ** 3 * d[i];
  let length = 0;
  for (let i = 1; i <= 2000; i += 1) {
    const [t, s] = [i / 2000, (i - 1) / 2000];
    length += Math.hypot(at(t, 0) - at(s, 0), at(t, 1) - at(s, 1));
  }
  return length;
}

test('flags tell only the names that came or went', () => {
  createRoot((dispose) => {
    const flags = createFlags();
    flags.replace(['a', 'b']);
    expect([flags.has('a'), flags.has('c')]).toEqual([true, false]);
    flags.replace(['b', 'c']);
    expect([flags.has('a'), flags.has('b'), flags.has('c')]).toEqual([false, true, true]);
    expect(flags.list()).toEqual(['b', 'c']);
    dispose();
  });
});

test.each([
  ['size', 'a size'],
  ['age', 'an age'],
  ['needle', 'a needle'],
  ['edging', 'an edging'],
  ['unit', 'a unit'],
  ['hour', 'an hour'],
])('%s: add %s', (word, said) => {
  expect(withArticle(word)).toBe(said);
});

// In the built page the parser of formulas comes after the first sheet. What it has not read by then says so, and is
// read when it comes; what is written beforehand is what the parser itself says.
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { knownShapes } from '../../.tools/known-shapes.ts';
import { groupingAfresh, readGrouping, writeGrouping } from '../../src/formula/grouping.ts';
import { readWithMathjs } from '../../src/formula/mathjs-reader.ts';
import { createSession } from '../../src/session/index.ts';
import { notebookFrom, TEST_DAY } from '../support/notebook.ts';

const later = vi.hoisted(() => ({ isHere: true, waiting: [] as (() => void)[] }));

vi.mock('../../src/formula/reader.ts', () => ({
  reader: () => (later.isHere ? readWithMathjs : undefined),
  fetchReader: () => {
    later.isHere = true;
    for (const call of later.waiting.splice(0)) call();
    return Promise.resolve();
  },
  whenReader: (call: () => void) => {
    if (!later.isHere) later.waiting.push(call);
  },
  known: { 'v0 * v1 ': "0 1 *'2" },
}));

const { fetchReader } = await import('../../src/formula/index.ts');

const text = JSON.stringify({
  ellwand: 1,
  id: 'later',
  title: 'Later',
  units: 'cm',
  sections: [
    {
      id: 's1',
      title: 'All',
      cells: [
        { id: 'k1', name: 'gauge', text: '20 st / 10 cm' },
        { id: 'k2', name: 'width', text: '50 cm' },
        { id: 'k3', name: 'stitches', text: 'gauge * width' },
        { id: 'k4', name: 'all', text: 'stitches + 17 st - 9 st + 8 st' },
      ],
    },
  ],
});

const open = (trial?: { readonly title: string; readonly texts: Record<string, { text: string }> }) =>
  createSession({ notebook: notebookFrom(text), today: TEST_DAY, random: () => 0.5, trial });

const numbers = (session: ReturnType<typeof open>, id: string) =>
  session.row(id).values.map((one) => one.text);

test('what is known is shown at once, the rest says that it waits, and is read when the parser has come', async () => {
  later.isHere = false;
  const session = open();
  const rows: string[] = [];
  session.listen((news) => rows.push(...news.rows));
  expect(session.isPartlyRead).toBe(true);
  expect(JSON.stringify(session.row('k4'))).toContain('still on its way');
  const refused = session.type({ cell: 'k2', column: null }, 'gauge * 2 * 3 - 4 st');
  expect(refused).toMatchObject({ done: false, sentence: expect.stringContaining('still on its way') });

  await fetchReader();
  expect(session.isPartlyRead).toBe(false);
  expect(rows).toContain('k4');
  expect(numbers(session, 'k3')).toEqual(['100.0']);
  expect(numbers(session, 'k4')).toEqual(['116.0']);
});

test('a trial is still told against the numbers without it', async () => {
  later.isHere = false;
  const session = open({ title: 'wider', texts: { k2: { text: '60 cm' } } });
  await fetchReader();
  expect(numbers(session, 'k4')).toEqual(['136.0']);
  expect(session.row('k4').values[0]?.old).toEqual({ text: '116.0', difference: '+20.0' });
  session.dropTrial();
  expect(numbers(session, 'k4')).toEqual(['116.0']);
});

test('the shapes written down for the page are grouped as the parser groups them', () => {
  later.isHere = true;
  const shapes = Object.entries(knownShapes(join(import.meta.dirname, '../../notebooks')));
  expect(shapes.length).toBeGreaterThan(100);
  for (const [shape, written] of shapes) {
    expect(readGrouping(written)).toEqual(groupingAfresh(shape));
    expect(writeGrouping(readGrouping(written))).toBe(written);
  }
});

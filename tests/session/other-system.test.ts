// A value typed in inches, on a sheet in centimetres: what a trial tells of it is what the sheet shows.
import { expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

/** What is seen of the first cell, in centimetres, when + is pressed: before, then, and what is told of it. */
function nudged(text: string, steps = 1) {
  const notebook = notebookOf({ typed: text }, { units: 'cm' });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const value = () => session.row('k1').values[0];
  const shown = value()?.text;
  session.nudge({ cell: 'k1', column: null }, steps);
  const [tried] = session.page().trial?.cells ?? [];
  return {
    shown,
    now: value()?.text,
    was: value()?.old?.text,
    by: value()?.old?.difference,
    offer: tried?.was,
  };
}

// By hand: 19 st / 4 in is 18.7008 to 10 cm; a length is told to a millimetre: 40 in is 101.6 cm.
test.each([
  ['19 st / 4 in', { shown: '18.7', now: '19', was: '18.7', by: '+0.3', offer: '18.7' }],
  ['19 st / 4 in ± 1/2 st / 4 in', { shown: '18.7', now: '19', was: '18.7', by: '+0.3', offer: '18.7' }],
  ['40 in', { shown: '101.6', now: '102', was: '101.6', by: '+0.4', offer: '101.6' }],
  ['14.5 in', { shown: '36.8', now: '37', was: '36.8', by: '+0.2', offer: '36.8' }],
  // 39 3/8 in is 100.01 cm, shown as 100: + goes on from there, or nothing would be seen to move.
  ['39 3/8 in', { shown: '100', now: '100.5', was: '100', by: '+0.5', offer: '100' }],
  // Typed in centimetres it is what was typed.
  ['101.6 cm', { shown: '101.6', now: '102', was: '101.6', by: '+0.4', offer: '101.6' }],
])('%s', (text, seen) => {
  expect(nudged(text)).toEqual(seen);
});

test('and in a column', () => {
  const columns = { heading: 'size', list: ['S', 'M'].map((label, i) => ({ id: `c${i + 1}`, label })) };
  const notebook = notebookOf({ chest: ['36 in', '40 in'] }, { units: 'cm', columns });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  session.nudge({ cell: 'k1', column: 'c2' }, -1);
  expect(session.row('k1').values.map(({ text, old }) => [text, old?.text])).toEqual([
    ['91.4', undefined],
    ['101.5', '101.6'],
  ]);
});

test('typed in centimetres, on a sheet in inches, a length is told to a sixteenth; what is worked out from it as ever', () => {
  const notebook = notebookOf({ hand: '20 cm', half: 'hand / 2' }, { units: 'in' });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const text = (id: string) => session.row(id).values[0]?.text;
  expect([text('k1'), text('k2')]).toEqual(['7⅞', '4']);
});

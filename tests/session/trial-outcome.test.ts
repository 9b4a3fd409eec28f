// The one line that sums up what a change being tried does: only what is seen to move, and of the yarn where nothing else
// does. The lengths are worked out by hand.
import { describe, expect, test } from 'vitest';
import { createSession, type Session } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const opened = (notebook: ReturnType<typeof openNotebook>): Session =>
  createSession({ notebook, today: TEST_DAY, random: () => 0.5 });

function outcomeOf(session: Session, name: string, text: string): string | undefined {
  const id = session.live.sheet.idOf(name) ?? '';
  session.tryTexts(`trying ${name}`, { [id]: { text } });
  return session.page().trial?.outcome;
}

describe('what prints alike is not told', () => {
  const cells = {
    length_wanted: '18 3/4 in',
    row_gauge: '30 row / 4 in',
    rows: 'whole(length_wanted * row_gauge)',
    length_you_get: 'rows / row_gauge',
  };
  const steps = [{ id: 't1', text: 'Knit {rows}: {length_you_get}.' }];

  // 18.75 × 7.5 is 140.6, so 141 rows and 18.8 in; × 8.75 is 164.1, so 164 rows and 18.74 in: both are 18¾.
  test('a length', () => {
    expect(outcomeOf(opened(notebookOf(cells, { steps })), 'row_gauge', '35 row / 4 in')).toBe(
      'rows: 23 more',
    );
    // × 5 is 93.75, so 94 rows and 18.8 in; × 1 is 18.75, so 19 rows and 19 in.
    expect(outcomeOf(opened(notebookOf(cells, { steps })), 'row_gauge', '4 row / 4 in')).toBe(
      'rows: 122 fewer; length you get: 18¾ in → 19 in',
    );
  });

  test('and what comes after it in weight is told in its place', () => {
    const few = [{ id: 't1', text: 'It is {length_you_get} long.' }];
    const told = outcomeOf(opened(notebookOf(cells, { steps: few })), 'row_gauge', '35 row / 4 in');
    expect(told).toBe('rows: 23 more');
  });
});

describe('where no count and no length moves, the yarn is told', () => {
  test.each([
    // 9,000 times a loop that is √(30 / 32) as long: 299 m × 0.968 is 289.5 m.
    ['stitch_gauge', '32 st / 10 cm', 'metres by gauge: 299 m → 290 m'],
    ['label_metres', '410 m / 100 g', 'metres by weight: 267 m → 260 m'],
    ['skein_weight', '101 g / skein', 'left over: 37 g → 38 g'],
  ])('%s to %s', (name, text, outcome) => {
    expect(outcomeOf(opened(openNotebook('count-yarn')), name, text)).toBe(outcome);
  });

  test('that of the steps before that of a verdict and that at the end of the sheet', () => {
    const cells = {
      square: '4 g',
      front: 'square * 10',
      back: 'square * 11',
      all: 'front + back',
      enough: 'back <= 500 g',
    };
    const more = (text: string) => ({
      sections: notebookOf(cells).sections.map((section) => ({
        ...section,
        cells: section.cells.map((cell) =>
          cell.name === 'enough' ? { ...cell, says: { yes: text } } : cell,
        ),
      })),
    });
    const yarn = (text: string, says: string) =>
      outcomeOf(opened(notebookOf(cells, { ...more(says), steps: [{ id: 't1', text }] })), 'square', '5 g');
    expect(yarn('Wind {front}.', '{back}')).toBe('front: 40 g → 50 g');
    expect(yarn('Knit.', '{back}')).toBe('back: 44 g → 55 g');
    expect(yarn('Knit.', 'enough')).toBe('all: 84 g → 105 g');
  });

  test('and nothing where that prints alike too', () => {
    const session = opened(notebookOf({ square: '4 g', front: 'square * 10' }));
    expect(outcomeOf(session, 'square', '4.001 g')).toBe('');
  });
});

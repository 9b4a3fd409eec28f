// One number of the wrong kind breaks whatever uses it: its own row says what it should be, and every other row waits
// for it by name, calmly, whatever its formula would have to say about it.
import { describe, expect, test } from 'vitest';
import { createSession, type RowView, type Session } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY, withSets } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

function opened(name: string, cell: string, text: string): Session {
  const notebook = withSets(openNotebook(name), { [cell]: text });
  return createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
}

const rowsOf = (session: Session): readonly RowView[] =>
  session.page().sections.flatMap(({ cells }) => cells.map((id) => session.row(id)));

/** Formula language, which a knitter who typed a number should not meet. */
const OF_FORMULAS = /to_nearest|is for counts|multiply|must be|only like|The two answers/;

describe.each([
  ['resize-sweater', 'stitch_gauge', '22', 'This needs its unit, as 22 st / 4 in: other cells wait for it.'],
  ['resize-sweater', 'row_gauge', '26', 'This needs its unit, as 26 row / 4 in: other cells wait for it.'],
  ['resize-sweater', 'body_length', '38', 'This needs its unit, as 38 in: other cells wait for it.'],
  ['resize-sweater', 'chest', '40 st', 'What uses this needs a length, as 40 in.'],
  ['fit-sock', 'stitch_gauge', '31', 'This needs its unit, as 31 st / 10 cm: other cells wait for it.'],
  ['fit-sock', 'negative_ease', '1 cm', 'What uses this needs a number without a unit, as 1.'],
])('%s with %s typed as %s', (notebook, cell, text, sentence) => {
  const session = opened(notebook, cell, text);
  const rows = rowsOf(session);
  const culprit = rows.find(({ formulaName }) => formulaName === cell);

  test('the row itself says what it should be', () => {
    expect(culprit?.values[0]).toMatchObject({ says: sentence, tone: 'problem' });
  });

  test('every other row is calm and names it', () => {
    const broken = rows.filter((row) => row !== culprit && row.values[0]?.text === '—');
    expect(broken.length).toBeGreaterThan(2);
    for (const row of broken) {
      expect(`${row.name}: ${row.values[0]?.says}`).not.toMatch(OF_FORMULAS);
      expect(row.values[0]?.tone, row.name).toBe('waiting');
    }
    const spaced = cell.replaceAll('_', ' ');
    expect(broken.filter((row) => row.values[0]?.says.includes(spaced)).length).toBeGreaterThan(2);
  });

  test('mended, nothing is said of it any more', () => {
    const home = openNotebook(notebook).sections.flatMap((section) => section.cells);
    const was = home.find(({ name }) => name === cell)?.text ?? '';
    session.type({ cell: culprit?.id ?? '', column: null }, was);
    expect(rowsOf(session).filter(({ values }) => values.some(({ tone }) => tone === 'problem'))).toEqual([]);
  });
});

describe('a formula that is written wrongly says so itself', () => {
  test.each([
    { chest: '40 in', tested: 'chest + 3 st' },
    { chest: '40 in', ease: '2 in', wide: 'chest + ease', tested: 'whole(chest)' },
    { chest: '40 in', repeat: '4', tested: 'chest + repeat' },
    { tested: '40 in + 3 st' },
    { chest: '40 in', ease: '2 in', around: 'chest + ease', tested: 'chest + 5' },
  ])('%j', (cells) => {
    const session = createSession({ notebook: notebookOf(cells), today: TEST_DAY, random: () => 0.5 });
    const tones = rowsOf(session).map((row) => `${row.name}: ${row.values[0]?.tone}`);
    expect(tones.filter((one) => one.endsWith('problem'))).toEqual(['tested: problem']);
  });

  test('several of them too: the numbers they are written with are right', () => {
    const cells = {
      stitch_gauge: '20 st / 10 cm',
      row_gauge: '28 row / 10 cm',
      circumference: '56 cm',
      ease: '-5 cm',
      around: 'circumference + ease',
      t3: 'around + stitch_gauge',
      t4: 'around * row_gauge + 3 st',
      t5: 'circumference + 5',
      t6: 'circumference + 3 st',
    };
    const session = createSession({ notebook: notebookOf(cells), today: TEST_DAY, random: () => 0.5 });
    const tones = rowsOf(session).map((row) => `${row.name}: ${row.values[0]?.tone}`);
    expect(tones.filter((one) => !one.endsWith('plain'))).toEqual(
      ['t3', 't4', 't5', 't6'].map((t) => `${t}: problem`),
    );
    expect(rowsOf(session)[7]?.values[0]?.says).toContain('5 cm');
  });

  test('of a page of her own too, a measure without its unit is what is named', () => {
    const cells = { gauge: '20 st / 4 in', chest: '40', sts: 'whole(chest * gauge)' };
    const session = createSession({ notebook: notebookOf(cells), today: TEST_DAY, random: () => 0.5 });
    expect(rowsOf(session).map((row) => row.values[0]?.says)).toEqual([
      '',
      'This needs its unit, as 40 in: other cells wait for it.',
      'waiting for chest, which has no unit yet',
    ]);
  });
});

test('two numbers without their units are both named', () => {
  const notebook = withSets(openNotebook('resize-sweater'), { stitch_gauge: '22', row_gauge: '26' });
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const culprits = rowsOf(session).filter(({ values }) => values.some(({ tone }) => tone === 'problem'));
  expect(culprits.map(({ name, values }) => `${name}: ${values[0]?.says}`)).toEqual([
    'stitch gauge: This needs its unit, as 22 st / 4 in: other cells wait for it.',
    'row gauge: This needs its unit, as 26 row / 4 in: other cells wait for it.',
  ]);
});

test('steps wait for it by name, each only once', () => {
  const steps = opened('resize-sweater', 'chest', '40 st').steps().steps;
  const problems = steps.find(({ text }) => text.startsWith('Cast on'))?.problems;
  expect(problems).toEqual(['Waiting for “chest”.']);
  for (const step of steps) expect(new Set(step.problems).size).toBe(step.problems.length);
});

test('what looks at every column waits calmly for the one that is broken further up', () => {
  const session = createSession({
    notebook: openNotebook('resize-sweater'),
    today: TEST_DAY,
    random: () => 0.5,
  });
  const row = (name: string) => session.row(session.live.sheet.idOf(name) ?? '').values[0];
  session.type(
    { cell: session.live.sheet.idOf('pattern_body_stitches') ?? '', column: 'c1' },
    '1 st / (2 - 2)',
  );
  expect(row('pattern_body_stitches')?.tone).toBe('problem');
  expect(row('size_to_follow')).toMatchObject({
    tone: 'waiting',
    says: 'waiting for XS, which has a problem further up',
    spoken: 'waiting for XS, which has a problem further up',
  });
});

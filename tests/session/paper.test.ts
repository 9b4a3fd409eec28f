// The notebook on paper, and steps for every size at once. The hat is a knitter's own; its numbers are worked out by hand.
import { describe, expect, test } from 'vitest';
import { createSession, type PaperView, type Session, tableFor } from '../../src/session/index.ts';
import { toMarkdown } from '../../src/telling/index.ts';
import { openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const CELLS = {
  stitch_gauge: '21 st / 10 cm',
  head: ['56 cm', '50 cm'],
  cast_on: 'multiple(head * stitch_gauge, 8)',
  decreases: 'cast_on / 8 st - 1',
  crown_rows: '2 row * decreases',
  at_the_end: 'cast_on - decreases * 8 st',
  crown: 'shape(cast_on, cast_on - whole(decreases) * 8 st, 30 row, 8, 2)',
  later: ['', ''],
};

function hat(labels: readonly string[] = ['grown-up', 'child'], steps: readonly string[] = []): Session {
  const notebook = notebookOf(CELLS, {
    title: 'Wedge hat',
    units: 'cm',
    columns: { heading: 'size', list: labels.map((label, i) => ({ id: `c${i}`, label })) },
    chosen: { column: 'c0' },
    steps: steps.map((text, i) => ({ id: `t${i}`, text })),
  });
  return createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
}

const rows = ({ sections }: PaperView): readonly string[] =>
  sections.flatMap((section) => section.rows.map(({ name, value }) => `${name}: ${value}`));

describe('on paper', () => {
  // By hand: 56 cm × 2.1 = 117.6 → 120 sts, 14 decreases; 50 cm: 105 → 104 sts, 12 decreases.
  test('a short notebook goes whole, sums on the way with it', () => {
    const paper = hat(undefined, ['Crown: {crown}.']).paper();
    expect(rows(paper)).toEqual([
      'head: 56 cm',
      'cast on: 120 sts',
      'decreases: 14',
      'crown rows: 28.0',
      'at the end: 8.0 sts',
    ]);
    expect(paper.leavesOut).toBe(false);
    expect(paper.size).toBe('size grown-up');
  });

  // By hand: after row 2 there are 112; with 110, 2 are increased on the next right side, and then it goes down as planned.
  test('where a plan was worked out again, its table says decrease, and of the row that puts the count right what that is', () => {
    const session = hat(undefined, ['Crown: {crown}.']);
    expect(session.paper().shapings[0]).toMatchObject({ title: 'decrease on row' });
    expect(session.goOn('t0', 2, 110).done).toBe(true);
    const [table] = session.paper().shapings;
    expect(table?.title).toBe('decrease on row');
    expect(table?.rows.slice(0, 2).map(({ after }) => after)).toEqual(['112, increase', '104']);
    expect(table?.rows.at(-1)?.after).toBe('8');
  });

  // By hand: 120 to 8 sts is 14 times 8 sts; in 30 rows 13 times after 2 rows leave one time after 4, the last row plain.
  test('a plan that no step tells stands among the values, and one that a step tells does not', () => {
    expect(rows(hat().paper()).at(-1)).toBe(
      'crown: decrease on row 1 (RS), then every 2nd row 12 times, then every 4th row once, then 1 row plain',
    );
    expect(rows(hat(undefined, ['Crown: {crown}.']).paper()).join('\n')).not.toMatch(/^crown:/m);
    const long = openNotebook('resize-sweater');
    const session = createSession({ notebook: long, today: TEST_DAY, random: () => 0.5 });
    session.addCell(
      session.notebook.sections[0]?.id ?? '',
      null,
      'my sleeve',
      'shape(40 st, 60 st, 80 row, 2, 2)',
    );
    expect(rows(session.paper()).filter((row) => row.startsWith('my sleeve: '))).toHaveLength(1);
  });

  test('beside each cell of a short notebook stands its note, and the gauge has one heading', () => {
    const session = hat();
    const { id = '' } = session.notebook.sections[0] ?? {};
    session.renameSection(id, 'Gauge');
    session.setNote(session.live.sheet.idOf('head') ?? '', 'measured at the forehead');
    const paper = session.paper();
    expect(paper.withNotes).toBe(true);
    expect(paper.gauge.map(({ name }) => name)).toEqual(['stitch gauge']);
    expect(paper.sections.map(({ title }) => title)).toEqual(['']);
    expect(paper.sections[0]?.rows[0]).toMatchObject({ name: 'head', note: 'measured at the forehead' });
    expect(
      createSession({ notebook: openNotebook('fit-sock'), today: TEST_DAY, random: () => 0.5 }).paper()
        .withNotes,
    ).toBe(false);
  });

  test('saved as text it has its notes and what to knit', () => {
    const session = hat(undefined, ['Cast on {cast_on}.', 'Crown: {crown}.']);
    session.setNote(session.live.sheet.idOf('head') ?? '', 'measured at the forehead');
    const text = toMarkdown(tableFor(session.live, session.steps()));
    expect(text).toContain('| head | 56 cm | 50 cm | measured at the forehead |');
    expect(text).toContain('## What to knit\n\n1. Cast on 120 sts.\n2. Crown:');
  });

  test('of a long one sums on the way are left out, and that is said', () => {
    const notebook = openNotebook('resize-sweater');
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    const paper = session.paper();
    expect(paper.leavesOut).toBe(true);
    expect(rows(paper).join()).not.toContain('multiply stitches by');
  });

  test('of a long one yes and no are on paper where they were typed, or are the last word of a formula', () => {
    const notebook = openNotebook('resize-sweater');
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    const section = session.notebook.sections[0]?.id ?? '';
    session.addCell(section, null, 'I have enough', 'body_length > 1 cm');
    session.addCell(section, null, 'on the way', 'body_length > 2 cm');
    session.addCell(section, null, 'last word', 'not on_the_way');
    const truths = rows(session.paper()).filter((row) => /: (yes|no)$/.test(row));
    expect(truths).toEqual(['last word: no', 'I have enough: yes', 'take own count: no', 'match neck: no']);
  });

  test('of a short one all of them are, checks too', () => {
    const notebook = openNotebook('plan-gifts');
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    expect(rows(session.paper())).toContain('in time: yes');
  });

  test('a cell that a step or a note names in quotes is on paper, whatever it holds', () => {
    const notebook = openNotebook('resize-sweater');
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    const [last] = session.notebook.sections.slice(-1);
    session.setSectionAbout(last?.id ?? '', 'See "multiply stitches by".');
    expect(rows(session.paper()).join()).toContain('multiply stitches by');
  });

  test('every size at once: size lines, and the steps of all sizes', () => {
    const session = hat(undefined, ['Cast on {cast_on}.', 'Crown: {crown}.']);
    const paper = session.paper({ allSizes: true });
    expect(rows(paper).slice(0, 3)).toEqual([
      'head: 56 (50) cm',
      'cast on: 120 (104) sts',
      'decreases: 14 (12)',
    ]);
    expect(paper.size).toBe('every size: grown-up (child)');
    expect(paper.steps.steps[0]?.text).toBe('Cast on 120 (104) sts.');
    expect(paper.steps).toEqual(session.steps({ allSizes: true }));
    expect(paper.shapings).toEqual([]);
    expect(session.paper().shapings).toHaveLength(1);
  });

  test('of all columns at once what is wrong says of which it is', () => {
    const notebook = openNotebook('plan-gifts');
    const session = createSession({ notebook, today: TEST_DAY + 340, random: () => 0.5 });
    const { findings, size } = session.paper({ allSizes: true });
    // Mitts and socks are too late whatever the order, so that the hat is knitted before them, in time.
    const late = findings.filter((one) => one.startsWith('in time'));
    expect(late.map((one) => one.replace(/: late by .*/, ''))).toEqual([
      'in time, Mitts for Ines',
      'in time, Socks for Tam',
      'in time, Cowl for Bram',
    ]);
    expect(size).toBe('every gift: Mitts for Ines (Socks for Tam, Hat for Oona, Cowl for Bram)');
  });

  test('a column called “size 1” is not said as “size size 1”', () => {
    expect(hat(['size 1', 'size 2']).paper().size).toBe('size 1');
    expect(hat(['1', '2']).paper().size).toBe('size 1');
  });
});

describe('steps for every size at once leave no hole', () => {
  const told = (text: string) => {
    const [step] = hat(undefined, [text]).steps({ allSizes: true }).steps;
    return { text: step?.text, lines: step?.lines.map(({ label }) => label), problems: step?.problems };
  };

  test('plans told below are pointed to from within a sentence', () => {
    expect(told('Crown: {crown}, until 8 sts are left.')).toEqual({
      text: 'Crown: as below, until 8 sts are left.',
      lines: ['grown-up', 'child'],
      problems: [],
    });
  });

  test('at its end the sentence ends with a colon', () => {
    expect(told('Shape the crown: {crown}.').text).toBe('Shape the crown:');
    expect(told('Shape the crown, {crown}.').text).toBe('Shape the crown:');
  });

  test('a cell that no size has a value for is waited for', () => {
    expect(told('Work {later} more.')).toMatchObject({
      text: 'Work … more.',
      problems: ['Waiting for “later”.'],
    });
  });
});

test('two values that print alike are said once', () => {
  // The sleeve’s motif is of one round, so that the nearest below and above are one: 141.
  const notebook = openNotebook('adapt-length');
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const id = session.live.sheet.idOf('rows_to_knit') ?? '';
  expect(session.row(id).values.map(({ says }) => says)).toEqual([
    '88 rows make 11¾ in, 96 rows make 12¾ in',
    '141 rnds make 18¾ in',
  ]);
});

// A count gone astray in the edging of a shawl: what the step says when the count is typed there, and what the sheet's
// rescue says, are the same plan counted alike; the words for its mends are told with the plan that has them.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { draw } from '../../src/drawing/index.ts';
import { createSession, type Session, type StepView } from '../../src/session/index.ts';
import { openNotebook, type Sets, TEST_DAY, withSets } from '../support/notebook.ts';

function shawl(sets: Sets): Session {
  return createSession({
    notebook: withSets(openNotebook('edge-shawl'), sets),
    today: TEST_DAY,
    random: () => 0.5,
  });
}

function step(session: Session, id: string): StepView {
  const found = session.steps().steps.find((one) => one.id === id);
  if (!found) throw new Error(`there is no step ${id}`);
  return found;
}

const labels = ({ lines }: Pick<StepView, 'lines'>): readonly string[] =>
  lines.map(({ label, text, after }) => `${label}: ${text}: ${after}`);

/** 311 live stitches, 12 rows a repeat; after row 40, which are 3 repeats and 2 joins, 289 in the place of 291. */
const ASTRAY: Sets = {
  live_stitches: '311 st',
  edging_rows: '12 row',
  repeats_done: '3',
  joins_done_in_this_repeat: '2',
  live_left: '289 st',
};

describe('two too few after row 40', () => {
  test('the step and the sheet have the same mends, rows and repeats', () => {
    const session = shawl(ASTRAY);
    const recount = session.recount('t6', 40, 289);
    expect(recount?.sentence).toBe('The plan has 291 sts left after row 40, and there are 289: 2 too few.');
    expect(recount && labels(recount)).toEqual(labels(step(session, 't7')));
    const id = session.live.sheet.idOf('rescue') ?? '';
    const rescue = session.live.sheet.value(id, 0);
    expect(rescue.kind === 'plan' && rescue.plan.text.slice(1)).toBe(recount?.mend.slice(1, -1));
    // By hand: 4 joins and 47 repeats of 6 are 286 joins for 289 stitches: 3 take 2, at (2i − 1) × 286 ÷ 6 + 1.
    expect(recount?.mend).toContain(
      'take 2 at joins 48 (repeat 12, join 2), 144 (repeat 28, join 2) and 239 (repeat 44, join 1), ' +
        'joins counted from here, repeats from the first; 283 + 2 × 3 = 289 sts',
    );
    expect(step(session, 't7').text).toContain('after 40 rows with 289 sts to go');
    expect(step(session, 't7').lines[0]?.label).toBe('Rows 41–134');
  });

  test('the words are told that the plan on the needles has, and no others', () => {
    const session = shawl({ ...ASTRAY, live_left: '' });
    const remarks = () => step(session, 't6').remarks.join(' ');
    expect(remarks()).toMatch(/No join: end with the last stitch of the edging alone/);
    expect(remarks()).not.toMatch(/Take 2/);
    expect(session.goOn('t6', 40, 289).done).toBe(true);
    expect(remarks()).toMatch(/Take 2: k3tog/);
    expect(remarks()).not.toMatch(/No join/);
    const boxes = session.steps().steps.filter(({ applies, advice }) => applies && !advice);
    expect(boxes.filter(({ text }) => /^(Take 2|No join):/.test(text))).toEqual([]);
  });

  test('the rows of the sheet’s rescue are counted on from row 40, and back to it', () => {
    const session = shawl(ASTRAY);
    const counter = () => step(session, 't7').counter;
    expect(counter()).toMatchObject({ done: 40, of: 612, next: 'next is row 41: edging' });
    expect(session.rowBack('t7').done).toBe(false);
    expect(session.rowOn('t7').done).toBe(true);
    expect(counter()).toMatchObject({ done: 41, next: 'next is row 42: join' });
    expect(session.rowBack('t7').done).toBe(true);
    expect(counter()?.done).toBe(40);
    expect(session.notebook.progress?.rows ?? {}).toEqual({});
  });
});

describe('403 live stitches and two corners of 4 extra joins, 10 rows a repeat', () => {
  const cornered: Sets = { live_stitches: '403 st', edging_rows: '10 row', corners: '2' };
  // By hand: 205 joins take 205 stitches before the corners, 201 with one passed, 197 with both.
  test('the count left is what is on the needle, with the corners to come and behind', () => {
    const { lines } = step(shawl(cornered), 't5');
    expect(labels({ lines })).toEqual([
      'Rows 1–410: join 1 st 205 times: 198 to 206 sts left',
      'Rows 411–412: take 2 at join 206 (repeat 42, join 1): 196 to 204 sts left',
      'Rows 413–820: join 1 st 204 times: none left',
    ]);
  });
  test.each([
    [198, 'with 0 of 8'],
    [202, 'with 4 of 8'],
    [206, 'with 8 of 8'],
  ])('%i left after row 410 are right %s extra joins done', (count, corners) => {
    const said = shawl(cornered).recount('t5', 410, count);
    expect(said?.sentence).toBe(
      `${count} sts after row 410: just as planned. That is ${corners} extra joins at corners done.`,
    );
    expect(said?.mend).toBe('Go on as planned.');
    expect(said?.canGoOn).toBe(false);
  });
  test('one too many is told from the most there may be', () => {
    const said = shawl(cornered).recount('t5', 410, 207);
    expect(said?.sentence).toBe(
      'The plan has 198 to 206 sts left after row 410, and there are 207: 1 too many.',
    );
    expect(said?.canGoOn).toBe(true);
  });
  test('the counter tells the same range', () => {
    const session = shawl({ ...cornered, live_stitches: '12 st' });
    // 12 and 8 extra joins are 4 repeats of 5.
    expect(step(session, 't5').counter?.count).toBe('12 sts left');
    session.rowOn('t5');
    session.rowOn('t5');
    expect(step(session, 't5').counter?.count).toBe('11 to 12 sts left');
  });
});

// Common practice: an edging turns at both sides, so a repeat of 11 rows is a miscount.
test('an odd repeat is said first, and nothing is counted by it', () => {
  const session = shawl({ live_stitches: '403 st', edging_rows: '11 row', corners: '2' });
  const [first, ...rest] = session.steps().steps.filter(({ applies }) => applies);
  expect(first).toMatchObject({ number: 0, advice: true, problems: [] });
  expect(first?.text).toBe(
    'Before you begin: an edging turns at both sides, so a repeat has an even number of rows. ' +
      'Count the 11 rows of yours again.',
  );
  const edging = rest.find(({ id }) => id === 't5');
  expect(edging?.lines).toEqual([]);
  expect(edging?.problems.join()).toMatch(/cannot be knit/);
  const told = [...rest.map(({ text }) => text), ...rest.flatMap(({ lines }) => labels({ lines }))].join(' ');
  expect(told).not.toMatch(/Rows? \d/);
  for (const name of ['repeats', 'left_over', 'fewer_live', 'more_live', 'rows_to_knit', 'grams_for_all'])
    expect(session.live.sheet.value(session.live.sheet.idOf(name) ?? '', 0).kind).toBe('waiting');
  expect(step(shawl({}), 't10').applies).toBe(false);
});

test('a clean count is offered before anything is knitted, and not once the edging is cast on', () => {
  const session = shawl({ live_stitches: '311 st' });
  // By hand: 306 and 312 are multiples of 6.
  expect(step(session, 't2')).toMatchObject({ advice: true, applies: true, problems: [] });
  expect(step(session, 't2').text).toMatch(/For 306 sts lose 5 sts.*For 312 sts gain 1 st/);
  expect(step(session, 't6').remarks.join(' ')).not.toMatch(/row of the body/);
  expect(session.tick('t1').done).toBe(true);
  expect(step(session, 't2').applies).toBe(false);
  expect(step(shawl({ live_stitches: '312 st' }), 't2').applies).toBe(false);
});

test('from any row, by any count, the step and the sheet say the same', () => {
  const astray = fc.record({
    live: fc.integer({ min: 30, max: 400 }),
    joins: fc.integer({ min: 1, max: 9 }),
    part: fc.double({ min: 0.05, max: 0.8, noNaN: true }),
    off: fc.integer({ min: -4, max: 4 }).filter((n) => n !== 0),
  });
  fc.assert(
    fc.property(astray, ({ live, joins, part, off }) => {
      const done = Math.max(1, Math.floor(live * part));
      const left = live - done + off;
      const session = shawl({
        live_stitches: `${live} st`,
        edging_rows: `${joins * 2} row`,
        repeats_done: `${Math.floor(done / joins)}`,
        joins_done_in_this_repeat: `${done % joins}`,
        live_left: `${left} st`,
      });
      if (!step(session, 't7').applies) return;
      const recount = session.recount('t6', done * 2, left);
      expect(recount && labels(recount)).toEqual(labels(step(session, 't7')));
    }),
    { numRuns: 40 },
  );
});

// By hand: 415 less 12 repeats of 10 and 3 joins are 292, and one mend lies behind; 7 joins end the repeat, 28 × 10 are 280.
test('once there is a rescue it is what is drawn, and the last row of the body is spoken of no more', () => {
  const session = shawl({
    live_stitches: '415 st',
    edging_rows: '20 row',
    plainest_join: '10',
    repeats_done: '12',
    joins_done_in_this_repeat: '3',
    live_left: '287 st',
  });
  expect(step(session, 't2').applies).toBe(false);
  const [picture] = session.drawings();
  const told = picture ? draw(picture.kind, picture.parts).describe.join(' ') : '';
  expect(told).toContain('There are 287 sts live');
  expect(told).toContain('Every join takes one live stitch.');
  const before = shawl({ live_stitches: '415 st', edging_rows: '20 row', plainest_join: '10' });
  const [whole] = before.drawings();
  expect(whole ? draw(whole.kind, whole.parts).describe.join(' ') : '').toContain('Take 2 in repeat');
  expect(step(before, 't2').applies).toBe(true);
});

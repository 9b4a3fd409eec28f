// What drawings are given: the chosen column's values, every column's where asked, rounds and rows as the steps have them.
import { describe, expect, test, vi } from 'vitest';
import { draw, layOut } from '../../src/drawing/index.ts';
import { createSession, type DrawingView, type Session } from '../../src/session/index.ts';
import { faultsOf } from '../drawing/check.ts';
import { notebookNames, openNotebook, TEST_DAY, withSets, workOut } from '../support/notebook.ts';

/** Every column of every notebook is laid out five times. */
vi.setConfig({ testTimeout: 30_000 });

const opened = (name: string): Session =>
  createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });

function drawing(session: Session, kind: string, title = ''): DrawingView {
  const found = session.drawings().find((one) => one.kind === kind && one.title.includes(title));
  if (!found) throw new Error(`there is no drawing of kind ${kind}`);
  return found;
}

const words = (view: DrawingView) => draw(view.kind, view.parts).describe.join(' ');

describe('the drawings of a notebook', () => {
  test.each(notebookNames)('%s draws everything it binds', (name) => {
    for (const view of opened(name).drawings()) {
      if (view.laidAside) continue;
      const picture = draw(view.kind, view.parts);
      expect(picture.leftOut, `${name}, ${view.title}`).toEqual([]);
      expect(picture.block, `${name}, ${view.title}`).toBeDefined();
    }
  });

  test.each(notebookNames)('%s keeps its texts apart in every column, from a phone to paper', (name) => {
    const session = opened(name);
    const { columns } = session.page();
    for (const column of columns.length > 0 ? columns : [undefined]) {
      if (column) session.choose(column.id);
      for (const view of session.drawings())
        for (const widthPx of [320, 372, 520, 690, 1000])
          expect(
            faultsOf(layOut(draw(view.kind, view.parts), widthPx)),
            `${column?.label ?? name}: ${view.title}, ${widthPx} px`,
          ).toEqual([]);
    }
  });

  test('a cell with a value for every column can be a bar for each', () => {
    const session = opened('count-yarn');
    const labels = session.page().columns.map(({ label }) => label);
    const { parts } = drawing(session, 'yarn');
    const named = Object.entries(parts).flatMap(([key, part]) =>
      key.startsWith('part_') && typeof part === 'object' ? [part] : [],
    );
    expect(named.map(({ name }) => name)).toEqual(labels);
    const total = parts['total'];
    if (typeof total !== 'object') throw new Error('no total');
    expect(named.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(total.value, 6);
  });

  test('a long sock has a line of its calf, a short one has none', () => {
    const session = opened('fit-sock');
    const short = drawing(session, 'shaping', 'calf');
    expect([short.laidAside, draw('shaping', short.parts).block]).toEqual([true, undefined]);
    const [, , long] = session.page().columns;
    session.choose(long?.id ?? '');
    const calf = drawing(session, 'shaping', 'calf');
    expect(calf.laidAside).toBe(false);
    expect(words(calf)).toMatch(/^From 92 sts to 64 sts in \d+ rnds: .*drawn to scale/);
    expect(drawing(session, 'shaping', 'toe').laidAside).toBe(false);
  });

  test.each(notebookNames)('every shaping of %s is drawn to scale', (name) => {
    for (const view of opened(name).drawings())
      if (view.kind === 'shaping' && !view.laidAside) expect(words(view)).toContain('It is drawn to scale.');
  });

  test('an edging says how many repeats the live stitches are for', () => {
    expect(words(drawing(opened('edge-shawl'), 'edging'))).toContain(
      'There are 374 sts live, for 62 repeats.',
    );
  });

  test('an edging is drawn while it is knitted, and not where all is bound off', () => {
    const session = opened('grow-shawl');
    const finish = session.live.sheet.idOf('finish') ?? '';
    expect(draw('edging', drawing(session, 'edging').parts).block).toBeDefined();
    expect(drawing(session, 'edging').laidAside).toBe(false);
    session.type({ cell: finish, column: null }, '"bind off"');
    const bound = drawing(session, 'edging');
    expect(draw('edging', bound.parts).block).toBeUndefined();
    expect(draw('edging', bound.parts).leftOut).toEqual(['“edging” is not knitted here.']);
    // So that it is drawn again once the edging is chosen anew.
    expect(bound.cells).toContain(session.live.sheet.idOf('has_edging'));
  });

  // 52.4 g a pair at the notebook’s own numbers: two pairs take 104.8 g, and 5 g are held back.
  test.each([
    ['100 g', '2', 'There is not enough.'],
    ['104 g', '2', 'There is not enough.'],
    ['105 g', '2', 'There is enough, but not safely: 5 g could not be held back.'],
    ['109 g', '2', 'There is enough, but not safely: 5 g could not be held back.'],
    ['110 g', '2', 'There is enough.'],
    ['57 g', '1', 'There is enough, but not safely: 5 g could not be held back.'],
    ['58 g', '1', 'There is enough.'],
    ['150 g', '3', 'There is not enough.'],
  ])('with %s for %s pairs the yarn drawing says what the sheet does', (main_yarn, pairs, said) => {
    const session = createSession({
      notebook: withSets(openNotebook('count-yarn'), { main_yarn, pairs }),
      today: TEST_DAY,
      random: () => 0.5,
    });
    expect(words(drawing(session, 'yarn'))).toContain(said);
    const worked = workOut('count-yarn', { main_yarn, pairs });
    expect(worked.truth('enough')).toBe(said === 'There is enough.');
    expect(words(drawing(session, 'yarn'))).toContain(`In all it takes ${worked.printed('pairs_need')[0]}.`);
  });

  test.each(notebookNames)('the yarn that %s draws in parts comes to what it takes in all', (name) => {
    for (const { kind, title, parts } of opened(name).drawings()) {
      const total = parts['total'];
      if (kind !== 'yarn' || typeof total !== 'object') continue;
      const values = Object.entries(parts).map(([key, part]) =>
        key.startsWith('part_') && typeof part === 'object' ? part.value : 0,
      );
      const all = values.reduce((sum, value) => sum + value, 0);
      expect(all, title).toBeCloseTo(total.value, 6);
    }
  });

  test('a shaping that is knitted round is told in rounds, one knitted flat in rows', () => {
    const sleeve = drawing(opened('raglan'), 'shaping', 'sleeve');
    expect(words(sleeve)).toMatch(/ in \d+ rnds: every \d+th rnd/);
    expect(words(sleeve)).not.toMatch(/\brows?\b/);
    const flat = opened('shape-sleeve');
    expect(words(drawing(flat, 'shaping'))).toMatch(/ in \d+ rnds: /);
    flat.type({ cell: flat.live.sheet.idOf('worked_in_the_round') ?? '', column: null }, 'no');
    expect(words(drawing(flat, 'shaping'))).toMatch(/ in \d+ rows: /);
  });

  test('a garment with set-in sleeves is drawn from a notebook of ours, at its new lengths', () => {
    const garment = words(drawing(opened('adapt-length'), 'set-in'));
    // 202 sts at 21 to 4 in are 38.48 in; 16 rows of edging and ten motifs of 8 are 96 (exact arithmetic).
    expect(garment).toContain('38½ in');
    expect(garment).toMatch(/The armhole is 8 in deep/);
    expect(drawing(opened('adapt-length'), 'set-in').parts['body_rows']).toMatchObject({ text: '96 rows' });
  });

  test('rows counted in the step that knits a plan show where she is on its drawing', () => {
    const session = opened('raglan');
    const step = session.steps().steps.find(({ text }) => text.startsWith('Shape the sleeve'));
    if (!step) throw new Error('no sleeve is shaped');
    expect(drawing(session, 'shaping', 'sleeve').parts['row']).toBeUndefined();
    for (let row = 0; row < 9; row += 1) session.rowOn(step.id);
    expect(drawing(session, 'shaping', 'sleeve').parts['row']).toMatchObject({ value: 9, text: 'rnd 9' });
    expect(words(drawing(session, 'shaping', 'sleeve'))).toContain('You are on rnd 9, with 38 sts.');
    session.rowBack(step.id);
    expect(words(drawing(session, 'shaping', 'sleeve'))).toContain('You are on rnd 8,');
    expect(session.goOn(step.id, 8, 40).done).toBe(true);
    expect(drawing(session, 'shaping', 'sleeve').parts['row']).toBeUndefined();
  });

  test('a cell that is gone, empty or broken is left out and said, the rest is drawn', () => {
    const notebook = openNotebook('resize-sweater');
    const [fabrics, schematic, ...others] = notebook.drawings;
    if (!fabrics || !schematic) throw new Error('no schematic');
    const binds = { ...schematic.binds, cuff: 'no_such_cell' };
    const session = createSession({
      notebook: { ...notebook, drawings: [fabrics, { ...schematic, binds }, ...others] },
      today: TEST_DAY,
      random: () => 0.5,
    });
    const view = drawing(session, 'pullover');
    const picture = draw(view.kind, view.parts);
    expect(picture.leftOut).toEqual(['There is no cell called “no such cell”.']);
    expect(picture.describe.join(' ')).toContain('The body is 43 in around');
  });
});

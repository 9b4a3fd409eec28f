// Steps to knit from an open notebook: filled for the chosen size, ticked, counted, worked out again when the count
// on the needles differs. The notebook is our own; the rules are those of the language's page.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knittedOf, type Notebook, type Progress, readNotebook } from '../../src/notebook/index.ts';
import { createSession, type Kept, type Session, type StepView } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const COLUMNS = ['S', 'M', 'L'].map((label, i) => ({ id: `c${i + 1}`, label }));

const CELLS: readonly (readonly [name: string, text: string | Readonly<Record<string, string>>])[] = [
  ['stitch_gauge', '20 st / 4 in'],
  ['row_gauge', '28 row / 4 in'],
  ['chest', '40 in'],
  ['around', { c1: '36 in', c2: '40 in', c3: '44 in' }],
  ['size_to_follow', 'nearest(around, chest)'],
  ['cast_on', 'multiple(around * stitch_gauge, 4)'],
  ['raw_count', 'around * stitch_gauge'],
  ['rib_rounds', '12 rnd'],
  ['cuff', '43 st'],
  ['top', 'whole(14.2 in * stitch_gauge)'],
  ['sleeve_rows', 'whole(15.3 in * row_gauge)'],
  ['sleeve', 'shape(cuff, top, sleeve_rows, 2, 1)'],
  ['fluffy', 'no'],
  ['left_out', ''],
  ['broken', 'cuff / (cuff - cuff)'],
  ['turn', 'heel_turn(28 st, 16)'],
];

const STEPS: readonly (readonly [text: string, when?: string])[] = [
  ['Cast on {cast_on} in the rnd. Rib {rib_rounds}.'],
  ['Brush it.', 'fluffy'],
  ['Sleeve: {sleeve}.'],
  ['Work {raw_count}.'],
  ['Work {left_out} and {broken}, then {nowhere}.'],
  ['Smooth it.', 'not fluffy'],
  ['Turn: {turn}'],
  ['For a chest of {chest}.'],
];

const NOTEBOOK: Notebook = {
  ellwand: 1,
  id: 'n1',
  title: 'Kelp jumper',
  units: 'in',
  columns: { heading: 'size', list: COLUMNS },
  chosen: { follow: 'size_to_follow' },
  sections: [
    {
      id: 's1',
      title: 'All',
      cells: CELLS.map(([name, text], i) =>
        typeof text === 'string' ? { id: `k${i + 1}`, name, text } : { id: `k${i + 1}`, name, each: text },
      ),
    },
  ],
  drawings: [],
  steps: STEPS.map(([text, when], i) => ({ id: `t${i + 1}`, text, ...(when ? { when } : {}) })),
  sources: [],
  cautions: [],
};

function opened(notebook: Notebook = NOTEBOOK, keep?: (kept: Kept) => void): Session {
  return createSession({ notebook, today: 20_000, random: () => 0.4, ...(keep ? { keep } : {}) });
}

const step = (session: Session, id: string): StepView => {
  const found = session.steps().steps.find((one) => one.id === id);
  if (!found) throw new Error(`there is no step ${id}`);
  return found;
};
const ofCell = (name: string) => ({ cell: idOf(name), column: null });
const idOf = (name: string): string => `k${CELLS.findIndex(([one]) => one === name) + 1}`;
const textOf = (view: StepView) => view.runs.map(({ text }) => text).join('');

describe('steps as they are filled', () => {
  test('the chosen size stands in them, each value naming its cell', () => {
    const session = opened();
    expect(step(session, 't1').runs).toEqual([
      { text: 'Cast on ', cell: '' },
      { text: '200 sts', cell: idOf('cast_on') },
      { text: ' in the rnd. Rib ', cell: '' },
      { text: '12 rnds', cell: idOf('rib_rounds') },
      { text: '.', cell: '' },
    ]);
    session.type(ofCell('chest'), '44 in');
    expect(textOf(step(session, 't1'))).toBe('Cast on 220 sts in the rnd. Rib 12 rnds.');
  });

  test('all sizes at once, as patterns print them', () => {
    const [first] = opened().steps({ allSizes: true }).steps;
    expect(first && textOf(first)).toBe('Cast on 180 (200, 220) sts in the rnd. Rib 12 rnds.');
  });

  test('those that do not apply are not numbered', () => {
    const session = opened();
    expect(session.steps().steps.map(({ number }) => number)).toEqual([1, 0, 2, 3, 4, 5, 6, 7]);
    session.type(ofCell('fluffy'), 'yes');
    expect(session.steps().steps.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 0, 6, 7]);
  });

  test('a count that is not decided is a problem of the step, never a rounded number', () => {
    const view = step(opened(), 't4');
    expect(textOf(view)).toBe('Work ….');
    expect(view.problems).toEqual([
      '“raw count” comes to 200 sts now, but with other numbers it may not be whole: put it into whole(…), and it can be knit.',
    ]);
    expect(opened().tick('t4')).toMatchObject({ done: false, sentence: view.problems[0] });
    const other = opened();
    other.type(ofCell('stitch_gauge'), '18.33 st / 4 in');
    expect(step(other, 't4').problems[0]).toMatch(
      /^“raw count” comes to \d+\.[1-9] sts, which cannot be knit: make it whole, with whole\(…\) or multiple\(…\)\.$/,
    );
  });

  test('what is empty, broken or not there is said, one sentence each', () => {
    expect(step(opened(), 't5').problems).toEqual([
      'Waiting for “left out”.',
      '“broken”: This divides by nothing: check the number below the line, often a gauge of 0.',
      'There is no cell called “nowhere”: add it, or check the spelling.',
    ]);
  });

  test('a plan is unfolded, with its sum and the counts after each line', () => {
    const view = step(opened(), 't3');
    expect(view.lines.map(({ label, text, after }) => `${label}: ${text}: ${after}`)).toEqual([
      'Rows 1–35: increase 2 sts every 7th row 5 times: 53 sts',
      'Rows 36–107: increase 2 sts every 8th row 9 times: 71 sts',
    ]);
    expect(view.sums).toEqual(['35 + 72 = 107 rows; 43 + 14 × 2 = 71 sts']);
  });

  test('the key holds what the steps use', () => {
    const shorts = opened()
      .steps()
      .key.map(({ short }) => short);
    expect(shorts).toEqual(['k', 'p', 'k2tog', 'p2tog', 'sl', 'st, sts', 'rnd, rnds', 'RS', 'WS']);
  });

  test('a change being tried does not reach the steps, unless it is asked for', () => {
    const session = opened();
    session.nudge(ofCell('stitch_gauge'), 2);
    session.nudge(ofCell('chest'), 16);
    expect(textOf(step(session, 't1'))).toBe('Cast on 200 sts in the rnd. Rib 12 rnds.');
    const [tried] = session.steps({ trial: true }).steps;
    expect(tried && textOf(tried)).toBe('Cast on 232 sts in the rnd. Rib 12 rnds.');
    expect(session.paper()).toMatchObject({ tried: '', steps: session.steps() });
    const paper = session.paper({ trial: true });
    expect(paper.steps).toEqual(session.steps({ trial: true }));
    expect(paper.tried).toMatch(/^stitch gauge .*; chest /);
    session.tick('t1');
    expect(session.notebook.progress?.pinned[idOf('cast_on')]).toEqual({ c2: '200 st' });
    session.dropTrial();
    expect(session.paper({ trial: true })).toEqual(session.paper());
    expect(step(session, 't1')).toMatchObject({ ticked: true, offer: undefined });
  });
});

describe('ticking', () => {
  test('pins the counts that were printed, in the size that is knitted, and the size', () => {
    const session = opened();
    expect(session.tick('t1')).toEqual({ done: true });
    expect(session.notebook.progress).toEqual({
      of: 'c2',
      ticked: { t1: 'Cast on 200 sts in the rnd. Rib 12 rnds.' },
      pinned: {
        [idOf('cast_on')]: { c2: '200 st' },
        [idOf('rib_rounds')]: { '': '12 row' },
        [idOf('size_to_follow')]: { '': '"M"' },
      },
      rows: {},
    });
  });

  test('a re-measured gauge never rewrites what is knitted: it is offered', () => {
    const session = opened();
    session.tick('t1');
    session.type(ofCell('stitch_gauge'), '22 st / 4 in');
    expect(session.row(idOf('cast_on')).values.map((value) => value.text)).toEqual(['200', '200', '244']);
    const view = step(session, 't1');
    expect(view.text).toBe('Cast on 200 sts in the rnd. Rib 12 rnds.');
    expect(view.offer).toEqual({
      sentence: 'Knitted with cast on 200 sts; it would now be 220 sts.',
      now: 'Cast on 220 sts in the rnd. Rib 12 rnds.',
      canTake: true,
    });
    expect(session.takeOffer('t1')).toEqual({ done: true });
    expect(step(session, 't1')).toMatchObject({
      ticked: true,
      text: 'Cast on 220 sts in the rnd. Rib 12 rnds.',
      offer: undefined,
    });
    session.undoProgress();
    expect(step(session, 't1').text).toBe('Cast on 200 sts in the rnd. Rib 12 rnds.');
  });

  test('the size that was begun stays, and the cell says what it would be', () => {
    const session = opened();
    session.tick('t1');
    session.type(ofCell('chest'), '36 in');
    expect(session.page().columns.map(({ chosen }) => chosen)).toEqual([false, true, false]);
    expect(session.row(idOf('size_to_follow')).values[0]).toMatchObject({
      text: 'M',
      pinned: true,
      says: 'would now be S',
    });
  });

  test('unticking frees, but not what another step holds', () => {
    const session = opened({
      ...NOTEBOOK,
      steps: [
        { id: 't1', text: 'Cast on {cast_on}.' },
        { id: 't2', text: 'Still {cast_on}, rib {rib_rounds}.' },
      ],
    });
    session.tick('t1');
    session.tick('t2');
    session.untick('t1');
    expect(Object.keys(session.notebook.progress?.pinned ?? {})).toContain(idOf('cast_on'));
    session.untick('t2');
    expect(session.notebook.progress).toBeUndefined();
  });

  test('ticks are outside the history of edits and have an undo of their own', () => {
    const session = opened();
    session.type(ofCell('cuff'), '45 st');
    session.tick('t1');
    session.rowOn('t3');
    expect(session.page().undo).toContain('cuff');
    expect(session.steps().undo).toBe('count rows');
    session.undoProgress();
    session.undoProgress();
    expect(session.notebook.progress).toBeUndefined();
    expect(session.undoProgress()).toMatchObject({ done: false });
    expect(session.text(ofCell('cuff'))).toBe('45 st');
  });

  test('a step that is gone or does not apply says so', () => {
    const session = opened();
    expect(session.tick('t99')).toMatchObject({ done: false });
    expect(session.tick('t2')).toEqual({ done: false, sentence: 'This step does not apply now.' });
    expect(session.rowOn('t8')).toEqual({ done: false, sentence: 'This step has no rows to count.' });
  });

  test('what was done is handed on to be kept, and read back it is the same', () => {
    let kept: Kept | undefined;
    const session = opened(NOTEBOOK, (one) => {
      kept = one;
    });
    session.tick('t1');
    session.rowOn('t3');
    expect(kept?.made?.role).toBe('progress');
    const again = opened(kept?.notebook);
    expect(again.steps().steps).toEqual(session.steps().steps);
  });
});

describe('the row of a count on the needles', () => {
  const BRIM = {
    stitch_gauge: '21 st / 10 cm',
    round_gauge: '30 rnds / 10 cm',
    head: '56 cm',
    cast_on: 'multiple(head * stitch_gauge * 90%, 8)',
    brim_depth: '6 cm',
    brim_rounds: 'whole(2 * brim_depth * round_gauge)',
  };
  const TEXT = 'Cast on {cast_on}; join in the round. Rib k2, p2 for {brim_rounds}, then fold.';

  test('tells what it would be now at every change, whether it did before or not', () => {
    const session = opened({ ...notebookOf(BRIM, {}), steps: [{ id: 't1', text: TEXT }] });
    const idOf = (name: string) => session.live.sheet.idOf(name) ?? '';
    const says = (name: string) => session.row(idOf(name)).values[0]?.says;
    const type = (name: string, text: string) => session.type({ cell: idOf(name), column: null }, text);
    for (let rnd = 0; rnd < 12; rnd += 1) session.rowOn('t1');
    const said = (depth: string) => {
      type('brim_depth', depth);
      return [session.row(idOf('brim_rounds')).values[0]?.text, says('brim_rounds')];
    };
    expect(['8 cm', '5 cm', '6 cm'].map(said)).toEqual([
      ['36', 'would now be 48 rnds'],
      ['36', 'would now be 30 rnds'],
      ['36', ''],
    ]);
    type('head', '60 cm');
    expect(says('cast_on')).toBe('would now be 112 sts');
    session.undo();
    expect(says('cast_on')).toBe('');
    session.redo();
    expect(says('cast_on')).toBe('would now be 112 sts');
    session.preview({ cell: idOf('head'), column: null }, '56 cm');
    expect(says('cast_on')).toBe('');
  });
});

describe('the row counter', () => {
  function counted(rows: number): Session {
    const session = opened();
    for (let i = 0; i < rows; i += 1) expect(session.rowOn('t3').done).toBe(true);
    return session;
  }

  test('where it stands is said by the one voice of the page', () => {
    const session = counted(2);
    const said: string[] = [];
    session.listen(({ aloud }) => void (aloud !== '' && said.push(aloud)));
    const words = () => session.steps().steps.find(({ id }) => id === 't3')?.counter?.words;
    session.rowOn('t3');
    expect(said).toEqual([words()]);
    session.rowBack('t3');
    expect(said.slice(1)).toEqual([words()]);
    expect(said[0]).not.toBe(said[1]);
  });

  test('knows the plan', () => {
    const session = counted(0);
    expect(step(session, 't3').counter).toEqual({
      done: 0,
      times: 0,
      of: 107,
      noun: 'row',
      words: '107 rows, first increase on row 7',
      next: 'next is row 1: plain',
      count: '43 sts',
      mended: '',
    });
    for (let i = 0; i < 37; i += 1) session.rowOn('t3');
    expect(step(session, 't3').counter).toMatchObject({
      words: '37 of 107 rows done, next increase on row 43',
      next: 'next is row 38: plain',
      count: '53 sts',
    });
    expect(step(session, 't3').lines.map(({ done, here }) => [done, here])).toEqual([
      [true, false],
      [false, true],
    ]);
  });

  test('takes one back, and frees the plan when no row is left', () => {
    const session = counted(2);
    expect(Object.keys(session.notebook.progress?.pinned ?? {})).toEqual(
      expect.arrayContaining([idOf('top'), idOf('sleeve_rows')]),
    );
    session.rowBack('t3');
    expect(step(session, 't3').counter?.done).toBe(1);
    session.rowBack('t3');
    expect(session.notebook.progress).toBeUndefined();
    expect(session.rowBack('t3')).toMatchObject({ done: false });
  });

  test('a plan that was begun keeps its counts when the gauge is measured again', () => {
    const session = counted(7);
    session.type(ofCell('row_gauge'), '30 row / 4 in');
    expect(step(session, 't3').counter?.of).toBe(107);
    expect(step(session, 't3').offer?.sentence).toBe('Knitted with sleeve rows 107; it would now be 115.');
  });

  test('ends with the plan', () => {
    const session = counted(107);
    expect(step(session, 't3').counter).toMatchObject({
      words: 'all 107 rows done',
      next: '',
      count: '71 sts',
    });
    expect(session.rowOn('t3')).toEqual({
      done: false,
      sentence: 'All 107 rows are done: tick the step.',
    });
  });

  test('counts the rounds of a step without a plan', () => {
    const session = opened();
    session.rowOn('t1');
    expect(step(session, 't1').counter).toMatchObject({
      words: '1 of 12 rnds done',
      next: 'next is rnd 2',
      of: 12,
    });
  });

  test('a heel turn says each row', () => {
    const session = opened();
    session.rowOn('t7');
    expect(step(session, 't7').counter).toMatchObject({
      words: '1 of 12 rows done',
      next: 'next is row 2: (WS) sl1, p5, p2tog, p1, turn',
      count: '27 sts',
    });
  });
});

describe('when the count on the needles differs', () => {
  test('two too few in a sleeve: the rest is spread anew and ends where it should', () => {
    const session = opened();
    const view = session.recount('t3', 37, 51);
    expect(view).toMatchObject({
      sentence: 'The plan has 53 sts after row 37, and there are 51: 2 too few.',
      hint: '51 sts would be right after row 34: look first whether that is where you are.',
      mend: 'No stitch has to be mended: the rest, spread anew, ends with 71 sts.',
      canGoOn: true,
    });
    expect(view?.lines.at(-1)?.after).toBe('71 sts');
    expect(view?.lines[0]?.label).toMatch(/^Rows? 38/);
  });

  test('an odd stitch is put right in the next row, in words', () => {
    expect(opened().recount('t3', 37, 52)?.mend).toBe('Increase 1 st on row 38 to put the count right.');
  });

  test('as planned, there is nothing to mend', () => {
    expect(opened().recount('t3', 37, 53)).toMatchObject({
      sentence: '53 sts after row 37: just as planned.',
      mend: 'Go on as planned.',
      canGoOn: false,
    });
  });

  test('going on keeps the new plan, and the counter follows it', () => {
    const session = opened();
    expect(session.goOn('t3', 37, 51)).toEqual({ done: true });
    const view = step(session, 't3');
    expect(view.counter).toMatchObject({
      done: 37,
      of: 107,
      count: '51 sts',
      mended: 'worked out again from row 37 with 51 sts',
    });
    expect(view.lines.at(-1)?.after).toBe('71 sts');
    const again = opened(session.notebook);
    expect(step(again, 't3').counter).toEqual(view.counter);
    again.rowOn('t3');
    expect(step(again, 't3').counter?.done).toBe(38);
    again.rowBack('t3');
    again.rowBack('t3');
    expect(step(again, 't3').counter).toMatchObject({ done: 36, mended: '', count: '53 sts' });
  });

  test('a step without a plan says how to mend it in the next plain round', () => {
    expect(opened().recount('t1', 0, 198)).toMatchObject({
      sentence: 'There should be 200, and there are 198: 2 too few.',
      mend: 'In the next plain rnd: (k99, m1) 2 times; 200 sts (2 × 99 = 198 before).',
    });
  });

  // Common practice: patterns print the count after a row in brackets, or at the end of its sum.
  test.each([
    ['Cast on {a} loosely and rib 12 rnds.', 90],
    ['Begin with {a} at the underarm.', 90],
    ['Cast on {a}, {b} of them edge stitches.', undefined],
    ['Knit 9 rnds: {a}, 14 in from the edge.', 90],
    ['Knit 9 rnds ({a}, 14 in from the edge).', 90],
    ['Join: front {b}, back {b}: {a} in all. The yoke has 60 rnds.', 90],
    ['Front and back, {b} + {b} = {a}.', 90],
    ['Knit 9 rnds: {a}. Set {b} aside.', undefined],
    ['Knit 9 rnds: {a} (front {b}, back {b}).', undefined],
    ['Border: {a} in garter.', undefined],
    ['Graft {a}, {b} to {b}.', undefined],
    ['Bind off the {a} very loosely.', undefined],
    ['Next rnd, decrease evenly: {fewer}.', 80],
    ['Next rnd: {fewer}. Set {b} aside.', undefined],
    ['Knit {a} and {nowhere} ({a}).', undefined],
  ])('“%s”: what is on the needles is %s', (text, wanted) => {
    const cells = [
      { id: 'k1', name: 'a', text: '90 st' },
      { id: 'k2', name: 'b', text: '45 st' },
      { id: 'k3', name: 'fewer', text: 'spread_round(-10, a)' },
    ];
    const session = opened({
      ...NOTEBOOK,
      sections: [{ id: 's1', title: 'All', cells }],
      steps: [{ id: 't1', text }],
    });
    expect(step(session, 't1').recounts).toBe(wanted !== undefined);
    const said = session.recount('t1', 0, 89)?.sentence;
    if (wanted === undefined) expect(said).toBeUndefined();
    else expect(said).toContain(`There should be ${wanted}, and there are 89`);
  });

  test('a count far from the expected one is asked about before anything is mended', () => {
    const flap = opened({
      ...NOTEBOOK,
      sections: [
        {
          id: 's1',
          title: 'All',
          cells: [
            { id: 'k1', name: 'heel_stitches', text: '32 st' },
            { id: 'k2', name: 'instep_stitches', text: '30 st' },
          ],
        },
      ],
      steps: [
        {
          id: 't1',
          text: 'Leave {instep_stitches} waiting. Work to and fro, ending with a WS row ({heel_stitches}).',
        },
      ],
    });
    expect(flap.recount('t1', 0, 60)).toMatchObject({
      sentence: 'There should be 32, and there are 60: nearly twice as many.',
      asks: [
        'Count again, only what is on the heel needle: the 32 heel stitches.',
        'Were the instep stitches, 30, counted too, or was a repeat or a row missed?',
      ],
    });
    expect(flap.recount('t1', 0, 60)?.mend).toMatch(/^In the next plain row: /);
    expect(flap.recount('t1', 0, 16)).toMatchObject({
      sentence: 'There should be 32, and there are 16: about half of them.',
      asks: [
        'Count again, only what is on the heel needle: the 32 heel stitches.',
        'Are some on another needle or a holder, or was a repeat or a row missed?',
      ],
    });
  });

  // Common practice: more than a fifth and more than four stitches.
  test.each([
    [32, 38, false],
    [32, 39, true],
    [32, 26, false],
    [32, 25, true],
    [8, 12, false],
    [8, 13, true],
    [200, 240, false],
    [200, 241, true],
  ])('of %i sts, %i is far: %s', (wanted, count, far) => {
    const session = opened({
      ...NOTEBOOK,
      sections: [{ id: 's1', title: 'All', cells: [{ id: 'k1', name: 'cast_on', text: `${wanted} st` }] }],
      steps: [{ id: 't1', text: 'Cast on {cast_on}.' }],
    });
    const asks = session.recount('t1', 0, count)?.asks ?? [];
    expect(asks.length > 0).toBe(far);
    if (far) expect(asks[0]).toContain(`${wanted} stitches`);
  });

  test('in a plan too, and she can go on with her count when she is sure', () => {
    const session = opened();
    expect(session.recount('t3', 37, 66)).toMatchObject({
      canGoOn: true,
      asks: [expect.any(String), expect.any(String)],
    });
    expect(session.recount('t3', 37, 51)?.asks).toEqual([]);
    expect(session.recount('t7', 1, 55)?.asks[1]).toContain('Were the instep stitches counted too');
    expect(session.goOn('t3', 37, 66)).toEqual({ done: true });
  });

  test('too far off to mend is told, not thrown; nonsense is no answer', () => {
    const session = opened();
    expect(session.recount('t7', 3, 3)?.mend).toContain('too far off');
    expect(session.recount('t1', 0, 2)?.mend).toContain('do not fit');
    expect(session.recount('t3', 107, 60)).toMatchObject({ canGoOn: false });
  });

  test('after the last row of a plan the mend is in the next plain row, as after any step', () => {
    const session = opened();
    expect(session.recount('t3', 107, 69)).toMatchObject({
      sentence: 'There should be 71, and there are 69: 2 too few.',
      canGoOn: false,
    });
    expect(session.recount('t3', 107, 69)?.mend).toMatch(/^In the next plain row: .*m1.*; 71 sts/);
    expect(session.recount('t3', 107, 71)?.mend).toBe('Go on as planned.');
  });

  test('what cannot be counted is not answered', () => {
    const session = opened();
    expect(session.recount('t3', 3.5, 60)).toBeUndefined();
    expect(session.recount('t8', 0, 60)).toBeUndefined();
    expect(session.goOn('t8', 0, 60)).toMatchObject({ done: false });
  });
});

const chosenOf = (session: Session) => session.page().columns.find(({ chosen }) => chosen)?.id;

describe('each column has progress of its own', () => {
  const raglan = (progress?: Progress) =>
    createSession({
      notebook: { ...openNotebook('raglan'), ...(progress && { progress }) },
      today: TEST_DAY,
      random: () => 0.5,
    });
  const done = (session: Session) =>
    session
      .steps()
      .steps.flatMap(({ number, ticked, counter, offer }) =>
        ticked || offer || (counter?.done ?? 0) > 0
          ? [`${number}${ticked ? ' ticked' : ''} ${counter?.done ?? 0}`]
          : [],
      );

  test('what is knitted for one wearer is not knitted for another, and is there again when she is chosen again', () => {
    const session = raglan();
    for (const id of ['t1', 't2', 't3', 't4', 't5']) session.tick(id);
    for (let k = 0; k < 84; k += 1) session.rowOn('t6');
    const sunniva = session.steps().steps;
    session.choose('c1');
    expect(done(session)).toEqual([]);
    expect(session.steps().undo).toBe('');
    expect(session.steps().steps.find(({ id }) => id === 't1')?.text).toMatch(
      /^Body, in the round: cast on 100 sts/,
    );
    session.rowOn('t6');
    session.choose('c2');
    expect(session.steps().steps).toEqual(sunniva);
    expect(session.steps().undo).toBe('count rows');
    session.undoProgress();
    expect(session.steps().steps.find(({ id }) => id === 't6')?.counter?.done).toBe(83);
    session.choose('c1');
    expect(done(session)).toEqual(['6 1']);
  });

  test('a label that is renamed keeps it, a column that goes takes it along, and it comes back with it', () => {
    const session = raglan();
    session.tick('t1');
    session.choose('c1');
    session.tick('t2');
    session.renameColumn('c2', 'Sunniva the elder');
    session.deleteColumn('c2');
    expect(done(session)).toEqual(['2 ticked 0']);
    session.addColumn('Sunniva', 'c1');
    session.choose(session.notebook.columns?.list[1]?.id ?? '');
    expect(done(session)).toEqual([]);
    session.undo();
    session.undo();
    session.undo();
    session.choose('c2');
    expect(done(session)).toEqual(['1 ticked 0']);
  });

  test('progress of an older file is of the wearer that was chosen', () => {
    const session = raglan({
      ticked: { t4: 'Set 13 sts aside.' },
      pinned: { k20: { c2: '13 st' } },
      rows: { t6: 3 },
    });
    const before = session.file();
    expect(done(session)).toEqual(['4 ticked 0', '6 3']);
    session.rowOn('t6');
    session.undoProgress();
    expect(session.file()).toBe(before);
    session.choose('c1');
    expect(done(session)).toEqual([]);
    session.tick('t1');
    session.choose('c2');
    expect(done(session)).toEqual(['4 ticked 0', '6 3']);
    const read = readNotebook(session.file());
    expect(!('refused' in read) && read.notebook).toEqual(session.notebook);
  });

  test('where the steps are the same whichever column is chosen, there is one for all', () => {
    const session = createSession({
      notebook: openNotebook('grow-shawl'),
      today: TEST_DAY,
      random: () => 0.5,
    });
    const first = session.steps().steps.find(({ number }) => number === 1)?.id ?? '';
    session.tick(first);
    expect(session.notebook.progress?.of).toBeUndefined();
    session.choose('c1');
    expect(session.steps().steps.find(({ id }) => id === first)?.ticked).toBe(true);
  });

  test('more rows than there would be now are not forgotten: such an offer cannot be taken', () => {
    const session = raglan();
    for (let k = 0; k < 84; k += 1) session.rowOn('t6');
    session.type({ cell: session.live.sheet.idOf('sleeve_length') ?? '', column: 'c2' }, '16 3/4 in');
    const step = () => session.steps().steps.find(({ id }) => id === 't6');
    const before = step();
    expect(before?.offer).toMatchObject({
      canTake: false,
      sentence: expect.stringMatching(/84 rnds are done, 4 more than 80 rnds: they stay as they are\.$/),
    });
    expect(session.takeOffer('t6').done).toBe(false);
    expect(step()).toEqual(before);
    for (let k = 0; k < 35; k += 1) session.rowBack('t6');
    expect(session.takeOffer('t6').done).toBe(true);
    expect(step()?.counter).toMatchObject({ done: 49, of: 80 });
    expect(session.steps().undo).toBe('take what it would be now');
    session.undoProgress();
    expect(step()?.counter).toMatchObject({ done: 49, of: 84 });
  });
});

describe('a second sleeve', () => {
  test('is counted again from 0, by the same counts, and back into the first', () => {
    const session = opened();
    expect(session.countAgain('t3').done).toBe(false);
    const counter = () => step(session, 't3').counter;
    const first = counter();
    for (let k = 0; k < (first?.of ?? 0); k += 1) session.rowOn('t3');
    const pinned = session.notebook.progress?.pinned;
    expect(session.countAgain('t3')).toEqual({ done: true });
    expect(counter()).toMatchObject({ done: 0, times: 1, words: `2nd time: ${first?.words}` });
    session.type(ofCell('row_gauge'), '32 row / 4 in');
    expect(counter()?.of).toBe(first?.of);
    session.rowOn('t3');
    expect(counter()?.words).toMatch(/^2nd time: 1 of /);
    expect(session.notebook.progress?.pinned).toEqual(pinned);
    session.rowBack('t3');
    session.rowBack('t3');
    expect(counter()).toMatchObject({ done: first?.of, times: 0 });
  });
});

describe('laws of progress', () => {
  const ids = NOTEBOOK.steps.map(({ id }) => id);
  const doings = fc.array(
    fc.tuple(
      fc.constantFrom(
        'tick',
        'untick',
        'rowOn',
        'rowBack',
        'takeOffer',
        'goOn',
        'edit',
        'back',
        'choose',
        'countAgain',
      ),
      fc.constantFrom(...ids),
      fc.integer({ min: 0, max: 120 }),
    ),
    { maxLength: 24 },
  );

  function does(session: Session, what: string, id: string, n: number): void {
    if (what === 'goOn') session.goOn(id, n, n + 20);
    else if (what === 'edit') session.type(ofCell('stitch_gauge'), `${18 + (n % 5)} st / 4 in`);
    else if (what === 'back') session.undoProgress();
    else if (what === 'choose') session.choose(['c1', 'c2', 'c3', 'follow'][n % 4] ?? 'follow');
    else session[what as 'tick' | 'untick' | 'rowOn' | 'rowBack' | 'takeOffer' | 'countAgain'](id);
  }

  test('whatever is ticked, counted and edited, every step can be told, and freeing everything leaves nothing', () => {
    fc.assert(
      fc.property(doings, (list) => {
        const session = opened();
        for (const [what, id, n] of list) {
          does(session, what, id, n);
          expect(JSON.stringify(session.steps())).not.toMatch(/NaN|undefined|Infinity/);
        }
        for (const column of ['c1', 'c2', 'c3', '']) {
          if (column !== '') session.choose(column);
          for (const id of ids) {
            session.untick(id);
            for (let i = 0; i < 1000 && session.rowBack(id).done; i += 1);
          }
        }
        expect(Object.keys(session.notebook.progress?.pinned ?? {})).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  test('taking everything back gives the progress it began with', () => {
    fc.assert(
      fc.property(doings, (list) => {
        const session = opened();
        for (const [what, id, n] of list) if (what !== 'back') does(session, what, id, n);
        for (const column of ['c1', 'c2', 'c3']) {
          session.choose(column);
          for (let i = 0; i < 60 && session.undoProgress().done; i += 1);
        }
        expect(session.notebook.progress).toBeUndefined();
      }),
      { numRuns: 60 },
    );
  });

  test('whatever is done with the needles, taking it back gives the very file there was', () => {
    fc.assert(
      fc.property(doings, (list) => {
        const session = opened();
        for (const [what, id, n] of list) {
          const before = session.file();
          does(session, what, id, n);
          if (['edit', 'back', 'choose'].includes(what) || session.file() === before) continue;
          expect(session.undoProgress()).toEqual({ done: true });
          expect(session.file()).toBe(before);
          does(session, what, id, n);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('what is knitted of one column never alters what is of another', () => {
    fc.assert(
      fc.property(doings, (list) => {
        const session = opened();
        const others = (chosen: string | undefined) =>
          COLUMNS.filter(({ id }) => id !== chosen).map(({ id }) => {
            const { ticked = {}, pinned = {}, rows = {} } = knittedOf(session.notebook.progress, id) ?? {};
            return { ticked, pinned, rows };
          });
        for (const [what, id, n] of list) {
          const chosen = chosenOf(session);
          const before = others(chosen);
          does(session, what, id, n);
          // An offer may bring another size: then what was begun is that one.
          if (what !== 'takeOffer' || chosenOf(session) === chosen) expect(others(chosen)).toEqual(before);
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('what a begun sweater offers', () => {
  const sweater = () =>
    createSession({ notebook: openNotebook('resize-sweater'), today: TEST_DAY, random: () => 0.5 });
  const idOf = (session: Session, name: string) => session.live.sheet.idOf(name) ?? '';
  const set = (session: Session, name: string, text: string) =>
    session.type({ cell: idOf(session, name), column: null }, text);
  const stepFrom = (session: Session, words: string): StepView => {
    const step = session.steps().steps.find(({ applies, text }) => applies && text.startsWith(words));
    if (!step) throw new Error(`no step begins with ${words}`);
    return step;
  };

  test('is to the letter what it brings, and the rows that are done stay done', () => {
    const session = sweater();
    set(session, 'match_neck', 'yes');
    session.tick(stepFrom(session, 'Cast on').id);
    session.tick(stepFrom(session, 'Work the neck edge').id);
    const yoke = stepFrom(session, 'Work the yoke').id;
    for (let k = 0; k < 12; k += 1) session.rowOn(yoke);
    for (const [gauge, text] of [
      ['row_gauge', '30 row / 4 in'],
      ['stitch_gauge', '20.5 st / 4 in'],
    ] as const) {
      set(session, gauge, text);
      for (const { id, offer } of session.steps().steps) {
        if (!offer) continue;
        session.takeOffer(id);
        const now = session.steps().steps.find((step) => step.id === id);
        expect(now?.text).toBe(offer.now);
      }
    }
    expect(stepFrom(session, 'Work the yoke').counter).toMatchObject({ done: 12 });
  });

  test('the size that was begun stays while the gauge moves; the offer names the size it would be now', () => {
    const session = sweater();
    set(session, 'stitch_gauge', '21 st / 4 in');
    set(session, 'chest', '42 in');
    session.tick(stepFrom(session, 'Cast on').id);
    const yoke = stepFrom(session, 'Work the yoke').id;
    for (let k = 0; k < 20; k += 1) session.rowOn(yoke);
    const size = () => session.row(idOf(session, 'size_to_follow')).values[0]?.text;
    const begun = size();
    set(session, 'stitch_gauge', '18 st / 4 in');
    expect(size()).toBe(begun);
    const { offer, text } = session.steps().steps.find(({ id }) => id === yoke) ?? {};
    expect(offer?.sentence).toContain(`size to follow ${begun}`);
    // What is left out or added is the difference of the rounds on the needles to those of the size that was begun.
    const added = session.live.sheet.value(idOf(session, 'yoke_rows_to_add'), 0);
    const words = text?.match(/Plain rnds to (leave out|add): (\d+)/) ?? [];
    expect(Number(words[2]) * (words[1] === 'add' ? 1 : -1)).toBe(
      added.kind === 'quantity' ? added.value : Number.NaN,
    );
    session.takeOffer(yoke);
    expect(size()).not.toBe(begun);
    expect(session.steps().steps.find(({ id }) => id === yoke)?.text).toBe(offer?.now);
  });

  test('advice has no number and nothing on the needles, and is not said once the knitting is begun', () => {
    const session = sweater();
    const advice = stepFrom(session, 'Before you cast on');
    expect(advice).toMatchObject({ number: 0, advice: true, counts: [], recounts: false });
    expect(session.tick(advice.id).done).toBe(false);
    expect(stepFrom(session, 'Cast on').number).toBe(1);
    session.tick(stepFrom(session, 'Cast on').id);
    expect(Object.keys(session.notebook.progress?.pinned ?? {})).not.toContain(
      idOf(session, 'neck_stitches_to_match'),
    );
    expect(session.steps().steps.find(({ id }) => id === advice.id)?.applies).toBe(false);
  });

  test('a trial that would change what is on the needles says that it stays', () => {
    const session = sweater();
    session.tick(stepFrom(session, 'Cast on').id);
    session.tryTexts('match neck', { [idOf(session, 'match_neck')]: { text: 'yes' } });
    expect(session.page().trial?.outcome).toMatch(
      /cast on stays \d+ sts, which are on the needles, not \d+ sts/,
    );
  });
});

describe('other values in the midst of a plan', () => {
  const sleeve = (session: Session) => step(session, 't3');
  /** The sleeve with so many rows done, its rows then of another number. */
  function inTheMidst(done: number, rowGauge: string): Session {
    const session = opened();
    for (let row = 0; row < done; row += 1) session.rowOn('t3');
    session.type(ofCell('row_gauge'), rowGauge);
    return session;
  }

  test.each([1, 20, 47, 80])(
    'after %i rows what is on the needles stays, and the rest is planned from it',
    (done) => {
      const session = inTheMidst(done, '33 row / 4 in');
      const before = sleeve(session).counter;
      expect(sleeve(session).offer?.canTake).toBe(true);
      expect(session.takeOffer('t3')).toEqual({ done: true });
      const after = sleeve(session).counter;
      expect(after).toMatchObject({ done, count: before?.count });
      expect(after?.of).not.toBe(before?.of);
      for (let row = done; row < (after?.of ?? 0); row += 1) session.rowOn('t3');
      expect(sleeve(session).counter).toMatchObject({ done: after?.of, count: '71 sts' });
    },
  );

  test('where the rest cannot be planned from there it is said, and not taken', () => {
    const session = inTheMidst(30, '8.2 row / 4 in');
    const { offer, counter } = sleeve(session);
    expect(offer?.canTake).toBe(false);
    expect(offer?.sentence).toContain('After row 30 there are ');
    expect(session.takeOffer('t3').done).toBe(false);
    expect(sleeve(session).counter).toEqual(counter);
  });
});

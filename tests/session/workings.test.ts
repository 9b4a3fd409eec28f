// What was made whole on the way to a value and what it cost, wherever in the formula it stands. By hand throughout.
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

type Cells = Readonly<Record<string, string>>;

function roundings(notebook: ReturnType<typeof openNotebook>, name: string): readonly string[] {
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  return session.workings(session.live.sheet.idOf(name) ?? '', null).roundings;
}

/** The roundings told of the last of some cells. */
function told(cells: Cells, units: 'in' | 'cm' = 'in'): readonly string[] {
  return roundings(notebookOf(cells, { units }), Object.keys(cells).at(-1) ?? '');
}

const CHEST = { chest: '42 in', ease_wanted: '2 in', stitch_gauge: '18 st / 4 in', lost_in_seams: '4 st' };

describe('what rounding cost is told', () => {
  // 22.4 cm × 90% × 31 / 10 cm is 62.496 sts; 1.504 / 3.1 is 0.49 cm.
  test('of a count inside max(), of the arm that decides', () => {
    expect(roundings(openNotebook('fit-sock'), 'sock_stitches')).toEqual([
      '62.5 → 64 sts, multiple of 4; +1.5 sts, +0.5 cm',
    ]);
  });

  test('not of an arm that another beat', () => {
    const larger = { gauge: '18 st / 4 in', stitches: 'max(12 st, multiple(1.9 in * gauge, 4))' };
    expect(told(larger)).toEqual([]);
    // 3.9 in × 4.5 is 17.55 sts; 1.55 / 4.5 is 0.34 in.
    expect(told({ ...larger, stitches: 'max(12 st, multiple(3.9 in * gauge, 4))' })).toEqual([
      '17.6 → 16 sts, multiple of 4; −1.6 sts, −¼ in',
    ]);
  });

  // 44 in × 4.5 is 198 sts, 99 for a piece: 98 is 12 × 8 + 2. Of one piece 1 st is 0.22 in, of two 2 sts are 0.44 in.
  test('of a piece, and of all the pieces', () => {
    const body = 'pieces * multiple((chest + ease_wanted) * stitch_gauge / pieces, repeat, repeat_plus)';
    const own_body_stitches = `${body} + lost_in_seams`;
    expect(told({ ...CHEST, pieces: '2', repeat: '8', repeat_plus: '2', own_body_stitches })).toEqual([
      '99.0 → 98 sts, multiple of 8 + 2; −1.0 sts, −¼ in; in all −2.0 sts, −½ in',
    ]);
    expect(told({ ...CHEST, pieces: '1', repeat: '8', repeat_plus: '0', own_body_stitches })).toEqual([
      '198.0 → 200 sts, multiple of 8; +2.0 sts, +½ in',
    ]);
  });

  test.each([
    ['yes', ['75 → 74 rows, multiple of 2; −1.0 rows']],
    ['no', []],
  ] as const)('of the branch taken, not of the other one or of a test: %s', (flat, lines) => {
    const planned = { worked_flat: flat, planned_rows: '75 row', last_row: '80 row' };
    const stop_row = 'min(worked_flat ? multiple_down(planned_rows, 2) : planned_rows, last_row)';
    expect(told({ ...planned, stop_row })).toEqual(lines);
    const tested = 'multiple_down(planned_rows, 2) == planned_rows ? 0 row : planned_rows';
    expect(told({ ...planned, tested })).toEqual([]);
  });

  test('of each of several, one line for two that are alike', () => {
    const halves = { neck: '21 st', overlap: '13 st' };
    expect(told({ ...halves, front: 'whole_up(neck / 2) + whole_down(overlap / 2)' })).toEqual([
      '10.5 → 11 sts; +0.5 sts',
      '6.5 → 6 sts; −0.5 sts',
    ]);
    expect(told({ ...halves, front: 'whole_up(neck / 2) + whole_up(neck / 2)' })).toHaveLength(1);
  });

  test('with the difference of what is printed, and not where there was nothing to round', () => {
    // 11.375 in × 10 is 113.75 rows, printed 113.8: 0.2 to 114.
    const rows = { length: '11.375 in', row_gauge: '40 row / 4 in' };
    expect(told({ ...rows, rows: 'whole(length * row_gauge)' })).toEqual([
      '113.8 → 114 rows; +0.2 rows, no change you could measure',
    ]);
    expect(told({ stitches: '64 st', half: 'whole(stitches / 2)' })).toEqual([]);
    expect(told({ stitches: '64 st', all: 'multiple(stitches, 8)' })).toEqual(['64 → 64 sts, multiple of 8']);
    expect(told({ stitches: '64 st', all: 'multiple(stitches, 1)' })).toEqual([]);
  });

  test('in length only at a gauge of what was counted: rows are no length at a stitch gauge', () => {
    const foot = { foot_length: '10 cm', stitch_gauge: '28 st / 10 cm' };
    const flap_rows = 'multiple_up(foot_length * stitch_gauge * 1 row / 1 st - 1 row, 2)';
    expect(told({ ...foot, flap_rows }, 'cm')).toEqual(['27.0 → 28 rows, multiple of 2; +1.0 rows']);
  });

  test('in rounds where the cell is told in rounds', () => {
    expect(roundings(openNotebook('fit-sock'), 'foot_rounds')).toEqual([
      expect.stringMatching(/^[\d.]+ → \d+ rnds; [+−][\d.]+ rnds, /),
    ]);
  });
});

test('a name with “plus” in it is told apart from the plus of a multiple', () => {
  const cells = {
    width: '40 st',
    repeat: '8',
    repeat_plus: '2',
    count: 'multiple(width, repeat, repeat_plus)',
  };
  const session = createSession({ notebook: notebookOf(cells), today: TEST_DAY, random: () => 0.5 });
  expect(session.workings('k4', null).lines.map(({ text }) => text)).toEqual([
    'width, to the nearest multiple of repeat, plus repeat plus',
    '40 sts, to the nearest multiple of 8, plus 2',
    '42 sts',
  ]);
});

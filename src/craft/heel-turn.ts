/*
 * The half-round turn of a heel, worked row by row on the needle. The first row goes past the middle, draws two
 * stitches together and works one more; the second does the same on the other side, leaving as many unworked as
 * the first did. From then on every row ends by closing the gap where the work was last turned and taking one
 * stitch more, until none are left. When the stitches to be taken run out one short, the last pair of rows ends
 * with the two together and no stitch after them, as in Ryder's turn of 1896.
 */

import type { Plan, PlanSpec, PlanStep, Problem } from '../formula/index.ts';
import { present, readCounts, refused } from './count.ts';
import { finished } from './plan.ts';
import { problem } from './problem.ts';
import { KNITTED, PURLED, spreadInWords } from './spread.ts';
import { sts } from './words.ts';

/** The most rows a turn may have; every row is a step of its own. */
const MOST_ROWS = 1_000;

/** One row of a turn: plain stitches after the slipped one, and whether one is worked after the decrease. */
interface TurnRow {
  readonly middle: number;
  readonly oneMore: boolean;
}

/** The rows of the turn of a flap, worked one after another on a needle. */
function turnRows(flap: number, first: number): TurnRow[] {
  const onward = Math.min(1, flap - first - 2);
  let farSide = flap - first - 2 - onward;
  let nearSide = 0;
  let worked = first + 1 + onward;
  const rows: TurnRow[] = [{ middle: first - 1, oneMore: onward === 1 }];
  const left = farSide;
  rows.push({ middle: worked - left - 3 - onward, oneMore: onward === 1 });
  nearSide = left;
  worked -= left + 1;
  while (farSide > 0 || nearSide > 0) {
    const oneMore = farSide > 1;
    rows.push({ middle: worked - 2, oneMore });
    worked += oneMore ? 1 : 0;
    [farSide, nearSide] = [nearSide, farSide - (oneMore ? 2 : 1)];
  }
  return rows;
}

const rightSide = (number: number): boolean => number % 2 === 1;

/** A row as it is printed; `middle` in words where it holds a mend. */
function rowInWords({ middle, oneMore }: TurnRow, number: number, mended?: string): string {
  const { plain, together } = rightSide(number) ? KNITTED : PURLED;
  const between = mended ?? (middle > 0 ? `${plain}${middle}` : '');
  const parts = ['sl1', between, together, oneMore ? `${plain}1` : '', 'turn'];
  return `(${rightSide(number) ? 'RS' : 'WS'}) ${parts.filter((part) => part !== '').join(', ')}`;
}

/** How many stitches a row works, each counted as it leaves the needle. */
const worksIn = ({ middle, oneMore }: TurnRow): number => middle + 2 + (oneMore ? 1 : 0);

interface Turn {
  readonly flap: number;
  readonly first: number;
}

/** The plan of the rows after `row`, beginning with `count` stitches; the next row's middle may be mended. */
function laidOut(turn: Turn, row: number, count: number, mended?: string): Plan {
  const rows = turnRows(turn.flap, turn.first);
  const rest = rows.slice(row);
  const steps: PlanStep[] = rest.map((turnRow, i) => {
    const number = row + i + 1;
    const says = rowInWords(turnRow, number, i === 0 ? mended : undefined);
    return { rows: [number, number], times: 1, do: 'turn', says, after: turn.flap - number };
  });
  const text = steps.map((step) => `Row ${step.rows?.[0]} ${step.says}: ${sts(step.after)}.`).join(' ');
  const totals = {
    start: count,
    after_row: row,
    stitches_after: turn.flap - rows.length,
    rows: steps.length,
    shapings: steps.length,
    stitches_worked: rest.reduce((sum, turnRow) => sum + worksIn(turnRow), 0),
  };
  return { kind: 'heel_turn', args: present({ ...turn }), steps, text, remarks: [], totals };
}

function readTurn(flap: number | undefined, first: number | undefined): Turn | Problem {
  const read = readCounts({ flap: [flap, 5], first: [first, 0] });
  if (refused(read)) return read;
  const [least, most] = [Math.ceil((read.flap - 1) / 2), read.flap - 2];
  if (read.first < least || read.first > most)
    return problem('plan-turn-first', { flap: read.flap, first: read.first, least, most });
  const rows = read.flap - read.first;
  return rows > MOST_ROWS ? problem('plan-turn-long', { rows, most: MOST_ROWS }) : read;
}

/**
 * The rows left. When the count is off, the next row puts it right among its plain stitches, so that the turn
 * ends with as many as it should; a count too far off for that is a problem.
 */
function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const turn = readTurn(plan.args['flap'], plan.args['first']);
  if (refused(turn)) return turn;
  const rows = turnRows(turn.flap, turn.first);
  const read = readCounts({ row: [row, 0, rows.length], count: [count, 1] });
  if (refused(read)) return read;
  const planned = turn.flap - read.row;
  const next = rows[read.row];
  if (read.count === planned)
    return next ? laidOut(turn, read.row, planned) : finished(plan, read.row, planned);
  if (!next) return problem('plan-no-rows-left', { row: read.row, count: read.count, to: planned });
  const there = next.middle + read.count - planned;
  const words = spreadInWords(planned - read.count, there, rightSide(read.row + 1) ? KNITTED : PURLED);
  if (words === undefined) return problem('plan-far-off', { row: read.row, count: read.count, planned });
  const off = read.count - planned;
  const says = `There ${off > 0 ? `are ${sts(off)} too many` : `are ${sts(-off)} too few`}; the next row puts it right.`;
  return {
    ...laidOut(turn, read.row, read.count, words),
    remarks: [off === 1 || off === -1 ? says.replace('are', 'is') : says],
  };
}

/** The turn of a heel, row by row. */
export const heelTurn: PlanSpec = {
  kind: 'plan',
  name: 'heel_turn',
  help: 'the half-round turn of a heel, row by row',
  parameters: [
    { name: 'flap', accepts: 'stitches', help: 'stitches of the heel flap' },
    {
      name: 'first',
      accepts: 'plain',
      help: 'stitches worked in the first row before its decrease, the slipped one counted: half the flap + 1 or 2',
    },
  ],
  gives: 'plan',
  examples: [
    {
      text: 'heel_turn(9 st, 5)',
      gives:
        'Row 1 (RS) sl1, k4, k2tog, k1, turn: 8 sts. Row 2 (WS) sl1, p2, p2tog, p1, turn: 7 sts. ' +
        'Row 3 (RS) sl1, k3, k2tog, turn: 6 sts. Row 4 (WS) sl1, p3, p2tog, turn: 5 sts.',
    },
    {
      text: 'heel_turn(8 st, 5)',
      gives: 'Row 1 (RS) sl1, k4, k2tog, k1, turn: 7 sts. Row 2 (WS) sl1, p3, p2tog, p1, turn: 6 sts.',
    },
  ],
  source: 'H. P. Ryder, Cycling and Shooting Knickerbocker Stockings, 1896; Handbook of Wool Knitting, 1918',
  says: ([flap, first]) =>
    `the turn of a heel of ${flap}, the first row working ${first} before its decrease`,
  work: (flap, first) => {
    const turn = readTurn(flap, first);
    return refused(turn) ? turn : laidOut(turn, 0, turn.flap);
  },
  resume,
};

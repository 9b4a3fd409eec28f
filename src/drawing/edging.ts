/*
 * An edging knitted on to live stitches: which repeat takes which stitches, where a join takes two or none, and where
 * she is now. Everything is read off the plan; nothing is worked out again here.
 */

import { rowsOf } from '../craft/index.ts';
import type { Plan } from '../formula/index.ts';
import type { Reader } from './parts.ts';
import { emptyPicture, readParts } from './parts.ts';
import type { DrawingKind, Join, PartSpec, Parts, Picture } from './picture.ts';

const title = 'The edging along the live stitches';

const specs: readonly PartSpec[] = [
  { name: 'plan', measures: 'plan', needed: true, help: 'A knitted-on edging, as join(…) plans it.' },
  { name: 'live', measures: 'count', needed: false, help: 'Live stitches at the start.' },
  { name: 'repeats', measures: 'count', needed: false, help: 'Repeats in all.' },
  { name: 'rows_done', measures: 'number', needed: false, help: 'Rows of the edging done so far.' },
  {
    name: 'live_left',
    measures: 'number',
    needed: false,
    help: 'Live stitches left now, where rows are not counted.',
  },
];

/** An edging joined to its live stitches, each mend marked. */
export const edging: DrawingKind = {
  kind: 'edging',
  title,
  help: 'The live stitches with the edging’s repeats beneath, each “take 2” and “no join” marked, and where you are.',
  parts: specs,
  draw,
};

/** The most joins that are drawn, one by one. */
const MOST_JOINS = 5000;

interface Taken extends Join {
  /** Live stitches left after it. */
  readonly after: number;
}

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const plan = read.plan('plan');
  if (!plan) return emptyPicture('edging', title, read.leftOut());
  const joins = joinsOf(plan);
  if (joins.length === 0) {
    read.leave(
      plan.kind === 'join'
        ? 'Every live stitch is taken: the edging is done.'
        : 'This plan is not a knitted-on edging.',
    );
    return emptyPicture('edging', title, read.leftOut());
  }
  if (joins.length > MOST_JOINS) read.leave(`Only the first ${MOST_JOINS} joins are drawn.`);
  const done = doneOf(read, plan, joins);
  const block = {
    kind: 'strip',
    joins: joins.slice(0, MOST_JOINS),
    joinsInRepeat: perRepeat(plan),
    done,
    cell: read.cell('plan'),
  } as const;
  return {
    kind: 'edging',
    title,
    block,
    describe: inWords(read, plan, joins, done),
    leftOut: read.leftOut(),
  };
}

function perRepeat(plan: Plan): number {
  const joins = plan.args['joins'] ?? 1;
  return Number.isInteger(joins) && joins > 0 ? joins : 1;
}

/** Each join with its repeat; a plan that was worked out again begins in the middle of one. */
function joinsOf(plan: Plan): readonly Taken[] {
  const joins: Taken[] = [];
  if (plan.kind !== 'join') return joins;
  const per = perRepeat(plan);
  const before = Math.floor((plan.totals['after_row'] ?? 0) / 2);
  for (const row of rowsOf(plan)) {
    const how = row.do;
    if (how !== 'join' && how !== 'take2' && how !== 'nojoin') continue;
    const place = before + joins.length;
    joins.push({ how, repeat: Math.floor(place / per) + 1, join: (place % per) + 1, after: row.after });
    if (joins.length > MOST_JOINS) break;
  }
  return joins;
}

/** How many of these joins are done: by the rows, or by the stitches that are left; −1 when neither is known, or none is. */
function doneOf(read: Reader, plan: Plan, joins: readonly Taken[]): number {
  const rows = read.value('rows_done');
  if (rows !== undefined) {
    if (rows <= 0) return -1; // Nothing is knitted yet.
    const here = Math.floor(rows / 2) - Math.floor((plan.totals['after_row'] ?? 0) / 2);
    return Math.max(0, Math.min(joins.length, here));
  }
  const left = read.value('live_left');
  if (left === undefined) return -1;
  return joins.filter((one) => one.after >= left && one.after < (plan.totals['start'] ?? Infinity)).length;
}

/** How many mends are told one by one. */
const TOLD = 20;

function inWords(read: Reader, plan: Plan, joins: readonly Taken[], done: number): readonly string[] {
  const mends = joins.filter((one) => one.how !== 'join');
  const told = mends
    .slice(0, TOLD)
    .map(
      ({ how, repeat, join }) =>
        `${how === 'take2' ? 'Take 2' : 'No join'} in repeat ${repeat}, at join ${join}.`,
    );
  const more = mends.length > TOLD ? [`And ${mends.length - TOLD} more like these.`] : [];
  const next = joins[done];
  const here =
    done < 0
      ? []
      : next
        ? [`You are in repeat ${next.repeat}, before join ${next.join}.`]
        : ['You are at the end.'];
  const repeats = read.value('repeats') === 1 ? 'repeat' : 'repeats';
  return [
    ...read.tell(`There are {live} live, for {repeats} ${repeats}.`, 'There are {live} live.'),
    `The edging: ${plan.text}.`,
    ...(told.length > 0 ? told : ['Every join takes one live stitch.']),
    ...more,
    ...here,
    ...read.tellRest(),
    ...plan.remarks,
    ...(plan.beforehand ?? []),
  ];
}

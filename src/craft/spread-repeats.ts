/*
 * Spreading changes over a round of repeats that are alike. Where the changes and the stitches share out evenly among
 * the repeats, they are spread within one of them, and every repeat is worked as that one: a motif is kept, its changes
 * stand where they stand in the next. The gaps still differ by at most one, the gap over the end of a repeat with them.
 * Any other round is spread as a whole.
 *
 * 27 repeats of 8 to 5 stitches: three decreases in 8 leave gaps of 1, 1 and 0, the 0 between two repeats:
 * (k2tog, k1, k2tog, k1, k2tog) 27 times.
 */

import type { Plan, PlanSpec, Problem } from '../formula/index.ts';
import { readCounts, refused } from './count.ts';
import { total } from './plan.ts';
import { groupsOf, inWords, KNITTED, spreadRound } from './spread.ts';
import { sts, times } from './words.ts';

/** "(k2tog, k1, k2tog) 27 times": one repeat, and how often; what comes twice in it is written twice. */
function repeatInWords(changes: number, over: number, repeats: number): string {
  const groups = groupsOf(changes, over, true);
  const worked = groups.flatMap((group) => {
    const once = inWords({ ...group, times: 1 }, KNITTED);
    return group.times > 2 ? [inWords(group, KNITTED)] : Array.from({ length: group.times }, () => once);
  });
  const line = worked.join(', ');
  return `${line.includes(' times') ? `[${line}]` : `(${line})`} ${times(repeats)}`;
}

/** A spread over a round, worked alike in every repeat where the repeats can share it and it is not alike already. */
function alike(plan: Plan, repeats: number): Plan {
  const [over, after] = [total(plan, 'start'), total(plan, 'stitches_after')];
  const changes = after - over;
  if (repeats < 2 || plan.steps.length < 2 || changes % repeats !== 0 || over % repeats !== 0) return plan;
  const says = repeatInWords(changes / repeats, over / repeats, repeats);
  const does = changes > 0 ? 'increase' : 'decrease';
  const text = `${says}; ${sts(after)} (${repeats} × ${over / repeats} = ${over} before)`;
  return { ...plan, steps: [{ stitches: [1, over], times: repeats, do: does, says, after }], text };
}

function work(
  changes: number | undefined,
  over: number | undefined,
  given: number | undefined,
): Plan | Problem {
  const read = readCounts({ repeats: [given, 1] });
  if (refused(read)) return read;
  const whole = spreadRound.work(changes, over);
  if (refused(whole)) return whole;
  return alike({ ...whole, kind: 'spread_repeats', args: { ...whole.args, ...read } }, read.repeats);
}

/** As with a spread over a round; what is left to do is alike in every repeat again where it can be. */
function resume(plan: Plan, row: number, count: number): Plan | Problem {
  const rest = spreadRound.resume(plan, row, count);
  return refused(rest) ? rest : alike(rest, plan.args['repeats'] ?? 1);
}

/** Changes spread evenly over a round, alike in every repeat. */
export const spreadRepeats: PlanSpec = {
  kind: 'plan',
  name: 'spread_repeats',
  help: 'increases (or, below 0, decreases) spread evenly over one round, alike in every repeat where that comes out',
  parameters: [
    ...spreadRound.parameters,
    { name: 'repeats', accepts: 'plain', help: 'how many repeats the round has' },
  ],
  gives: 'plan',
  examples: [
    {
      text: 'spread_repeats(-81, 216 st, 27)',
      gives: '(k2tog, k1, k2tog, k1, k2tog) 27 times; 135 sts (27 × 8 = 216 before)',
    },
    {
      text: 'spread_repeats(-54, 270 st, 27)',
      gives: '(k3, k2tog) 54 times; 216 sts (54 × 5 = 270 before)',
    },
  ],
  source: 'common practice',
  says: ([changes, over, repeats]) =>
    `${changes} spread evenly over a round of ${over}, alike in ${repeats} repeats`,
  work,
  resume,
};

// A percentage compared with something of another kind: the offer to write `* (1 + …)` is for sums only.
import { test } from 'vitest';
import { checkProblem } from './check-formula.ts';

test('a length compared with a percentage is not offered a sum', () => {
  checkProblem('chest <= share', 'length-with-number', 'chest <= share', { chest: '42 in', share: '10%' });
});

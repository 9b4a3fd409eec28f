// The sock notebook set to published socks: its printed steps give their rows and counts.
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import socks from '../data/socks.json';
import { openNotebook, TEST_DAY, withSets } from '../support/notebook.ts';

function printedSteps(year: number): string {
  const sock = socks.find(({ name }) => name.includes(`of ${year}`));
  if (!sock) throw new Error(`there is no sock of ${year}`);
  const texts = sock.sets as unknown as Readonly<Record<string, string>>;
  const notebook = withSets(openNotebook('fit-sock'), texts);
  const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
  const steps = session.steps().steps.filter(({ applies }) => applies);
  expect(steps.flatMap(({ problems }) => problems)).toEqual([]);
  return steps.map(({ number, text }) => `${number}. ${text}`).join('\n');
}

describe('the service sock of 1918', () => {
  // Source: Handbook of Wool Knitting and Crochet, Needlecraft Publishing Co., Augusta, 1918, Service Sock.
  const text = printedSteps(1918);

  test.each([
    ['cast on 68', /cast on 68 sts/],
    ['decrease 2 every 6th round 4 times, from 69 to 61', /decrease 2 sts every 6th rnd 4 times: 61 sts\./],
    ['heel of 31, 25 rows, first stitch slipped', /On the other 31 sts work 25 rows/],
    ['turn: sl1 k15 k2tog k1', /Row 1 \(RS\): sl1, k15, k2tog, k1, turn: 30 sts\./],
    ['sl1 p2 p2tog p1', /Row 2 \(WS\): sl1, p2, p2tog, p1, turn: 29 sts\./],
    ['sl1 k3 … on to p14, with 17 left', /Row 14 \(WS\): sl1, p14, p2tog.*, turn: 17 sts\./],
    ['then 16', /\(16 sts\)/],
    ['pick up 17 and 17, instep 30: 80', /16 sts \+ 2 × 17 sts \+ 30 sts = 80 sts/],
    ['gusset: 2 every 2nd round 10 times, to 60', /decrease 2 sts every 2nd rnd 10 times: 60 sts\./],
    [
      'toe: 4 decrease rounds with 2 plain between',
      /Rnd 1: decrease 4 sts: 56 sts\. Rnds 2–10: decrease 4 sts every 3rd rnd 3 times: 44 sts\./,
    ],
    ['3 with 1 plain', /decrease 4 sts every 2nd rnd 3 times: 32 sts\./],
    ['then every round until 8', /Rnds 17–22: decrease 4 sts every rnd 6 times: 8 sts\./],
  ])('%s', (_, printed) => {
    expect(text).toMatch(printed);
  });
});

describe('the knickerbocker stocking of 1896, No. 1', () => {
  // Source: H. P. Ryder, Cycling and Shooting Knickerbocker Stockings, Macmillan, 1896.
  const text = printedSteps(1896);

  test.each([
    ['cast on 78, 76 after re-arranging', /cast on 78 sts.*\n2\. Next rnd: .*76 sts/],
    ['heel of 28, 30 rows', /On the other 28 sts work 30 rows/],
    ['turn: sl1 k15 k2tog k1', /Row 1 \(RS\): sl1, k15, k2tog, k1, turn: 27 sts\./],
    ['sl1 p5 p2tog p1', /Row 2 \(WS\): sl1, p5, p2tog, p1, turn: 26 sts\./],
    ['sl1 k14 k2tog', /Row 11 \(RS\): sl1, k14, k2tog, turn: 17 sts\./],
    ['sl1 p14 p2tog, 16 left', /Row 12 \(WS\): sl1, p14, p2tog, turn: 16 sts\./],
    ['pick up 17 each side: 79', /16 sts \+ 2 × 17 sts \+ 29 sts = 79 sts/],
    ['4 decrease rounds in succession, to 71', /on each of the next 4 rnds \(71 sts\)/],
    ['then every other round 7 times, to 57', /decrease 2 sts every 2nd rnd 7 times: 57 sts\./],
    ['one decrease to 56', /\(56 sts\)/],
    [
      'toe: rounds 1, 5, 9, 13',
      /Rnd 1: decrease 4 sts: 52 sts\. Rnds 2–13: decrease 4 sts every 4th rnd 3 times: 40 sts\./,
    ],
    ['16, 19', /Rnds 14–19: decrease 4 sts every 3rd rnd 2 times: 32 sts\./],
    ['then every round until 8 + 8', /Rnds 20–23: decrease 4 sts every rnd 4 times: 16 sts\./],
  ])('%s', (_, printed) => {
    expect(text).toMatch(printed);
  });
});

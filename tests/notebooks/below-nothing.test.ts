// What is below nothing is never told: a gauge of 0 or below is refused in its row, and a step with a count below 0 holds back.
// Common practice: a gauge is counted, so that it is more than nothing.
import { describe, expect, test } from 'vitest';
import { allCells } from '../../src/notebook/index.ts';
import { createSession, type Session } from '../../src/session/index.ts';
import { notebookNames, openNotebook, type Sets, TEST_DAY, withSets } from '../support/notebook.ts';

const session = (name: string, sets: Sets): Session =>
  createSession({ notebook: withSets(openNotebook(name), sets), today: TEST_DAY, random: () => 0.5 });

/** Everything the steps tell that is to be knitted, in one text. */
const told = (of: Session): string =>
  of
    .steps()
    .steps.filter(({ applies, advice }) => applies && !advice)
    .flatMap(({ text, lines }) => [text, ...lines.map((line) => `${line.text} ${line.after}`)])
    .join('\n');

const GAUGE = /^[\d.]+( ± [\d.]+)? (st|row|rnd)s? \/ \d/;
const GAUGED = /^[\d.]+( ± [\d.]+)?/;
const COUNT_BELOW_NOTHING = /[−-]\d+ (sts?|rows?|rnds?)\b/;

const gauges = notebookNames.flatMap((name) =>
  allCells(openNotebook(name))
    .filter(({ text = '', each = {} }) => GAUGE.test(text) || GAUGE.test(Object.values(each)[0] ?? ''))
    .map((cell) => [name, cell.name, cell.text ?? Object.values(cell.each ?? {})[0] ?? ''] as const),
);

test('there are gauges to try', () => {
  expect(gauges.length).toBeGreaterThan(20);
});

describe('a gauge of nothing, or below, is refused in its row, and nothing is counted by it', () => {
  test.each(gauges)('%s: %s for %s', (name, cell, text) => {
    const none = text.replace(GAUGED, '0');
    for (const one of [`-${text}`, none]) {
      const tried = session(name, { [cell]: one });
      const id = tried.live.sheet.idOf(cell) ?? '';
      expect(tried.live.sheet.value(id, 0)).toMatchObject({ problem: { code: 'gauge-of-nothing' } });
      expect(told(tried)).not.toMatch(COUNT_BELOW_NOTHING);
      expect(told(tried)).not.toMatch(/cast on 0 sts/i);
    }
  });
});

test('a sweater at −20 sts to 10 cm is not counted out', () => {
  const tried = session('resize-sweater', { stitch_gauge: '-20 st / 10 cm' });
  const value = (name: string) => tried.live.sheet.value(tried.live.sheet.idOf(name) ?? '', 0).kind;
  expect(value('body_stitches')).toBe('waiting');
  expect(value('cast_on')).toBe('waiting');
  expect(told(tried)).toContain('Cast on …');
});

test('a length below nothing: the step that would tell its rows holds back', () => {
  const tried = session('resize-sweater', { sleeve_length: '-5 in' });
  const step = tried.steps().steps.find(({ id }) => id === 't5');
  // −5 in at 26 rows to 4 in are −32.5 rows: −32 with the tie to the larger.
  expect(step?.problems).toContain(
    '“sleeve rows” comes to −32 rnds, fewer than none: check what it comes from.',
  );
  expect(told(tried)).not.toMatch(COUNT_BELOW_NOTHING);
});

// How far off, what would fall otherwise, working back and trials side by side, as the page is told them.
import { beforeEach, describe, expect, test } from 'vitest';
import {
  type BackView,
  createSession,
  type Kept,
  type Place,
  type Questions,
  type Session,
  type UsualView,
} from '../../src/session/index.ts';
import { notebookFrom, notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';

/** A notebook of our own: a jumper in three sizes, whose gauge and chest are not sure. */
const FILE = `{ "ellwand": 1, "id": "n1", "title": "Sanderling jumper", "units": "in",
  "columns": {"heading": "size", "list": [{"id": "c1", "label": "S"}, {"id": "c2", "label": "M"}, {"id": "c3", "label": "L"}]},
  "chosen": {"follow": "size_to_follow"},
  "sections": [
    {"id": "s1", "title": "Gauge", "cells": [
      {"id": "k1", "name": "stitch_gauge", "text": "18 ± 0.5 st / 4 in"},
      {"id": "k2", "name": "chest", "text": "42 ± 1 in"},
      {"id": "k3", "name": "ease_wanted", "text": "2 in"},
      {"id": "k10", "name": "row_gauge", "text": "24 row / 4 in"},
      {"id": "k11", "name": "around", "text": "12 in"},
      {"id": "k4", "name": "pattern_stitches", "each": {"c1": "180 st", "c2": "200 st", "c3": "220 st"}}]},
    {"id": "s2", "title": "Size", "cells": [
      {"id": "k5", "name": "finished_chest", "text": "pattern_stitches / stitch_gauge"},
      {"id": "k6", "name": "size_to_follow", "text": "nearest(finished_chest, chest + ease_wanted)"},
      {"id": "k7", "name": "ease", "text": "finished_chest - chest"},
      {"id": "k8", "name": "cast_on", "text": "multiple((chest + ease_wanted) * stitch_gauge, 4)"},
      {"id": "k9", "name": "width", "text": "cast_on / stitch_gauge"},
      {"id": "k12", "name": "rows", "text": "whole(around * row_gauge)"},
      {"id": "k14", "name": "finished_chest_of_size", "text": "chosen(finished_chest)"},
      {"id": "k13", "name": "long_enough", "text": "finished_chest_of_size - chest <= 2.5 in", "says": {"yes": "it goes round", "no": "too narrow"}}]}],
  "steps": [{"id": "t1", "text": "Cast on {cast_on}."}] }`;

let kept: Kept | undefined;
const opened = (options: Partial<Parameters<typeof createSession>[0]> = {}): Session =>
  createSession({
    notebook: notebookFrom(FILE),
    today: TEST_DAY,
    random: () => 0.5,
    keep: (now) => {
      kept = now;
    },
    ...options,
  });
const at = (cell: string, column: string | null = null): Place => ({ cell, column });
const value = (session: Session, id: string) => session.row(id).values.map(({ text }) => text);

let session: Session;
let asked: Questions;
beforeEach(async () => {
  kept = undefined;
  session = opened();
  asked = await session.questions();
});

describe('how far off', () => {
  test('a bar for each uncertain value, in the unit looked at, the largest first', () => {
    const doubt = asked.doubt('k7', 'c2');
    // Source: arithmetic. 200 st at 17½ to 18½ to 4 in: 45.71 to 43.24 in, less 42: 1.24 to 3.71; 44.44 less 41 to 43: 1.44 to 3.44; to a sixteenth, outward.
    expect(doubt?.bars.map(({ name, tolerance, unit, text }) => [name, tolerance, unit, text])).toEqual([
      ['stitch gauge', '± ½', 'sts / 4 in', '1 3/16 to 3¾ in'],
      ['chest', '± 1', 'in', '1 7/16 to 3½ in'],
    ]);
    expect([doubt?.about, doubt?.value]).toEqual(['ease, M', '2½ in']);
    // √(1.2355² + 1²) = 1.59 in; at worst 0.24 to 4.71 in.
    expect(doubt?.sentence).toBe('Seldom are all off at once: usually it is no more than 1¾ in off.');
    expect(doubt?.all?.text).toBe('3/16 to 4¾ in');
  });

  test('the bars share one scale: the value lies in each, the worst case spans them all', () => {
    const doubt = asked.doubt('k7', 'c2');
    const [gauge, chest] = doubt?.bars ?? [];
    // 0.2432 to 4.7143 in; the gauge alone 1.2432 to 3.7143, the value 2.4444; the scale reaches 1.6 × 2.2699 each way.
    const share = (inches: number) => 0.5 + (inches - 2.4444) / (2 * 1.6 * 2.2699);
    expect((doubt?.reach ?? 0) / 2540).toBeCloseTo(1.6 * 2.2699, 3);
    expect([doubt?.all?.from, doubt?.all?.to]).toEqual([
      expect.closeTo(share(0.2432), 3),
      expect.closeTo(share(4.7143), 3),
    ]);
    expect([gauge?.from, gauge?.to]).toEqual([
      expect.closeTo(share(1.2432), 3),
      expect.closeTo(share(3.7143), 3),
    ]);
    for (const bar of [gauge, chest]) {
      expect(bar?.from).toBeLessThan(0.5);
      expect(bar?.to).toBeGreaterThan(0.5);
    }
    // The root of squares, 1.5895 in each way.
    expect(doubt?.all?.usualFrom).toBeCloseTo(share(2.4444 - 1.5895), 3);
    expect(doubt?.all?.usualTo).toBeCloseTo(share(2.4444 + 1.5895), 3);
    // A wider tolerance stretches its bar on the scale there was, as long as there is room.
    session.type(at('k1'), '18 ± 0.75 st / 4 in');
    const wider = asked.doubt('k7', 'c2', doubt?.reach);
    expect(wider?.reach).toBe(doubt?.reach);
    expect(wider?.bars[0]?.to).toBeGreaterThan((gauge?.to ?? 1) + 0.05);
    expect(wider?.bars[1]?.to).toBeCloseTo(chest?.to ?? 0, 9);
    session.type(at('k1'), '18 ± 4 st / 4 in');
    expect(asked.doubt('k7', 'c2', doubt?.reach)?.reach).toBeGreaterThan(doubt?.reach ?? 0);
  });

  test('what is decided is held: once cast on, a misread gauge changes the inches, not the stitches', () => {
    const count = asked.doubt('k8', null);
    expect(count?.bars.map(({ text, nothing }) => [text, nothing])).toEqual([
      ['nothing', true],
      ['nothing', true],
    ]);
    expect(count?.sentence).toBe('Nothing: once you go by 200 sts, they stay.');
    expect(asked.doubt('k9', null)?.bars.filter(({ nothing }) => !nothing)).toMatchObject([
      { name: 'stitch gauge', text: '43 3/16 to 45¾ in' },
    ]);
  });

  test('what nothing uncertain leads to is taken as exact, and what is usual stands right there', () => {
    const doubt = asked.doubt('k12', null);
    expect(doubt?.bars).toEqual([]);
    expect(doubt?.sentence).toBe(
      'The numbers it depends on are taken as exact: none has a ± typed. What is usual for them stands below.',
    );
    expect(doubt?.usual.map(({ name }) => name)).toContain('row gauge');
    // With a ± typed, the rows that were decided are held: then it is nothing.
    session.type(at('k10'), '24 ± 0.5 row / 4 in');
    expect(asked.doubt('k12', null)?.sentence).toBe('Nothing: once you go by 72 rows, they stay.');
  });

  test('a size or a finding that hangs on exact numbers says so too', () => {
    session.type(at('k1'), '18 st / 4 in');
    session.type(at('k2'), '42 in');
    for (const id of ['k6', 'k13', 'k8'])
      expect(asked.doubt(id, null)?.sentence, id).toMatch(/^The numbers it depends on are taken as exact/);
  });

  test('what a length lies between is told to the millimetre, also where the usual step is half a centimetre', async () => {
    session = opened({
      notebook: notebookFrom(`{ "ellwand": 1, "id": "n2", "title": "Mittens", "units": "cm",
        "sections": [{"id": "s1", "title": "Hand", "cells": [
          {"id": "k1", "name": "hand", "text": "20.3 ± 0.12 cm"},
          {"id": "k2", "name": "with_ease", "text": "hand + 1 cm"}]}] }`),
    });
    asked = await session.questions();
    // 21.18 to 21.42 cm.
    expect(asked.doubt('k2', null)?.sentence).toBe('It lies between 21.1 and 21.5 cm.');
    expect(asked.doubt('k1', null)?.moves.map(({ text }) => text)).toEqual(['21.1 to 21.5 cm']);
    // Shown in inches: 20.18 to 20.42 cm are 7.945 to 8.039 in.
    expect(session.setUnits('in').done).toBe(true);
    expect(asked.doubt('k1', null)?.sentence).toBe('It lies between 7 15/16 and 8 1/16 in.');
  });

  test('the measurement most worth repeating, and what half its doubt would do', () => {
    expect(asked.doubt('k5', 'c2')?.worth).toBe(
      'Worth counting again: stitch gauge over 8 in instead of 4. With half its doubt this is up to ¾ in off, not 1¼ in.',
    );
    expect(session.setUnits('cm').done).toBe(true);
    expect(asked.doubt('k5', 'c2')?.worth).toContain('stitch gauge over 8 in (20 cm) instead of 4.');
    expect(session.setUnits('in').done).toBe(true);
    session.type(at('k1'), '18 ± 0.01 st / 4 in');
    expect(asked.doubt('k5', 'c2')?.worth).toMatch(/^Known well enough/);
  });

  test('a wider tolerance makes a longer bar, and none makes none', () => {
    const width = () => {
      const [bar] = asked.doubt('k5', 'c2')?.bars ?? [];
      return bar?.text;
    };
    expect(width()).toBe('43 3/16 to 45¾ in');
    expect(session.nudgeTolerance(at('k1'), 2)).toEqual({ done: true });
    expect(session.text(at('k1'))).toBe('18 ± 1 st / 4 in');
    expect(width()).toBe('42 1/16 to 47 1/16 in');
    session.undo();
    expect(width()).toBe('43 3/16 to 45¾ in');
    session.nudgeTolerance(at('k1'), -5);
    expect(session.text(at('k1'))).toBe('18 st / 4 in');
    expect(asked.doubt('k5', 'c2')?.bars).toEqual([]);
  });

  test('a tolerance moved while a change is tried joins the trial', () => {
    session.nudge(at('k1'), 1);
    session.nudgeTolerance(at('k1'), 1);
    expect(session.text(at('k1'))).toBe('18½ ± ¾ st / 4 in');
    session.dropTrial();
    expect(session.text(at('k1'))).toBe('18 ± 0.5 st / 4 in');
  });

  test('what is usual where nothing is said follows the width counted, and one press puts it in', () => {
    const usual = () => asked.doubt('k10', null)?.usual ?? [];
    expect(usual().map(({ text, why, typed }) => [text, why, typed])).toEqual([
      ['± ½ rows / 4 in', 'half a row miscounted over 4 in: common practice', '24 ± ½ row / 4 in'],
      [
        '± 1 row / 4 in',
        'a whole row, where the swatch is not washed yet: common practice',
        '24 ± 1 row / 4 in',
      ],
    ]);
    session.type(at('k10'), '48 row / 8 in');
    const [miscounted] = usual();
    expect(miscounted?.why).toContain('over 8 in');
    expect(session.type(miscounted?.place ?? at(''), miscounted?.typed ?? '')).toEqual({ done: true });
    // Half a row over 8 in: ¼ row to 4 in.
    expect(session.live.sheet.tolerance('k10', 0) * 4 * 2540).toBeCloseTo(0.25, 9);
    expect(usual()).toEqual([]);
    session.undo();
    expect(session.text(at('k10'))).toBe('48 row / 8 in');
  });

  test('of a typed value: how far off it makes what it moves', () => {
    const doubt = asked.doubt('k1', null);
    expect(doubt?.sentence).toBe('It lies between 17½ and 18½ sts / 4 in.');
    expect(doubt?.moves.map(({ name, text }) => [name, text])).toContainEqual([
      'finished chest, M',
      '43 3/16 to 45¾ in',
    ]);
    expect(doubt?.own).toMatchObject({ tolerance: '± ½', unit: 'sts / 4 in' });
  });

  test('a cell that is gone has no doubt', () => {
    expect(asked.doubt('nowhere', null)).toBeUndefined();
  });
});

describe('before casting on', () => {
  const decisions = () => [...asked.decisions()].filter((one) => one !== undefined);

  test('the size first, then findings, then counts that steps print', () => {
    expect(decisions().map(({ name }) => name)).toEqual(['size to follow', 'long enough', 'cast on']);
  });

  test('says from where on it falls otherwise', () => {
    session.type(at('k2'), '42 in');
    const cast = decisions().find(({ cell }) => cell === 'k8');
    // 44 in × 18 ÷ 4 = 198 st, to a multiple of 4 exactly between: 200; just below 18 st 196, and from 202 ÷ 11 = 18.364 up 204.
    expect(cast?.sentence).toBe(
      '200 sts now; 196 sts from stitch gauge 17.99 sts / 4 in down, 204 sts from 18.37 sts / 4 in up; 192 to 204 sts in all.',
    );
  });

  // Source: arithmetic. 42 sts at 21 to 10 cm are 20 cm, exactly between 40 and 44; a tie goes to the larger.
  test.each([
    ['20 ± 0.5 cm', '44 sts now; 40 sts from hand 19.9 cm down.', '19.5 and 20.5 cm'],
    ['19.9 ± 0.5 cm', '40 sts now; 44 sts from hand 20 cm up.', '19.4 and 20.4 cm'],
    ['20.3 ± 0.4 cm', '44 sts now; 40 sts from hand 19.9 cm down.', '19.9 and 20.7 cm'],
    // Where a millimetre would be outside the doubt, a tenth of it.
    ['20.03 ± 0.06 cm', '44 sts now; 40 sts from hand 19.99 cm down.', '19.97 and 20.09 cm'],
    // 20 cm are 7.874 in.
    ['8 ± 0.25 in', '44 sts now; 40 sts from hand 7 13/16 in down.', '7¾ and 8¼ in'],
    ['7.75 ± 0.25 in', '40 sts now; 44 sts from hand 7⅞ in up.', '7½ and 8 in'],
  ])('%s: the limit told is one that gives the count when it is typed', async (hand, sentence, between) => {
    session = opened({
      notebook: notebookFrom(`{ "ellwand": 1, "id": "n2", "title": "Mittens", "units": "${hand.slice(-2)}",
        "sections": [{"id": "s1", "title": "Hand", "cells": [
          {"id": "k1", "name": "stitch_gauge", "text": "21 st / 10 cm"},
          {"id": "k2", "name": "hand", "text": "${hand}"},
          {"id": "k3", "name": "mitten_sts", "text": "multiple(hand * stitch_gauge, 4)"}]}] }`),
    });
    asked = await session.questions();
    expect(decisions().map((one) => one.sentence)).toEqual([sentence]);
    expect(asked.doubt('k2', null)?.sentence).toBe(`It lies between ${between}.`);
    const [, count, limit] = /; (\d+) sts from hand (.+ (?:in|cm))/.exec(sentence) ?? [];
    session.type(at('k2'), limit ?? '');
    expect(value(session, 'k3')).toEqual([count]);
  });

  test('is quiet where nothing is uncertain, and about what is on the needles', () => {
    session.tick('t1');
    expect(decisions().map(({ cell }) => cell)).not.toContain('k8');
    session.type(at('k1'), '18 st / 4 in');
    session.type(at('k2'), '42 in');
    expect(decisions()).toEqual([]);
  });
});

describe('working back', () => {
  /** The answer, when all of it is worked out. */
  function answer(...question: Parameters<Questions['workBack']>): BackView {
    const search = asked.workBack(...question);
    for (;;) {
      const { done, value: found } = search.next();
      if (done) return found;
    }
  }

  test('a long search stops often on its way', () => {
    const search = asked.workBack('k8', null, at('k3'), '206');
    let stops = 0;
    while (!search.next().done) stops += 1;
    expect(stops).toBeGreaterThan(3);
  });

  test('what may give way stands in the order of the page, gauges after what one chooses', () => {
    const start = asked.backStart('k9', null);
    expect(start).toMatchObject({ about: 'width', now: '44½ in', unit: 'in', choices: [] });
    expect(start?.giving.map(({ name, now }) => [name, now])).toEqual([
      ['chest', '42 in'],
      ['ease wanted', '2 in'],
      ['stitch gauge', '18 sts / 4 in'],
    ]);
    expect(asked.backStart('k1', null)).toBeUndefined();
    expect(asked.backStart('k6', null)?.choices).toEqual(['S', 'M', 'L']);
  });

  test('an answer, and one press makes it a trial', () => {
    const back = answer('k5', 'c2', at('k1'), '48');
    // Source: arithmetic. 200 st ÷ 48 in = 16⅔ st to 4 in.
    expect(back.kind).toBe('found');
    // No half or quarter comes to 48 in; a tenth does, as the page prints it: 200 st ÷ 16.7 × 4 = 47.9 in.
    expect(back.sentence).toBe('With stitch gauge 16.7 sts / 4 in, finished chest, M comes to 48 in.');
    const [offer] = back.offers;
    expect(offer && session.tryOffer(offer)).toEqual({ done: true });
    expect(value(session, 'k5')[1]).toBe('48');
    expect(session.page().trial?.cells.map(({ name }) => name)).toEqual(['stitch gauge']);
    session.dropTrial();
    expect(session.text(at('k1'))).toBe('18 ± 0.5 st / 4 in');
  });

  test('a number that one would swatch: a half or a quarter, where that comes to the same on the page', () => {
    const back = answer('k5', 'c2', at('k1'), '43 1/4');
    // Source: arithmetic. 200 st ÷ 43¼ in × 4 = 18.497; at 18½ it is 43.243 in, to the quarter the same.
    expect(back.sentence).toBe('With stitch gauge 18½ sts / 4 in, finished chest, M comes to 43¼ in.');
    expect(back.offers.map(({ text }) => text)).toEqual(['18½ ± ½ sts / 4 in']);
    for (const offer of back.offers) session.tryOffer(offer);
    expect(value(session, 'k5')[1]).toBe('43¼');
    session.dropTrial();
    // 44.444 − 2 = 42.444 in of chest; with 42½ it is 1.944, to the quarter 2.
    const length = answer('k7', 'c2', at('k2'), '2 in');
    expect(length.sentence).toBe('With chest 42½ in, ease, M comes to 2 in.');
    expect(length.offers.map(({ text }) => text)).toEqual(['42½ ± 1 in']);
  });

  test('the answer is in the units shown, and so is what is tried', () => {
    session.setUnits('cm');
    // Source: arithmetic. 80 rows are 79½ to 80½ ÷ 6 a inch = 13.25 to 13.4167 in = 33.655 to 34.078 cm.
    const back = answer('k12', null, at('k11'), '80');
    expect(back.sentence).toBe('Any around from 33.66 to 34.07 cm makes rows 80 rows.');
    expect(back.offers.map(({ label, text }) => [label, text])).toEqual([['around 34 cm', '34 cm']]);
    for (const offer of back.offers) session.tryOffer(offer);
    expect(value(session, 'k12')).toEqual(['80']);
  });

  test('a yes or no is told as one, and what does not move it as well', () => {
    const no = answer('k13', null, at('k2'), 'no');
    expect(no.sentence).toMatch(/^With any chest from .* to .* in, long enough: no\.$/);
    expect(answer('k13', null, at('k4', 'c1'), 'no').sentence).toBe(
      'Pattern stitches, S does not move it: anywhere between 0 and 720 sts, long enough: always yes.',
    );
    expect(answer('k13', null, at('k3'), 'yes').sentence).toMatch(/^It is so now; with any ease wanted/);
    expect(answer('k6', null, at('k2'), 'XL').sentence).toBe(
      'Size to follow cannot be XL with chest between 0 and 168 in.',
    );
  });

  test('the whole range where counts step', () => {
    const back = answer('k8', null, at('k3'), '208 sts');
    // 206 to 210 st, 45.78 to 46.67 in around, less 42: 3.78 to 4.67 in of ease; a tie goes to the larger.
    expect(back.kind).toBe('found');
    expect(back.sentence).toMatch(/^Any ease wanted from 3\.78 to 4\.66 in makes cast on 208 sts\.$/);
    expect(session.tryOffer(back.offers[0] ?? { label: '', gives: '', text: '', place: at('') }).done).toBe(
      true,
    );
    expect(value(session, 'k8')).toEqual(['208']);
  });

  test('between two steps, both neighbours with their ranges', () => {
    const back = answer('k8', null, at('k3'), '206');
    expect(back.kind).toBe('cannot');
    expect(back.sentence).toContain('Cast on cannot come to 206 sts');
    expect(back.sentence).toMatch(
      /204 sts with any ease wanted from .* in\. 208 sts with any ease wanted from/,
    );
    expect(back.offers.map(({ gives }) => gives)).toEqual(['cast on 204 sts', 'cast on 208 sts']);
  });

  test('“cannot be reached”, with what lies nearest', () => {
    const back = answer('k5', 'c2', at('k4', 'c2'), '5000 in');
    expect(back.kind).toBe('cannot');
    // 800 st at 4½ to the inch are 177.78 in.
    expect(back.sentence).toBe(
      'Cannot be reached: with pattern stitches, M between 0 and 800 sts, finished chest, M lies between 0 and 178 in.',
    );
    expect(back.offers.map(({ label, gives }) => [label, gives])).toEqual([
      ['pattern stitches, M 800 sts', 'finished chest, M 177¾ in'],
    ]);
  });

  test('a size: what makes it L', () => {
    const back = answer('k6', null, at('k2'), 'l');
    expect(back.kind).toBe('found');
    expect(session.tryOffer(back.offers[0] ?? { label: '', gives: '', text: '', place: at('') }).done).toBe(
      true,
    );
    expect(value(session, 'k6')).toEqual(['L']);
  });

  test('what cannot be read is told how to be said', () => {
    expect(answer('k5', 'c2', at('k1'), '')).toMatchObject({ kind: 'refused' });
    expect(answer('k5', 'c2', at('k1'), '12 sts').sentence).toBe(
      '“12 sts” is not what finished chest is: say it like 44½ in.',
    );
    expect(answer('k5', 'c2', at('k1'), 'chest + 2').kind).toBe('refused');
    expect(answer('k5', 'c2', at('gone'), '44').kind).toBe('refused');
  });
});

describe('side by side', () => {
  const aside = () => session.trialsAside();

  test('a trial put aside leaves the notebook as it was, and is taken up again', () => {
    session.nudge(at('k1'), -1);
    const put = session.putAside();
    expect(put).toMatchObject({ done: true, id: 't1' });
    expect(session.page().trial).toBeUndefined();
    expect(session.text(at('k1'))).toBe('18 ± 0.5 st / 4 in');
    expect(aside()).toEqual([
      { id: 't1', title: 'stitch gauge 17½ ± ½ st / 4 in', changes: 'stitch gauge 17½ ± ½ st / 4 in' },
    ]);
    expect(session.takeUp('t1')).toEqual({ done: true });
    expect(session.text(at('k1'))).toBe('17½ ± 0.5 st / 4 in');
    expect(aside()).toEqual([]);
    expect(session.takeUp('t1').done).toBe(false);
  });

  test('taking one up puts the other aside; a name of her own stays', () => {
    session.nudge(at('k1'), -1);
    session.putAside();
    session.nameAside('t1', '  loose  ');
    session.nudge(at('k2'), 4);
    session.putAside();
    session.nudge(at('k3'), 1);
    expect(session.takeUp('t1').done).toBe(true);
    expect(asked.besideChoices().find(({ key }) => key === 'trial')).toMatchObject({
      title: 'loose',
      changes: 'stitch gauge 17½ ± ½ st / 4 in',
    });
    expect(aside()).toMatchObject([{ title: 'chest 43 ± 1 in' }, { title: 'ease wanted 2¼ in' }]);
    session.putAside();
    expect(session.nameAside('t2', 'wider').done).toBe(true);
    expect(aside().find(({ id }) => id === 't2')).toMatchObject({
      title: 'wider',
      changes: 'chest 43 ± 1 in',
    });
    session.nameAside('t2', '');
    expect(aside().find(({ id }) => id === 't2')?.title).toBe('chest 43 ± 1 in');
  });

  test('their outcomes in columns, what differs marked, what is the same counted', () => {
    session.nudge(at('k1'), -2);
    session.putAside();
    session.nudge(at('k1'), 2);
    expect(asked.besideChoices().map(({ key }) => key)).toEqual([
      'now',
      'trial',
      'aside t1',
      'column c1',
      'column c2',
      'column c3',
    ]);
    const view = asked.beside(['now', 'trial', 'aside t1']);
    expect(view.columns.map(({ title }) => title)).toEqual([
      'as it stands',
      'stitch gauge 19 ± ½ st / 4 in',
      'stitch gauge 17 ± ½ st / 4 in',
    ]);
    const size = view.rows.find(({ id }) => id === 'k6');
    expect(size?.values).toEqual([
      { text: 'M', differs: false },
      { text: 'M', differs: false },
      { text: 'S', differs: true },
    ]);
    expect(view.rows.map(({ id }) => id)).not.toContain('k12');
    expect(view.same + view.rows.length).toBe(8);
    // Source: arithmetic. (42 + 2) in × 17, 18 and 19 st to 4 in: 187, 198 and 209, to multiples of 4.
    expect(view.rows.find(({ id }) => id === 'k8')?.values.map(({ text }) => text)).toEqual([
      '200 sts',
      '208 sts',
      '188 sts',
    ]);
  });

  test('two sizes side by side', () => {
    const view = asked.beside(['column c1', 'column c3']);
    expect(view.columns.map(({ title }) => title)).toEqual(['size S', 'size L']);
    expect(view.rows.find(({ id }) => id === 'k5')?.values.map(({ text }) => text)).toEqual([
      '40 in',
      '49 in',
    ]);
    expect(session.page().columns.map(({ chosen }) => chosen)).toEqual([false, true, false]);
  });

  test('survive being closed and opened again', async () => {
    session.nudge(at('k1'), -1);
    session.putAside();
    session.nameAside('t1', 'loose');
    const again = opened({ notebook: kept?.notebook ?? notebookFrom(FILE), aside: kept?.aside ?? [] });
    expect(again.trialsAside()).toEqual(session.trialsAside());
    const view = (await again.questions()).beside(['now', 'aside t1']);
    expect(view.columns[1]).toMatchObject({ title: 'loose', changes: 'stitch gauge 17½ ± ½ st / 4 in' });
    expect(view.rows.length).toBeGreaterThan(2);
  });

  test('a trial whose cells were deleted does nothing and says so', () => {
    session.nudge(at('k3'), 1);
    session.putAside();
    session.deleteCell('k8');
    session.deleteCell('k3');
    expect(aside()[0]?.title).toBe('nothing any more: its cells are gone');
    expect(session.takeUp('t1').done).toBe(false);
    expect(asked.beside(['now', 'aside t1']).rows).toEqual([]);
    expect(session.dropAside('t1')).toEqual({ done: true });
    expect(aside()).toEqual([]);
  });

  test('not more than twelve', () => {
    for (let i = 0; i < 12; i += 1) {
      session.nudge(at('k2'), 1 + i);
      expect(session.putAside().done).toBe(true);
    }
    session.nudge(at('k2'), 1);
    expect(session.putAside()).toMatchObject({ done: false });
    expect(session.page().trial).toBeDefined();
  });
});

test.each(notebookNames)(
  '%s: every cell can be asked how far off it is and what may give way',
  async (name) => {
    const prebuilt = createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });
    const questions = await prebuilt.questions();
    const usual = new Map<string, UsualView>();
    const ABSURD = /NaN|Infinity|undefined|null|\[object/;
    for (const id of prebuilt.live.sheet.cells) {
      const doubt = questions.doubt(id, null);
      expect(JSON.stringify(doubt).replaceAll('"column":null', ''), id).not.toMatch(ABSURD);
      expect(doubt?.sentence, id).toMatch(/\.$/);
      for (const bar of doubt?.bars ?? []) {
        expect(bar.from, id).toBeLessThanOrEqual(bar.to);
        expect(bar.from, id).toBeGreaterThanOrEqual(0);
        expect(bar.to, id).toBeLessThanOrEqual(1);
      }
      const start = questions.backStart(id, null);
      if (start) expect(JSON.stringify(start).replaceAll('"column":null', ''), id).not.toMatch(ABSURD);
      for (const one of doubt?.usual ?? []) usual.set(JSON.stringify([one.place, one.typed]), one);
    }
    const trial = createSession({ notebook: prebuilt.notebook, today: TEST_DAY, random: () => 0.5 });
    for (const { place, typed } of usual.values()) {
      expect(trial.type(place, typed), typed).toEqual({ done: true });
      const column = place.column === null ? 0 : trial.live.columns.indexOf(place.column);
      expect(trial.live.sheet.tolerance(place.cell, column), typed).toBeGreaterThan(0);
    }
  },
  60_000,
);

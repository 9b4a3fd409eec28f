// How finely lengths are told beside a verdict, so that it is seen to follow; and the steps of one system told in the
// other. Source: common practice; a tape has eighths and sixteenths of an inch, or millimetres.
import { describe, expect, test } from 'vitest';
import { createSession, type Session } from '../../src/session/index.ts';
import { openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

type Cells = Readonly<Record<string, string>>;

const COLUMNS = { heading: 'size', list: ['S', 'M'].map((label, i) => ({ id: `c${i + 1}`, label })) };

/** A sheet in inches or centimetres whose last cell is a verdict that tells what is off. */
function opened(units: 'in' | 'cm', cells: Cells, extra: Readonly<Record<string, object>> = {}): Session {
  const made = notebookOf(cells, { units, columns: COLUMNS, chosen: { column: 'c1' } });
  const sections = made.sections.map((section) => ({
    ...section,
    cells: section.cells.map(({ text = '', ...cell }) => {
      const more = extra[cell.name] ?? {};
      const values = text.split('|').map((one) => one.trim());
      return values.length > 1
        ? { ...cell, ...more, each: Object.fromEntries(values.map((one, i) => [`c${i + 1}`, one])) }
        : { ...cell, text, ...more };
    }),
  }));
  return createSession({ notebook: { ...made, sections }, today: TEST_DAY, random: () => 0.5 });
}

const idOf = (session: Session, name: string): string => session.live.sheet.idOf(name) ?? '';
const says = (session: Session, name: string): string =>
  session.row(idOf(session, name)).values[0]?.says ?? '';
const shown = (session: Session, name: string): string =>
  session.row(idOf(session, name)).values[0]?.text ?? '';

const OFF = { off: 'around - wanted', fits: 'abs(off) <= 1 in' };
const SAYS = { fits: { says: { yes: '{around}, {off} off', no: '{around}, {off} off: too much' } } };

describe('a verdict is told as finely as it takes to see it follow', () => {
  // By hand: 200 / 44.5 × 10 cm = 44.944 cm, 3.044 more than 41.9 cm, where 2.54 may be: 44.9 is 3 more, and 45 is not.
  test('in centimetres', () => {
    const far = { around: '200 st / (44.5 st / 10 cm)', wanted: '41.9 cm + 0 cm', ...OFF };
    expect(says(opened('cm', far, SAYS), 'fits')).toBe('44.9 cm, 3 cm off: too much');
    // 44.944 − 42.41 is 2.534, within 2.54; but 45 − 42.41 is not.
    const near = {
      around: '200 st / (44.5 st / 10 cm)',
      wanted: '42.41 cm',
      fits: 'around - wanted <= 1 in',
    };
    const told = { fits: { says: { yes: '{around} for {wanted}' } } };
    expect(says(opened('cm', near, told), 'fits')).toBe('44.9 cm for 42.41 cm');
  });

  // By hand: 41.08 in is 1.08 in more than 40; to a quarter both would be 41 and 1, and 1 in is allowed.
  test('in inches', () => {
    const cells = { around: '82.16 in / 2', wanted: '40 in', ...OFF };
    expect(says(opened('in', cells, SAYS), 'fits')).toBe('41⅛ in, 1⅛ in off: too much');
    const within = { around: '81.9 in / 2', wanted: '40 in', ...OFF };
    expect(says(opened('in', within, SAYS), 'fits')).toBe('41 in, 1 in off');
  });
});

// By hand: ½ st to 4 in is 0.492 st to 10 cm, ¼ in is 6.35 mm, and ½ row to 10 cm is 0.508 row to 4 in.
describe('how far off a number is goes no further than the number', () => {
  test.each([
    ['19 ± 0.5 st / 4 in', '20.5 st / 10 cm', '20.5 ± 0.5 st / 10 cm'],
    ['40 ± 0.25 in', '103 cm', '103 ± 0.6 cm'],
    ['19 ± 0.25 st / 4 in', '20 st / 4 in', '20 ± ¼ st / 4 in'],
    ['19 ± 0.42 st / 4 in', '20', '20 ± 0.42 sts / 4 in'],
  ])('%s, over which %s is typed', (before, typed, after) => {
    const session = opened('in', { gauge: before });
    session.type({ cell: idOf(session, 'gauge'), column: null }, typed);
    expect(session.text({ cell: idOf(session, 'gauge'), column: null })).toBe(after);
  });

  test('is printed so in the other system, and in its own as it was typed', () => {
    const about = (units: 'in' | 'cm', text: string) => {
      const session = opened(units, { gauge: text });
      return session.row(idOf(session, 'gauge')).values[0]?.tolerance;
    };
    expect(about('cm', '19 ± 0.5 st / 4 in')).toBe('± 0.5');
    expect(about('in', '27 ± 0.5 row / 10 cm')).toBe('± ½');
    expect(about('cm', '19 ± 0.25 st / 10 cm')).toBe('± 0.25');
    expect(about('cm', '5 ± 0.03 in')).toBe('± 0.08');
    expect(about('cm', '5 ± 1.05 cm')).toBe('± 1.05');
  });
});

describe('a miss', () => {
  const cells = (wanted: string) => ({
    chest: '109.27 cm | 121 cm',
    made: 'chest + 0 cm',
    best: `nearest(made, ${wanted})`,
  });

  test('is told to the millimetre beside what was wanted', () => {
    expect(says(opened('cm', cells('112 cm')), 'best')).toBe(
      'S is 109.3 cm, 2.7 cm less than the 112 cm wanted; M is 121 cm, 9 cm more',
    );
  });

  // 81 sts over 40 cm are 20.25 to 10 cm.
  test('is told as finely as what is compared is shown', () => {
    const gauges = {
      gauge: '81 st / 40 cm | 23 st / 10 cm',
      made: 'gauge * 1',
      best: 'nearest(made, 21 st / 10 cm)',
    };
    const shown = { made: { shown: 'st / 10 cm', step: '0.05 st / 10 cm' } };
    expect(says(opened('cm', gauges, shown), 'best')).toBe(
      'S is 20.25 sts / 10 cm, 0.75 sts / 10 cm less than the 21 sts / 10 cm wanted; M is 23 sts / 10 cm, 2 sts / 10 cm more',
    );
  });

  test('of whole months from an age that is none keeps its tenths', () => {
    const ages = { months: '6 | 9', age: '7.454 + 0', best: 'nearest(months, age)' };
    expect(says(opened('cm', ages, { age: { step: '0.1' } }), 'best')).toBe(
      'S is 6, 1.5 less than the 7.5 wanted; M is 9, 1.5 more',
    );
  });
});

describe('steps in the other system', () => {
  test.each([
    ['1/8 in', 'cm', 'half * 8.9 in', '11.3'],
    ['1/4 in', 'cm', 'half * 8.9 in', '11.5'],
    ['0.1 cm', 'in', 'half * 22.6 cm', '4 7/16'],
    ['0.5 cm', 'in', 'half * 22.6 cm', '4½'],
  ] as const)('%s in %s', (step, units, text, printed) => {
    expect(shown(opened(units, { half: '0.5', around: text }, { around: { step } }), 'around')).toBe(printed);
  });

  // 22 in is 55.88 cm, to half a centimetre 56; 18 st / 4 in is 17.7 to 10 cm; 10 cm is 3.94 in, to a quarter 4.
  test.each([
    ['in', '22 in to cm', '56 cm'],
    ['in', '18 st / 4 in to st / 10 cm', '17.7 sts / 10 cm'],
    ['cm', '10 cm to in', '4 in'],
    ['in', 'half * 44 in to cm', '56 cm'],
  ] as const)('in %s, %s is shown in the unit it asks for', (units, text, printed) => {
    const value = (session: Session) => session.row(idOf(session, 'around')).values[0];
    const session = opened(units, { half: '0.5', around: text });
    expect(`${value(session)?.text} ${value(session)?.unit}`).toBe(printed);
  });

  test('every prebuilt notebook prints its lengths in either with the figures of a tape', () => {
    for (const name of ['catch-floats', 'fit-sock', 'baby-set', 'raglan', 'shape-sleeve'])
      for (const units of ['in', 'cm'] as const) {
        const session = createSession({
          notebook: { ...openNotebook(name), units },
          today: TEST_DAY,
          random: () => 0.5,
        });
        const texts = session
          .page()
          .sections.flatMap(({ cells }) =>
            cells
              .filter((id) => !session.live.sheet.info(id).typed)
              .flatMap((id) =>
                session.row(id).values.flatMap(({ text, unit, says: said }) => [`${text} ${unit}`, said]),
              ),
          );
        expect(texts.filter((text) => /\d\.\d{3,} (in|cm)/.test(text))).toEqual([]);
      }
  });

  test('a needle stays in millimetres', () => {
    expect(shown(opened('in', { needle: '4 mm' }), 'needle')).toBe('4');
  });
});

describe('workings tell lengths finely enough to be followed by hand', () => {
  const lines = (session: Session, name: string) =>
    session.workings(idOf(session, name), 'c1').lines.map(({ label, text }) => `${label} ${text}`);

  // By hand: 14½ in is 36.83 cm, and 36.83 × 3 rows is 110.49, so 110; 37 × 3 would be 111.
  test('in centimetres', () => {
    const cells = {
      body_length: '14 1/2 in',
      row_gauge: '30 row / 10 cm',
      body_rows: 'whole(body_length * row_gauge)',
      length_you_get: 'body_rows / row_gauge',
      half: 'body_length / 2',
    };
    const session = opened('cm', cells);
    expect(lines(session, 'body_rows')[1]).toBe(
      'in numbers 36.83 cm × 30 rows / 10 cm, to the nearest whole',
    );
    // 110 ÷ 3 is 36.67, shown as 36.5; 18.415 is shown as 18.5.
    expect(lines(session, 'length_you_get').at(-1)).toBe('comes to 36.5 cm, rounded for show from 36.67');
    expect(lines(session, 'half')).toEqual([
      'in names body length ÷ 2',
      'in numbers 36.83 cm ÷ 2',
      'comes to 18.5 cm, rounded for show from 18.42',
    ]);
  });

  // 204 sts at 19 sts / 4 in are 42.947 in; 200 sts at 20 are 40 in and nothing is hidden.
  test('in inches, and only where the sheet hides something', () => {
    const cells = {
      stitches: '204 st | 200 st',
      gauge: '19 st / 4 in | 20 st / 4 in',
      around: 'stitches / gauge',
      more: 'around + 1/4 in',
    };
    const session = opened('in', cells);
    expect(lines(session, 'around').at(-1)).toBe('comes to 43 in, rounded for show from 42.95');
    expect(lines(session, 'more')[1]).toBe('in numbers 42.95 in + ¼ in');
    const at = (name: string) => session.workings(idOf(session, name), 'c2').lines.map(({ text }) => text);
    expect(at('around').at(-1)).toBe('40 in');
    expect(at('more')).toEqual(['around + ¼ in', '40 in + ¼ in', '40¼ in']);
  });
});

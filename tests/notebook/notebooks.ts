/** Random notebooks, hostile keys and letters included, and the page of the format that every layout test reads. */
import fc from 'fast-check';
import type { Cell, Column, Drawing, Notebook, Section, Step } from '../../src/notebook/index.ts';

/** The example of the format, to the letter. */
export const EXAMPLE = `{ "ellwand": 1, "id": "n7f3k2", "title": "Saltmarsh pullover", "about": "A round yoke, re-worked at my gauge.",
  "from": {"notebook": "resize-sweater", "version": 1}, "units": "in", "money": "€",
  "columns": {"heading": "size", "list": [{"id": "c1", "label": "S"}, {"id": "c2", "label": "M"}]},
  "chosen": {"follow": "size_to_follow"},
  "sections": [
    {"id": "s1", "title": "Gauge", "about": "Knit a square, wash it, then count.", "cells": [
      {"id": "k1", "name": "stitch_gauge", "text": "20 ± 0.5 st / 4 in", "note": "washed, dried flat"},
      {"id": "k2", "name": "pattern_body_stitches", "each": {"c1": "198 st", "c2": "220 st"}},
      {"id": "k3", "name": "finished_chest", "text": "pattern_body_stitches / stitch_gauge", "shown": "in", "step": "1/4 in"},
      {"id": "k4", "name": "size_to_follow", "text": "nearest(finished_chest, chest + ease_wanted)"},
      {"id": "k5", "name": "ease_is_right", "text": "abs(chosen(ease) - ease_wanted) <= 1 in", "says": {"yes": "{ease} of ease, as wanted", "no": "{ease} of ease, not {ease_wanted}"}} ]} ],
  "drawings": [{"id": "d1", "kind": "pullover", "binds": {"chest": "finished_chest", "body": "body_length"}}],
  "steps": [{"id": "t1", "text": "Cast on {cast_on}.", "when": "long_sleeve"}],
  "how": "How this is worked out, in plain words.", "sources": [{"for": "k9", "title": "…", "year": 1918, "seen": "read"}], "cautions": [{"for": "s4", "text": "…"}],
  "progress": {"ticked": {"t1": "Cast on 88 sts."}, "pinned": {"k7": {"": "88 st"}}, "rows": {"t4": 37}} }
`;

const words = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc.string({ unit: 'binary', maxLength: 6 }),
  fc.constantFrom(
    '20 st / 4 in',
    '',
    '<b>bold</b>',
    '\u2028',
    '\ud800',
    '"',
    '{ease}',
    'größe',
    '__proto__',
    '\n',
  ),
);
const name = fc.oneof(
  { weight: 4, arbitrary: fc.stringMatching(/^[a-z][a-z_]{0,5}$/) },
  fc.constantFrom(
    'constructor',
    'toString',
    'größe',
    'петли',
    'ตะเข็บ',
    'עין',
    'hasOwnProperty',
    'total',
    'Chest',
  ),
);

function nullRecord<V>(entries: readonly (readonly [string, V])[]): Record<string, V> {
  const made = Object.create(null) as Record<string, V>;
  for (const [key, value] of entries) made[key] = value;
  return made;
}

/** Unknown keys: never one of the format's own. */
const extra = fc
  .array(
    fc.tuple(
      fc.constantFrom('x_mood', '__proto__', 'constructor', 'zz', 'Σ', 'x'),
      fc.oneof(fc.integer(), fc.constant(null), fc.string({ maxLength: 4 }), fc.constant([1, [true]])),
    ),
    { minLength: 1, maxLength: 3 },
  )
  .map(nullRecord);

/** Groups of which some keys may be left out. */
const some = <T extends object>(fields: { [K in keyof T]-?: fc.Arbitrary<T[K]> }, required: (keyof T)[]) =>
  fc.record(fields, { requiredKeys: required as never }) as unknown as fc.Arbitrary<T>;

const says = some<NonNullable<Cell['says']>>(
  { yes: words, no: words, text: words, extra } as never,
  [],
).filter((one) => Object.keys(one).length > 0);

const cell = (columns: readonly string[]): fc.Arbitrary<Cell> =>
  fc
    .tuple(
      some<Cell>(
        {
          id: fc.constant(''),
          name,
          text: words,
          each: fc
            .array(fc.tuple(fc.constantFrom('', ...columns), words), { maxLength: 4 })
            .map((entries) => nullRecord(entries.filter(([id, text]) => id !== '' && text !== ''))),
          note: words,
          shown: words,
          step: words,
          range: fc.tuple(words, words),
          choices: fc.array(words, { maxLength: 3 }),
          says,
          extra,
        } as never,
        ['id', 'name', 'text'] as never,
      ),
    )
    .map(([made]) => oneText(made, columns));

/** Exactly one of text and each, and each in the order of the columns. */
function oneText(made: Cell, columns: readonly string[]): Cell {
  const { text, each, ...rest } = made;
  if (each === undefined) return { ...rest, text: text ?? '' };
  return {
    ...rest,
    each: nullRecord(columns.flatMap((id) => (id in each ? [[id, each[id] ?? ''] as const] : []))),
  };
}

const section = (columns: readonly string[]): fc.Arbitrary<Section> =>
  some<Section>(
    {
      id: fc.constant(''),
      title: words,
      about: words,
      cells: fc.array(cell(columns), { maxLength: 5 }),
      extra,
    } as never,
    ['id', 'title', 'cells'],
  );

const columnRun = fc.uniqueArray(fc.constantFrom('S', 'M', 'L', '4 mm', 'Größe', '2XL'), { maxLength: 4 });

/** A notebook that keeps every rule of the format. */
export const notebook: fc.Arbitrary<Notebook> = columnRun.chain((labels) => {
  const list: Column[] = labels.map((label, i) => ({ id: `c${i + 1}`, label }));
  const ids = list.map(({ id }) => id);
  const body = some<Notebook>(
    {
      ellwand: fc.constant(1),
      id: fc.constantFrom('n1', 'nabc', 'n-_9'),
      title: words,
      about: words,
      from: fc.record({ notebook: fc.constantFrom('resize-sweater', 'socks'), version: fc.nat(9) }),
      units: fc.constantFrom('in', 'cm'),
      money: fc.constantFrom('€', '£', 'kr'),
      today: fc.constantFrom('2026-12-24', '2024-02-29'),
      chosen: fc.oneof(
        name.map((follow) => ({ follow })),
        ids.length > 0
          ? fc.constantFrom(...ids).map((column) => ({ column }))
          : name.map((follow) => ({ follow })),
      ),
      sections: fc.array(section(ids), { maxLength: 4 }),
      drawings: fc.array(
        some<Drawing>(
          {
            id: fc.constant(''),
            kind: words,
            title: words,
            binds: fc.array(fc.tuple(name, name), { maxLength: 3 }).map(nullRecord),
            extra,
          } as never,
          ['id', 'kind', 'binds'],
        ),
        { maxLength: 3 },
      ),
      steps: fc.array(
        some<Step>({ id: fc.constant(''), text: words, when: name, extra } as never, ['id', 'text']),
        {
          maxLength: 3,
        },
      ),
      how: words,
      sources: fc.array(fc.record({ title: words, year: fc.integer({ min: 1800, max: 2030 }) }), {
        maxLength: 2,
      }),
      cautions: fc.array(fc.record({ for: fc.constant('s1'), text: words }), { maxLength: 2 }),
      progress: fc.record(
        {
          ticked: fc.constant(nullRecord([['t1', 'Cast on 88 sts.']])),
          pinned: fc.constant(nullRecord([['k1', nullRecord([['', '88 st']])]])),
          rows: fc.constant(nullRecord([['t1', 37]])),
          of: fc.constantFrom('c1', 'gone'),
          others: fc.constant(
            nullRecord([
              ['c2', { ticked: nullRecord([['t2', 'Rib.']]), pinned: nullRecord([]), rows: nullRecord([]) }],
            ]),
          ),
        },
        { requiredKeys: ['ticked', 'pinned', 'rows'] },
      ),
      extra,
    } as never,
    ['ellwand', 'id', 'title', 'units', 'sections', 'drawings', 'steps', 'sources', 'cautions'],
  );
  return body.map((made) => unique(list.length > 0 ? { ...made, columns: { heading: 'size', list } } : made));
});

/** The same with ids counted through and no name twice. */
function unique(made: Notebook): Notebook {
  const taken = new Set<string>();
  let number = 0;
  const named = (one: Cell): Cell => {
    number++;
    const wanted = one.name.toLowerCase();
    const name = taken.has(wanted) ? `${one.name}_${number}x` : one.name;
    taken.add(name.toLowerCase());
    return { ...one, id: `k${number}`, name };
  };
  return {
    ...made,
    sections: made.sections.map((one, i) => ({ ...one, id: `s${i + 1}`, cells: one.cells.map(named) })),
    drawings: made.drawings.map((one, i) => ({ ...one, id: `d${i + 1}` })),
    steps: made.steps.map((one, i) => ({ ...one, id: `t${i + 1}` })),
  };
}

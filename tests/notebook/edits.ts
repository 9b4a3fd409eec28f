/** Random changes that fit the notebook they are made for, one maker for each kind, and now and then one that does not. */
import fc from 'fast-check';
import { allCells, type Cell, type Change, changeKinds, type Notebook } from '../../src/notebook/index.ts';

/** What a maker draws from: numbers, words and names. */
export interface Draw {
  readonly kind: number;
  readonly a: number;
  readonly b: number;
  readonly word: string;
  readonly name: string;
}

/** A random draw; `changeFrom` turns it into a change of the notebook at hand. */
export const draw: fc.Arbitrary<Draw> = fc.record({
  kind: fc.nat(999),
  a: fc.nat(60),
  b: fc.nat(60),
  word: fc.oneof(fc.string({ maxLength: 8 }), fc.constantFrom('18 st / 4 in', '', '<i>', 'chest + ease')),
  name: fc.oneof(
    fc.stringMatching(/^[a-z][a-z0-9_]{0,4}$/),
    fc.constantFrom('constructor', 'Chest', 'петля'),
  ),
});

const pick = <T>(list: readonly T[], index: number): T | undefined => list[index % Math.max(1, list.length)];

/** New ids never meet those of the random notebooks, nor one another often. */
const fresh = (letter: string, { a, b, kind }: Draw): string => `${letter}x${a}_${b}_${kind}`;

/** What every maker is given: the notebook, the draw, and things drawn from the notebook ("gone" where there are none). */
interface Scene {
  readonly old: Notebook;
  readonly drawn: Draw;
  readonly cell: string;
  readonly section: string;
  readonly column: string;
  readonly list: 'steps' | 'drawings';
  readonly id: string;
}

type Makers = { readonly [K in Change['kind']]: (scene: Scene) => Change };

const newCell = ({ drawn, column }: Scene): Cell => {
  const cell = { id: fresh('k', drawn), name: drawn.name };
  return drawn.a % 2 === 0
    ? { ...cell, text: drawn.word }
    : { ...cell, each: { [column]: drawn.word || '1' }, note: 'new' };
};

const makers: Makers = {
  set_text: ({ cell, column, drawn: { a, word } }) => {
    if (a % 3 === 0) return { kind: 'set_text', cell, text: word };
    if (a % 3 === 1) return { kind: 'set_text', cell, column, text: word };
    return { kind: 'set_text', cell, each: { [column]: word || '2 st' } };
  },
  set_cell: ({ cell, drawn: { a, word } }) => {
    const fields = [
      { note: word },
      { note: null },
      { shown: 'in', step: '1/4 in' },
      { says: { yes: word, no: 'no' } },
      { says: null, choices: ['S', word] },
      { range: ['0 in', word] as const },
      { range: null, choices: null },
    ];
    return { kind: 'set_cell', cell, fields: pick(fields, a) ?? {} };
  },
  rename_cell: ({ old, cell, drawn: { name, word, b } }) => {
    const other = pick(allCells(old), b)?.id ?? 'gone';
    const step = pick(old.steps, b)?.id ?? 'gone';
    const drawing = pick(old.drawings, b)?.id ?? 'gone';
    const rewrites = {
      cells: { [other]: { text: `${name} * 2`, says: { text: word } }, gone: { text: '1' } },
      steps: { [step]: { text: word, when: name } },
      drawings: { [drawing]: { chest: name } },
      follow: name,
    };
    return b % 2 === 0 ? { kind: 'rename_cell', cell, name } : { kind: 'rename_cell', cell, name, rewrites };
  },
  add_cell: (scene) => ({
    kind: 'add_cell',
    section: scene.section,
    at: scene.drawn.b % 8,
    cell: newCell(scene),
  }),
  delete_cell: ({ cell }) => ({ kind: 'delete_cell', cell }),
  move_cell: ({ cell, section, drawn: { b } }) => ({ kind: 'move_cell', cell, section, at: b % 8 }),
  duplicate_cell: ({ cell, drawn }) => ({
    kind: 'duplicate_cell',
    cell,
    id: fresh('k', drawn),
    name: drawn.name,
  }),
  add_section: (scene) => {
    const cells = scene.drawn.a % 2 === 0 ? [newCell(scene)] : [];
    const section = { id: fresh('s', scene.drawn), title: scene.drawn.word, cells };
    return { kind: 'add_section', at: scene.drawn.b % 5, section };
  },
  delete_section: ({ section }) => ({ kind: 'delete_section', section }),
  move_section: ({ section, drawn: { b } }) => ({ kind: 'move_section', section, at: b % 5 }),
  set_section: ({ section, drawn: { a, word } }) => ({
    kind: 'set_section',
    section,
    fields: a % 2 === 0 ? { title: word } : { about: a % 3 === 0 ? null : word },
  }),
  add_column: ({ old, drawn }) => ({
    kind: 'add_column',
    at: drawn.b % 5,
    column: { id: fresh('c', drawn), label: drawn.name.slice(0, 24) },
    values: { [pick(allCells(old), drawn.a)?.id ?? 'gone']: drawn.word },
    heading: 'size',
  }),
  rename_column: ({ old, column, drawn: { a, name, word } }) => ({
    kind: 'rename_column',
    column,
    label: name,
    rewrites: {
      cells: { [pick(allCells(old), a)?.id ?? 'gone']: { text: `at(x, "${word}")`, choices: [name] } },
    },
  }),
  move_column: ({ column, drawn: { b } }) => ({ kind: 'move_column', column, at: b % 5 }),
  delete_column: ({ column }) => ({ kind: 'delete_column', column }),
  set_chosen: ({ column, drawn: { a, name } }) => {
    const chosen = pick([null, { column }, { follow: name }], a) ?? null;
    return { kind: 'set_chosen', chosen };
  },
  set_notebook: ({ drawn: { a, word } }) => {
    const fields = [
      { title: word },
      { about: word, how: null },
      { units: 'cm' as const, money: '€' },
      { today: '2026-12-24', about: null },
      { today: null, money: null },
      { heading: word },
      { sources: [{ title: word, year: 1918 }], cautions: [{ text: word }] },
    ];
    return { kind: 'set_notebook', fields: pick(fields, a) ?? {} };
  },
  add_item: ({ list, drawn }) => {
    const at = drawn.b % 4;
    const id = fresh(list === 'steps' ? 't' : 'd', drawn);
    if (list === 'steps') return { kind: 'add_item', list, at, item: { id, text: drawn.word } };
    return { kind: 'add_item', list, at, item: { id, kind: 'sock', binds: { foot: drawn.name } } };
  },
  delete_item: ({ list, id }) => ({ kind: 'delete_item', list, id }),
  move_item: ({ list, id, drawn: { b } }) => ({ kind: 'move_item', list, id, at: b % 4 }),
  set_item: ({ list, id, drawn: { word, name } }) =>
    list === 'steps'
      ? { kind: 'set_item', list, item: { id, text: word, when: name } }
      : { kind: 'set_item', list, item: { id, kind: 'yoke', title: word, binds: {} } },
  set_progress: ({ drawn: { a, b, word }, cell, column }) => {
    const entry = <V>(id: string, value: V) => ({ [id]: a % 3 === 0 ? null : value });
    const of = pick([{}, { column }, { column, names: true }, { column, names: false }], a) ?? {};
    if (b % 3 === 0) return { kind: 'set_progress', ticked: entry('t1', word), ...of };
    if (b % 3 === 1)
      return { kind: 'set_progress', pinned: entry(cell, { '': '88 st', [column]: word }), ...of };
    return { kind: 'set_progress', rows: entry('t2', b), ticked: entry('t2', word), ...of };
  },
  replace_notebook: ({ old, drawn: { word } }) => ({
    kind: 'replace_notebook',
    why: 'edit the file',
    notebook: { ...old, id: 'other', title: word, sections: old.sections.slice(1) },
  }),
  together: (scene) => ({
    kind: 'together',
    title: 'paste',
    changes: [
      makers.set_notebook(scene),
      makers.set_text({ ...scene, drawn: { ...scene.drawn, a: 0 } }),
      makers.add_cell(scene),
    ],
  }),
};

/** The change that a draw makes of a notebook. */
export function changeFrom(old: Notebook, drawn: Draw): Change {
  const kinds = changeKinds();
  const kind = (pick(kinds, drawn.kind) ?? 'set_text') as Change['kind'];
  const list = drawn.a % 2 === 0 ? 'steps' : 'drawings';
  return makers[kind]({
    old,
    drawn,
    list,
    cell: pick(allCells(old), drawn.a)?.id ?? 'gone',
    section: pick(old.sections, drawn.b)?.id ?? 'gone',
    column: pick(old.columns?.list ?? [], drawn.b)?.id ?? 'gone',
    id: pick<{ readonly id: string }>(old[list], drawn.b)?.id ?? 'gone',
  });
}

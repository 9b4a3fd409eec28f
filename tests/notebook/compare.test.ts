import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  allCells,
  applyChange,
  type Change,
  changesBetween,
  compareNotebooks,
  type Difference,
  isRefused,
  type Notebook,
  readNotebook,
  take,
  writeNotebook,
} from '../../src/notebook/index.ts';
import { changeFrom, draw } from './edits.ts';
import { EXAMPLE, notebook } from './notebooks.ts';
import { patience, runs } from './runs.ts';

vi.setConfig({ testTimeout: patience });

function example(): Notebook {
  const read = readNotebook(EXAMPLE);
  if (isRefused(read)) throw new Error('the example must read');
  return read.notebook;
}

function edited(start: Notebook, ...changes: readonly Change[]): Notebook {
  return changes.reduce((now, change) => {
    const next = applyChange(now, change);
    if (isRefused(next)) throw new Error(JSON.stringify(next));
    return next;
  }, start);
}

/** A difference in one word or two: "cell_changed stitch_gauge text". */
function told(difference: Difference): string {
  if (difference.kind === 'cell_changed')
    return `cell_changed ${difference.old.name} ${difference.fields.join('+')}`;
  if (difference.kind === 'notebook_changed') return `notebook_changed ${difference.field}`;
  if ('cell' in difference) return `${difference.kind} ${difference.cell.name}`;
  if ('item' in difference) return `${difference.kind} ${difference.item.id}`;
  if ('section' in difference) return `${difference.kind} ${difference.section.title}`;
  if ('column' in difference) return `${difference.kind} ${difference.column.label}`;
  return `${difference.kind} ${difference.old.id}`;
}

const checkDifferences = (changes: readonly Change[], expected: readonly string[]): void => {
  const old = example();
  expect(compareNotebooks(old, edited(old, ...changes)).map(told)).toEqual(expected);
};

/** What is compared: all but the id, the origin and the progress. */
function compared(notebook: Notebook): string {
  const { progress: _progress, from: _from, ...rest } = notebook;
  return writeNotebook({ ...rest, id: 'n1' });
}

describe('comparing', () => {
  test('the same notebook: nothing', () => checkDifferences([], []));
  test('ticks and counts are not compared', () =>
    checkDifferences([{ kind: 'set_progress', ticked: { t1: null }, rows: { t1: 4 } }], []));
  test('one text', () =>
    checkDifferences(
      [{ kind: 'set_text', cell: 'k1', text: '18 st / 4 in' }],
      ['cell_changed stitch_gauge text'],
    ));
  test('a rename and a note', () =>
    checkDifferences(
      [
        { kind: 'rename_cell', cell: 'k3', name: 'chest_around' },
        { kind: 'set_cell', cell: 'k3', fields: { note: 'new', step: null } },
      ],
      ['cell_changed finished_chest name+note+step'],
    ));
  test('one cell moved to the end is one cell moved', () =>
    checkDifferences([{ kind: 'move_cell', cell: 'k1', section: 's1', at: 9 }], ['cell_moved stitch_gauge']));
  test('a cell that goes to a new section', () =>
    checkDifferences(
      [
        {
          kind: 'add_section',
          at: 0,
          section: { id: 's2', title: 'Yoke', cells: [{ id: 'k8', name: 'head', text: '' }] },
        },
        { kind: 'move_cell', cell: 'k2', section: 's2', at: 0 },
      ],
      ['section_added Yoke', 'cell_moved pattern_body_stitches', 'cell_added head'],
    ));
  test('a new column does not make every cell with texts by column differ', () =>
    checkDifferences(
      [{ kind: 'add_column', at: 1, column: { id: 'c3', label: 'ML' }, values: { k2: '210 st' } }],
      ['column_added ML'],
    ));
  test('steps, drawings, title and choice', () =>
    checkDifferences(
      [
        { kind: 'set_notebook', fields: { title: 'Saltmarsh cardigan', about: null } },
        { kind: 'add_item', list: 'steps', at: 0, item: { id: 't2', text: 'Swatch first.' } },
        { kind: 'delete_item', list: 'drawings', id: 'd1' },
        { kind: 'set_chosen', chosen: { column: 'c2' } },
      ],
      [
        'notebook_changed title',
        'notebook_changed about',
        'item_removed d1',
        'item_added t2',
        'notebook_changed chosen',
      ],
    ));
});

describe('taking', () => {
  test('every difference, in order, gives the other notebook', () => {
    fc.assert(
      fc.property(notebook, fc.array(draw, { maxLength: 10 }), (old, draws) => {
        const now = draws.reduce((made, drawn) => {
          const next = applyChange(made, changeFrom(made, drawn));
          return isRefused(next) ? made : next;
        }, old);
        expect(compared(edited(old, ...changesBetween(old, now)))).toBe(compared(now));
      }),
      runs(300, 5000),
    );
  });

  test('between two notebooks that have nothing to do with each other, too', () => {
    fc.assert(
      fc.property(notebook, notebook, (old, now) => {
        expect(compared(edited(old, ...changesBetween(old, now)))).toBe(compared(now));
      }),
      runs(100, 2000),
    );
  });

  test('one difference takes that and nothing else', () => {
    const old = example();
    const now = edited(
      old,
      { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' },
      { kind: 'set_cell', cell: 'k1', fields: { note: 'dry' } },
      { kind: 'add_cell', section: 's1', at: 2, cell: { id: 'k9', name: 'ease', text: '2 in' } },
    );
    const [changed, added] = compareNotebooks(old, now);
    if (changed === undefined || added === undefined) throw new Error('two differences expected');
    expect(compareNotebooks(old, edited(old, take(old, now, added))).map(told)).toEqual(['cell_added ease']);
    const half = edited(old, take(old, now, changed, ['text']));
    expect(compareNotebooks(old, half).map(told)).toEqual(['cell_changed stitch_gauge text']);
    expect(allCells(edited(old, take(old, now, added))).map(({ id }) => id)).toEqual([
      'k1',
      'k2',
      'k9',
      'k3',
      'k4',
      'k5',
    ]);
  });

  test('few differences are few changes, not the whole notebook', () => {
    const old = example();
    const now = edited(
      old,
      { kind: 'delete_cell', cell: 'k4' },
      { kind: 'rename_cell', cell: 'k3', name: 'size_to_follow' },
      { kind: 'move_cell', cell: 'k5', section: 's1', at: 0 },
    );
    expect(changesBetween(old, now).map(({ kind }) => kind)).toEqual([
      'delete_cell',
      'rename_cell',
      'move_cell',
    ]);
  });
});

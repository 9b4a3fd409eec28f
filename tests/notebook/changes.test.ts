import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  applyChange,
  type Change,
  changeFromJSON,
  changeKinds,
  changeTitle,
  changeToJSON,
  emptyHistory,
  type History,
  historyFromJSON,
  historyToJSON,
  invertChange,
  isRefused,
  type Notebook,
  perform,
  readNotebook,
  redo,
  undo,
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

function applied(old: Notebook, change: Change): Notebook {
  const result = applyChange(old, change);
  if (isRefused(result)) throw new Error(JSON.stringify(result));
  return result;
}

/** The code a change is refused with. */
function refusal(change: Change, old = example()): string {
  const result = applyChange(old, change);
  return isRefused(result) ? result.refused.code : 'applied';
}

describe('a change', () => {
  test('of any kind, taken back, leaves the notebook as it was, to the byte; and keeps every rule of the file', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(notebook, fc.array(draw, { minLength: 1, maxLength: 8 }), (start, draws) => {
        let now = start;
        for (const drawn of draws) {
          const change = changeFrom(now, drawn);
          const next = applyChange(now, change);
          if (isRefused(next)) continue;
          seen.add(change.kind);
          const text = writeNotebook(next);
          const back = applied(next, invertChange(now, change));
          expect(back).toEqual(now);
          expect(writeNotebook(back)).toBe(writeNotebook(now));
          const read = readNotebook(text);
          expect(read).toEqual({ notebook: next, remarks: [], readOnly: false, migrated: [] });
          now = next;
        }
      }),
      runs(200, 3000),
    );
    expect([...seen].sort()).toEqual([...changeKinds()].sort());
  });

  test('kept as JSON text and read back does the same', () => {
    fc.assert(
      fc.property(notebook, draw, (old, drawn) => {
        const change = changeFrom(old, drawn);
        const text = JSON.stringify(changeToJSON(change));
        const kept = changeFromJSON(JSON.parse(text));
        expect(kept).toBeDefined();
        if (kept === undefined) return;
        expect(changeToJSON(changeFromJSON(changeToJSON(kept)) as Change)).toEqual(changeToJSON(kept));
        expect(applyChange(old, kept)).toEqual(applyChange(old, change));
      }),
      runs(200, 3000),
    );
  });

  test('leaves what it was given untouched', () => {
    fc.assert(
      fc.property(notebook, draw, (old, drawn) => {
        const before = writeNotebook(old);
        applyChange(old, changeFrom(old, drawn));
        expect(writeNotebook(old)).toBe(before);
      }),
      runs(60, 500),
    );
  });
});

describe('history', () => {
  test('any sequence undone equals the start, redone equals the end, through being kept and read back', () => {
    fc.assert(
      fc.property(notebook, fc.array(draw, { maxLength: 12 }), fc.boolean(), (start, draws, kept) => {
        let now = start;
        let history: History = emptyHistory;
        for (const drawn of draws) {
          const step = perform(now, history, changeFrom(now, drawn));
          if (!isRefused(step)) ({ notebook: now, history } = step);
        }
        const end = now;
        const stored = (): void => {
          if (kept) history = historyFromJSON(JSON.parse(JSON.stringify(historyToJSON(history))));
        };
        for (const go of [undo, redo, undo, redo]) {
          stored();
          for (let step = go(now, history); !isRefused(step); step = go(now, history)) {
            ({ notebook: now, history } = step);
          }
          expect(writeNotebook(now)).toBe(writeNotebook(go === undo ? start : end));
          expect(now).toEqual(go === undo ? start : end);
        }
      }),
      runs(200, 3000),
    );
  });

  test('a new change forgets what had been undone', () => {
    const change: Change = { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' };
    const done = perform(example(), emptyHistory, change);
    if (isRefused(done)) throw new Error('must apply');
    const undone = undo(done.notebook, done.history);
    if (isRefused(undone)) throw new Error('must undo');
    expect(undone.history).toMatchObject({ done: [], undone: [{ title: 'change stitch gauge' }] });
    const again = perform(undone.notebook, undone.history, { ...change, text: '19 st / 4 in' });
    if (isRefused(again)) throw new Error('must apply');
    expect(again.history).toMatchObject({ done: [{ title: 'change stitch gauge' }], undone: [] });
    expect(redo(again.notebook, again.history)).toEqual({ refused: { code: 'nothing_to_redo', parts: {} } });
  });

  test('the nudges of one cell are one entry', () => {
    let now = example();
    let history: History = emptyHistory;
    for (const stitches of [19, 18, 17]) {
      const step = perform(
        now,
        history,
        { kind: 'set_text', cell: 'k1', text: `${stitches} st / 4 in` },
        'nudge k1',
      );
      if (!isRefused(step)) ({ notebook: now, history } = step);
    }
    expect(history.done).toHaveLength(1);
    const back = undo(now, history);
    expect(isRefused(back) ? back : back.notebook).toEqual(example());
  });

  test('is limited in entries and in size, the oldest going first', () => {
    let now = example();
    let history: History = emptyHistory;
    for (let number = 0; number < 400; number++) {
      const step = perform(now, history, { kind: 'set_notebook', fields: { title: `number ${number}` } });
      if (!isRefused(step)) ({ notebook: now, history } = step);
    }
    expect(history.done).toHaveLength(300);
    expect(history.done[0]?.title).toBe('call the notebook number 100');
    for (let number = 0; number < 30; number++) {
      const step = perform(now, history, {
        kind: 'set_notebook',
        fields: { how: String(number).repeat(45_000) },
      });
      if (!isRefused(step)) ({ notebook: now, history } = step);
    }
    expect(JSON.stringify(historyToJSON(history)).length).toBeLessThan(2_100_000);
  });

  test('undo after another tab took the cell away is refused, and the entry can be dropped', () => {
    const step = perform(example(), emptyHistory, { kind: 'set_text', cell: 'k1', text: '1 st / 4 in' });
    if (isRefused(step)) throw new Error('must apply');
    const without = applied(step.notebook, { kind: 'delete_cell', cell: 'k1' });
    expect(undo(without, step.history)).toEqual({ refused: { code: 'no_such_cell', parts: {} } });
  });
});

describe('what is refused', () => {
  const cell = { id: 'k77', name: 'cuff', text: '' };
  const long = 'x'.repeat(5000);
  const cases: readonly [string, Change][] = [
    ['no_such_cell', { kind: 'set_text', cell: 'k99', text: '' }],
    ['formula_too_long', { kind: 'set_text', cell: 'k1', text: long }],
    ['not_by_column', { kind: 'set_text', cell: 'k1', column: 'c1', text: '1' }],
    ['no_such_column', { kind: 'set_text', cell: 'k2', column: 'c9', text: '1' }],
    ['name_taken', { kind: 'rename_cell', cell: 'k1', name: 'Finished_Chest' }],
    ['not_a_name', { kind: 'rename_cell', cell: 'k1', name: '2nd' }],
    ['not_a_name', { kind: 'add_cell', section: 's1', at: 0, cell: { ...cell, name: 'a b' } }],
    ['name_taken', { kind: 'add_cell', section: 's1', at: 0, cell: { ...cell, name: 'STITCH_GAUGE' } }],
    ['id_taken', { kind: 'add_cell', section: 's1', at: 0, cell: { ...cell, id: 'k1' } }],
    ['not_an_id', { kind: 'add_cell', section: 's1', at: 0, cell: { ...cell, id: '__proto__' } }],
    ['no_such_section', { kind: 'add_cell', section: 's9', at: 0, cell }],
    ['label_taken', { kind: 'rename_column', column: 'c1', label: 'm' }],
    ['not_a_label', { kind: 'rename_column', column: 'c1', label: 'a"b' }],
    ['no_such_column', { kind: 'set_chosen', chosen: { column: 'c9' } }],
    ['no_such_day', { kind: 'set_notebook', fields: { today: '2026-02-30' } }],
    ['no_such_item', { kind: 'delete_item', list: 'steps', id: 't9' }],
    ['wrong_kind', { kind: 'add_cell', section: 's1', at: -1, cell }],
    ['no_such_change', { kind: 'explode' } as unknown as Change],
  ];
  test.each(cases)('%s: %o', (code, change) => {
    expect(refusal(change)).toBe(code);
  });

  test('any change of a notebook of a later version', () => {
    expect(refusal({ kind: 'set_text', cell: 'k1', text: '' }, { ...example(), ellwand: 2 })).toBe(
      'read_only',
    );
  });

  test('several together of which one cannot be: none is done', () => {
    const changes: Change[] = [
      { kind: 'set_notebook', fields: { title: 'half done' } },
      { kind: 'delete_cell', cell: 'k99' },
    ];
    expect(refusal({ kind: 'together', changes })).toBe('no_such_cell');
  });

  test('changes within changes without end are no change', () => {
    let change: unknown = { kind: 'delete_cell', cell: 'k1' };
    for (let depth = 0; depth < 2000; depth++) change = { kind: 'together', changes: [change] };
    expect(changeFromJSON(change)).toBeUndefined();
  });
});

describe('titles', () => {
  const cases: readonly [string, Change][] = [
    ['change stitch gauge', { kind: 'set_text', cell: 'k1', text: '18 st / 4 in' }],
    ['change the note on stitch gauge', { kind: 'set_cell', cell: 'k1', fields: { note: 'dry' } }],
    ['rename stitch gauge to my gauge', { kind: 'rename_cell', cell: 'k1', name: 'my_gauge' }],
    ['delete column M', { kind: 'delete_column', column: 'c2' }],
    ['choose S', { kind: 'set_chosen', chosen: { column: 'c1' } }],
    ['follow size to follow', { kind: 'set_chosen', chosen: { follow: 'size_to_follow' } }],
    ['tick a step', { kind: 'set_progress', ticked: { t1: 'Cast on 90 sts.' } }],
    ['delete section Gauge', { kind: 'delete_section', section: 's1' }],
  ];
  test.each(cases)('%s', (title, change) => {
    expect(changeTitle(example(), change)).toBe(title);
  });
});

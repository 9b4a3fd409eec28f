// One notebook put in the place of another: ids stay and names change hands, whatever the order.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const opened = (notebook: ReturnType<typeof notebookOf>) =>
  createSession({ notebook, today: TEST_DAY, random: () => 0.5 });

describe('one notebook put in the place of another', () => {
  test('names that are handed on down a row of cells', () => {
    const session = opened(notebookOf({ a: '1', b: '2', c: '3', d: '4' }));
    const outcome = session.replaceWith(notebookOf({ b: '1', e: '2', a: 'b + 1', c: 'a' }), 'try');
    expect(outcome).toEqual({ done: true });
    expect(session.row('k4').values[0]?.text).toBe('2');
  });

  test('any names in any order', () => {
    const names = fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f'), { minLength: 1 });
    const cells = (list: readonly string[]) =>
      notebookOf(Object.fromEntries(list.map((n, i) => [n, `${i}`])));
    fc.assert(
      fc.property(names, names, (one, other) => {
        const session = opened(cells(one));
        expect(session.replaceWith(cells(other), 'try').done).toBe(true);
        expect(session.live.sheet.cells.map((id) => session.live.sheet.nameOf(id)).sort()).toEqual(
          [...other].sort(),
        );
      }),
    );
  });

  test.each(notebookNames)('%s in the place of each other one, and back', (name) => {
    for (const other of notebookNames) {
      const session = opened(openNotebook(other));
      expect(session.replaceWith(openNotebook(name), 'try'), other).toEqual({ done: true });
      expect(session.undo(), other).toEqual({ done: true });
    }
  });
});

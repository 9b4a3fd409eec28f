import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import {
  applyChange,
  type Change,
  emptyHistory,
  findCell,
  type History,
  invertChange,
  isRefused,
  type Notebook,
  perform,
  redo,
  same,
  undo,
  writeNotebook,
} from '../../src/notebook/index.ts';
import { type Batch, memoryDisk } from '../../src/storage/disk.ts';
import type { Keeper, Opened } from '../../src/storage/keeper.ts';
import type { Role } from '../../src/storage/log.ts';
import type { News } from '../../src/storage/world.ts';
import { changeFrom, draw } from '../notebook/edits.ts';
import { notebook as anyNotebook } from '../notebook/notebooks.ts';
import { patience, runs } from '../notebook/runs.ts';
import { Browser, example, mustOpen, quiet, until } from './worlds.ts';

vi.setConfig({ testTimeout: patience });

const text = (cell: string, words: string): Change => ({ kind: 'set_text', cell, text: words });

/** A session in small: does, undoes and redoes, and hears the news. */
class Sitter {
  readonly keeper: Keeper;
  readonly news: News[] = [];
  notebook: Notebook;
  history: History;

  constructor({ keeper, notebook, history }: Opened) {
    this.keeper = keeper;
    this.notebook = notebook;
    this.history = history;
    keeper.onNews((news) => {
      this.news.push(news);
      if ('notebook' in news) this.notebook = news.notebook;
    });
  }

  do(change: Change): void {
    this.#step(perform(this.notebook, this.history, change), 'do');
  }

  undo(): void {
    this.#step(undo(this.notebook, this.history), 'undo');
  }

  redo(): void {
    this.#step(redo(this.notebook, this.history), 'redo');
  }

  told(kind: News['kind']): readonly News[] {
    return this.news.filter((news) => news.kind === kind);
  }

  #step(step: ReturnType<typeof perform>, role: Role): void {
    if (isRefused(step)) return;
    const { change, title, notebook: after, history } = step;
    const before = this.notebook;
    this.notebook = after;
    this.history = history;
    this.keeper.save({ change, title, role, before, after });
  }
}

async function sit(browser: Browser, name: string, id: string): Promise<Sitter> {
  return new Sitter(await mustOpen(browser.tab(name).shelf, id));
}

async function kept(browser: Browser, start: Notebook = example()): Promise<string> {
  const made = await browser.tab('maker').shelf.create(start, { sameId: true });
  if (isRefused(made)) throw new Error(JSON.stringify(made));
  browser.gone('maker');
  return made.id;
}

const gauge = (notebook: Notebook): string | undefined => findCell(notebook, 'k1')?.cell.text;

describe('one tab', () => {
  test('a change is on the disk at once, and told', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    one.do(text('k1', '18 st / 4 in'));
    await one.keeper.settled();
    expect(one.told('saved')).toEqual([{ kind: 'saved', at: browser.now }]);
    browser.gone('A');
    const again = await sit(browser, 'B', id);
    expect(gauge(again.notebook)).toBe('18 st / 4 in');
  });

  test('undo and redo reach back through reloads, whatever was done', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyNotebook,
        fc.array(draw, { minLength: 1, maxLength: 9 }),
        fc.nat(3),
        async (start, draws, undos) => {
          const browser = new Browser();
          const id = await kept(browser, start);
          let now = await sit(browser, 'A', id);
          for (const drawn of draws) now.do(changeFrom(now.notebook, drawn));
          const end = now.notebook;
          for (let i = 0; i < undos; i++) now.undo();
          const middle = now.notebook;
          const reload = async (): Promise<void> => {
            await now.keeper.settled();
            browser.gone('A');
            now = await sit(browser, 'A', id);
          };
          await reload();
          expect(now.notebook).toEqual(middle);
          while (now.history.undone.length > 0) now.redo();
          expect(writeNotebook(now.notebook)).toBe(writeNotebook(end));
          await reload();
          while (now.history.done.length > 0) now.undo();
          expect(now.notebook).toEqual(start);
        },
      ),
      runs(60, 1000),
    );
  });

  test('a new tab takes over the history of one that is gone, and not that of one that is there', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    one.do(text('k1', '18 st / 4 in'));
    await one.keeper.settled();
    const beside = await sit(browser, 'B', id);
    expect(beside.history).toEqual(emptyHistory);
    browser.gone('A');
    browser.gone('B');
    const after = await sit(browser, 'C', id);
    expect(after.history.done.map(({ title }) => title)).toEqual(['change stitch gauge']);
    after.undo();
    expect(after.notebook).toEqual(example());
  });

  test('five hundred changes: the page is written anew, old rows go, and all of it comes back', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    for (let number = 1; number <= 1000; number++) {
      one.do(text('k1', `${number} st / 4 in`));
      if (number % 7 === 0) await quiet(0);
    }
    await until(() => one.keeper.saved);
    browser.gone('A');
    const again = await sit(browser, 'A', id);
    expect(gauge(again.notebook)).toBe('1000 st / 4 in');
    const rows = await browser.disk.list(`log:${id}:`);
    expect(rows.length).toBeGreaterThan(390);
    expect(rows.length).toBeLessThan(620);
    again.undo();
    expect(gauge(again.notebook)).toBe('999 st / 4 in');
  });

  test('trials are kept beside, and are not in the notebook', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const { shelf } = browser.tab('A');
    const opened = await mustOpen(shelf, id);
    opened.keeper.saveTrials([{ k1: '18 st / 4 in' }]);
    await shelf.close(opened.keeper);
    const again = await mustOpen(shelf, id);
    expect(again.trials).toEqual([{ k1: '18 st / 4 in' }]);
    expect(again.notebook).toEqual(example());
  });

  test('a change and the end of its trial reach the disk together: no browser that stops between them finds both', async () => {
    const disk = memoryDisk();
    const batches: Batch[] = [];
    const browser = new Browser({
      ...disk,
      write: (batch) => {
        batches.push(batch);
        return disk.write(batch);
      },
    });
    const id = await kept(browser);
    const { keeper, notebook } = await mustOpen(browser.tab('A').shelf, id);
    keeper.saveTrials('trying 18');
    const change = text('k1', '18 st / 4 in');
    keeper.save({ change, title: 'change stitch gauge', role: 'do', before: notebook, trials: 'nothing' });
    await keeper.settled();
    const withChange = batches.find(({ add = [] }) => add.some(([key]) => key.startsWith(`log:${id}:`)));
    expect(withChange?.put).toContainEqual([`trials:${id}`, 'nothing']);
  });

  test('ticks have a history of their own', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    const change: Change = { kind: 'set_progress', rows: { t1: 5 } };
    const after = applyChange(one.notebook, change);
    if (isRefused(after)) throw new Error('must apply');
    one.keeper.save({ change, title: 'count rows', role: 'progress', before: one.notebook, after });
    await one.keeper.settled();
    browser.gone('A');
    const again = await mustOpen(browser.tab('A').shelf, id);
    expect(again.history.done).toEqual([]);
    expect(again.progressHistory.done.map(({ title }) => title)).toEqual(['count rows']);
    expect(again.notebook.progress?.rows).toEqual({ t1: 5, t4: 37 });
  });

  test('of what is knitted of two columns, that of the first is taken back though the other came after', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    let now = one.notebook;
    const save = (change: Change, role: 'progress' | 'progress_undo') => {
      const after = applyChange(now, change);
      if (isRefused(after)) throw new Error('must apply');
      one.keeper.save({ change, title: `${change.kind} ${role}`, role, before: now, after });
      const inverse = invertChange(now, change);
      now = after;
      return inverse;
    };
    const back = save({ kind: 'set_progress', rows: { t1: 5 }, column: 'c1', names: true }, 'progress');
    save({ kind: 'set_progress', rows: { t1: 7 }, column: 'c2', names: true }, 'progress');
    save(back, 'progress_undo');
    await one.keeper.settled();
    browser.gone('A');
    const again = await mustOpen(browser.tab('A').shelf, id);
    expect(again.progressHistory.done.map(({ change }) => change)).toMatchObject([{ column: 'c2' }]);
    expect(again.notebook).toEqual(now);
  });

  test('a notebook of a later version, or with a change this one cannot read, is only shown', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    one.do(text('k1', '18 st / 4 in'));
    await one.keeper.settled();
    browser.gone('A');
    await browser.disk.write({
      add: [[`log:${id}:000000000002`, { number: 2, change: { kind: 'from_the_future' } }]],
    });
    const opened = await mustOpen(browser.tab('A').shelf, id);
    expect(opened.readOnly).toBe(true);
    const sitter = new Sitter(opened);
    sitter.do(text('k1', '17 st / 4 in'));
    expect(sitter.told('refused')).toMatchObject([{ refusal: { code: 'read_only' } }]);
    expect(gauge(sitter.notebook)).toBe('18 st / 4 in');
    await sitter.keeper.close();
    expect((await browser.disk.list(`log:${id}:`)).length).toBe(2);
  });
});

describe('two tabs', () => {
  test('each sees what the other does', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const [one, two] = [await sit(browser, 'A', id), await sit(browser, 'B', id)];
    one.do(text('k1', '18 st / 4 in'));
    two.do(text('k4', 'nearest(finished_chest, chest)'));
    await until(() => one.keeper.saved && two.keeper.saved);
    await quiet(20);
    expect(one.notebook).toEqual(two.notebook);
    expect(gauge(two.notebook)).toBe('18 st / 4 in');
    expect(two.told('foreign')).toMatchObject([{ title: 'change stitch gauge' }]);
    expect([...one.told('overtaken'), ...two.told('overtaken')]).toEqual([]);
  });

  test('of two edits of one cell at once the later wins, and the earlier is told, with a way back', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const [one, two] = [await sit(browser, 'A', id), await sit(browser, 'B', id)];
    two.do(text('k1', '19 st / 4 in'));
    one.do(text('k1', '18 st / 4 in'));
    await until(() => one.keeper.saved && two.keeper.saved);
    await quiet(20);
    expect([gauge(one.notebook), gauge(two.notebook)]).toEqual(['19 st / 4 in', '19 st / 4 in']);
    expect(one.told('overtaken')).toMatchObject([{ mine: { change: { text: '18 st / 4 in' } } }]);
    expect(two.told('overtaken')).toEqual([]);
    const [news] = one.told('overtaken');
    if (news?.kind === 'overtaken') one.do(news.mine.change);
    await quiet(20);
    expect([gauge(one.notebook), gauge(two.notebook)]).toEqual(['18 st / 4 in', '18 st / 4 in']);
  });

  test('an edit of a cell that the other has deleted is refused, and told', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const [one, two] = [await sit(browser, 'A', id), await sit(browser, 'B', id)];
    two.do(text('k1', '19 st / 4 in'));
    one.do({ kind: 'delete_cell', cell: 'k1' });
    await until(() => two.told('refused').length > 0);
    expect(two.told('refused')).toMatchObject([
      { title: 'change stitch gauge', refusal: { code: 'no_such_cell' } },
    ]);
    expect(two.notebook).toEqual(one.notebook);
  });

  test('undo takes back one’s own', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const [one, two] = [await sit(browser, 'A', id), await sit(browser, 'B', id)];
    one.do(text('k1', '18 st / 4 in'));
    await quiet(20);
    two.do(text('k4', '"S"'));
    await quiet(20);
    one.undo();
    two.undo();
    await quiet(20);
    expect(one.notebook).toEqual(example());
    expect(two.notebook).toEqual(example());
  });

  /** Two tabs, any edits in any order: both end equal to what is on the disk. */
  async function interleave(
    start: Notebook,
    draws: readonly Parameters<typeof changeFrom>[1][],
    killing: boolean,
  ) {
    const browser = new Browser();
    const id = await kept(browser, start);
    const one = await sit(browser, 'A', id);
    const two = await sit(browser, 'B', id);
    const third = await sit(browser, 'C', id);
    let living = [one, two, third];
    for (const [index, drawn] of draws.entries()) {
      const who = living[drawn.a % living.length] ?? third;
      const change = changeFrom(who.notebook, drawn);
      if (drawn.b % 5 === 0) who.undo();
      else who.do(change);
      if (drawn.b % 3 === 0) await quiet(drawn.b % 4);
      if (killing && index === Math.floor(draws.length / 2)) {
        browser.gone('A');
        living = [two, third];
      }
    }
    await until(() => living.every(({ keeper }) => keeper.saved));
    await quiet(30);
    await until(() => living.every(({ keeper }) => keeper.saved));
    return { browser, id, sitters: living };
  }

  test('any edits, interleaved: all tabs end equal, and equal to the disk', async () => {
    await fc.assert(
      fc.asyncProperty(anyNotebook, fc.array(draw, { maxLength: 14 }), async (start, draws) => {
        const { browser, id, sitters } = await interleave(start, draws, false);
        const onDisk = await browser.tab('Z').shelf.peek(id);
        for (const { notebook, keeper } of sitters) {
          expect(notebook).toEqual(onDisk);
          expect(keeper.notebook).toEqual(onDisk);
        }
      }),
      runs(25, 400),
    );
  });

  test('two hundred edits of texts: no edit is lost without being told', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const sitters = [await sit(browser, 'A', id), await sit(browser, 'B', id)];
    const last = new Map<string, string>();
    for (let number = 0; number < 200; number++) {
      const sitter = sitters[(number * 7) % 2 === (number % 3 === 0 ? 0 : 1) ? 0 : 1];
      const cell = ['k1', 'k3', 'k4', 'k5'][browser.random() > 0.5 ? number % 4 : (number * 3) % 4] ?? 'k1';
      sitter?.do(text(cell, `${number} st`));
      if (browser.random() > 0.7) await quiet(2);
      last.set(`${sitters.indexOf(sitter as Sitter)} ${cell}`, `${number} st`);
    }
    await until(() => sitters.every(({ keeper }) => keeper.saved));
    await quiet(30);
    expect(sitters[0]?.notebook).toEqual(sitters[1]?.notebook);
    for (const [where, words] of last) {
      const [who = '0', cell = ''] = where.split(' ');
      const sitter = sitters[Number(who)];
      const stands = findCell(sitter?.notebook as Notebook, cell)?.cell.text === words;
      const told = sitter?.news.some(
        (news) =>
          (news.kind === 'foreign' || news.kind === 'overtaken') &&
          same(
            news.kind === 'foreign' ? news.change : news.theirs.change,
            text(cell, findCell(sitter.notebook, cell)?.cell.text ?? ''),
          ),
      );
      expect(stands || told).toBe(true);
    }
  });

  test('the owner is killed in the middle: another goes on, and keeps all that it had done or heard', async () => {
    await fc.assert(
      fc.asyncProperty(anyNotebook, fc.array(draw, { maxLength: 10 }), async (start, draws) => {
        const { browser, id, sitters } = await interleave(start, draws, true);
        const onDisk = await browser.tab('Z').shelf.peek(id);
        for (const { notebook } of sitters) expect(notebook).toEqual(onDisk);
      }),
      runs(10, 100),
    );
  });

  test('an owner that is asleep is replaced, and finds its way back when it wakes', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const { shelf, tab } = browser.tab('A');
    const one = new Sitter(await mustOpen(shelf, id));
    const two = await sit(browser, 'B', id);
    tab.sleep();
    two.do(text('k1', '18 st / 4 in'));
    expect(two.keeper.saved).toBe(false);
    await until(() => two.keeper.saved);
    expect([one.keeper.owner, two.keeper.owner]).toEqual([true, true]);
    one.do(text('k4', '"S"'));
    await quiet(20);
    tab.wake();
    await until(() => one.keeper.saved && two.keeper.saved && one.keeper.owner !== two.keeper.owner);
    await quiet(30);
    expect(one.notebook).toEqual(two.notebook);
    expect(gauge(one.notebook)).toBe('18 st / 4 in');
    expect(findCell(two.notebook, 'k4')?.cell.text).toBe('"S"');
    expect(await browser.tab('Z').shelf.peek(id)).toEqual(one.notebook);
  });
});

describe('storage that fails', () => {
  test('at the first operation, at the second, … until all succeeds: old or new, never a mixture, and told', async () => {
    for (let failing = 1; failing < 80; failing++) {
      let failed = false;
      let broken = false;
      const disk = memoryDisk((operation) => {
        if (!broken || operation !== failing) return undefined;
        failed = true;
        return failing % 2 === 0 ? 'full' : 'failed';
      });
      const browser = new Browser(disk);
      const id = await kept(browser);
      broken = true;
      const states = [writeNotebook(example())];
      const opened = await browser
        .tab('A')
        .shelf.open(id)
        .catch(() => undefined);
      if (opened === undefined || isRefused(opened)) continue;
      const one = new Sitter(opened);
      for (const stitches of [18, 17, 16]) {
        one.do(text('k1', `${stitches} st / 4 in`));
        one.do({ kind: 'set_notebook', fields: { title: `at ${stitches}` } });
        states.push(writeNotebook(one.notebook));
        browser.now += 700_000;
        await quiet(0);
      }
      await one.keeper.settled();
      const troubled = one.told('trouble').length > 0;
      broken = false;
      browser.gone('A');
      const again = await mustOpen(browser.tab('B').shelf, id);
      const after = writeNotebook(again.notebook);
      const titles = /"title": "at (\d+)"/.exec(after)?.[1];
      const stitches = /"text": "(\d+) st \/ 4 in"/.exec(after)?.[1];
      const steps = [undefined, '18', '17', '16'];
      const ahead = steps.indexOf(stitches) - steps.indexOf(titles);
      expect(ahead === 0 || ahead === 1).toBe(true);
      expect(states.includes(after) || ahead === 1).toBe(true);
      expect(failed).toBe(troubled);
      if (!failed) return;
    }
    throw new Error('it never succeeded');
  });

  test('what could not be written is written later, in order', async () => {
    let full = false;
    const browser = new Browser(memoryDisk(() => (full ? 'full' : undefined)));
    const id = await kept(browser);
    const one = await sit(browser, 'A', id);
    full = true;
    one.do(text('k1', '18 st / 4 in'));
    await quiet();
    one.do(text('k4', '"S"'));
    await quiet();
    expect(one.told('trouble')).toMatchObject([{ trouble: 'full' }, { trouble: 'full' }]);
    expect(one.keeper.saved).toBe(false);
    full = false;
    one.do(text('k1', '17 st / 4 in'));
    await one.keeper.settled();
    expect(one.keeper.saved).toBe(true);
    browser.gone('A');
    expect((await mustOpen(browser.tab('B').shelf, id)).notebook).toEqual(one.notebook);
  });

  test('two owners without locks: the log takes each number once, and both end equal', async () => {
    const browser = new Browser();
    const id = await kept(browser);
    const alone = new Browser(browser.disk, 11);
    const one = await sit(browser, 'A', id);
    const two = await sit(alone, 'B', id);
    expect([one.keeper.owner, two.keeper.owner]).toEqual([true, true]);
    one.do(text('k1', '18 st / 4 in'));
    two.do(text('k4', '"S"'));
    two.do(text('k3', '12 in'));
    await until(() => one.keeper.saved && two.keeper.saved);
    one.do({ kind: 'set_notebook', fields: { title: 'Both' } });
    await until(() => one.keeper.saved);
    expect(findCell(one.notebook, 'k4')?.cell.text).toBe('"S"');
    expect(gauge(two.notebook)).toBe('18 st / 4 in');
    expect(await browser.tab('Z').shelf.peek(id)).toEqual(one.notebook);
  });
});

import { describe, expect, test } from 'vitest';
import {
  beginSession,
  createSession,
  fetchSession,
  type Kept,
  type Session,
  type SessionOptions,
} from '../../src/session/index.ts';
import { openNotebook } from '../support/notebook.ts';

const options = (keep: (kept: Kept) => void = () => undefined): SessionOptions => {
  let seed = 3;
  const random = () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
  return { notebook: openNotebook('resize-sweater'), today: 20_000, random, keep };
};

const gauge = (session: Session) => ({ cell: session.live.sheet.idOf('stitch_gauge') ?? '', column: null });
const shown = (session: Session) => ({
  page: session.page(),
  rows: session.live.sheet.cells.map((id) => session.row(id)),
});

/** A change tried, and taken back a step: all that a first visit can do at once. */
function tryOut(session: Session): void {
  session.nudge(gauge(session), -3);
  session.nudge(gauge(session), 1);
  session.undo();
}

/** What is asked for while it may be that the whole has not come. */
function workOn(session: Session): void {
  session.keepTrial();
  session.setTitle('Of my own');
  session.addSection(null, 'For later');
  session.type(gauge(session), '21');
  session.undo();
  session.setUnits('cm');
  session.tick(session.notebook.steps[0]?.id ?? '');
}

describe('before the whole of the session has come', () => {
  // One after another: the whole comes once.
  test('it is shown and tried as ever, and what is asked for is done, in order, when the whole has come', async () => {
    const kept: Kept[] = [];
    const early = beginSession(options((one) => kept.push(one)));
    const whole = createSession(options());
    expect(early.isWhole).toBe(false);
    expect(shown(early)).toEqual(shown(whole));
    for (const session of [early, whole]) tryOut(session);
    expect(shown(early)).toEqual(shown(whole));
    expect(early.page().trial?.cells).toHaveLength(1);
    expect(early.steps().steps).toEqual([]);

    const before = early.notebook;
    for (const session of [early, whole]) workOn(session);
    expect(early.notebook).toBe(before);
    const answers = early.questions();
    let told = 0;
    early.listen(({ page }) => {
      if (page) told += 1;
    });
    await fetchSession();
    expect(early.isWhole).toBe(true);
    expect(told).toBeGreaterThan(0);
    expect(shown(early)).toEqual(shown(whole));
    expect(early.steps()).toEqual(whole.steps());
    expect(early.file()).toBe(whole.file());
    expect(early.notebook.title).toBe('Of my own');
    expect(kept.at(-1)?.notebook).toBe(early.notebook);
    expect((await answers).besideChoices().length).toBeGreaterThan(0);
    // And from then on it is one like any other.
    for (const session of [early, whole]) {
      tryOut(session);
      session.putAside();
      session.undo();
      session.undoProgress();
    }
    expect(shown(early)).toEqual(shown(whole));
    expect(early.file()).toBe(whole.file());
    expect(early.trialsAside()).toEqual(whole.trialsAside());
  });

  test('one that is begun afterwards is whole at once', () => {
    const session = beginSession(options());
    expect(session.isWhole).toBe(true);
    expect(session.steps().steps.length).toBeGreaterThan(0);
  });
});

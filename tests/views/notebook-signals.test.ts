import { createEffect, createRoot } from 'solid-js';
import { expect, test, vi } from 'vitest';
import { type Notebook, readNotebook } from '../../src/notebook/index.ts';
import { createSession, type Session } from '../../src/session/index.ts';
import { createNotebookSignals, type NotebookSignals } from '../../src/views/notebook-signals.ts';

const file = `{ "ellwand": 1, "id": "nviews", "title": "Small", "units": "in", "sections": [
  {"id": "s1", "title": "One", "cells": [
    {"id": "k1", "name": "gauge", "text": "20 st / 4 in"},
    {"id": "k2", "name": "width", "text": "100 st / gauge"},
    {"id": "k3", "name": "half", "text": "width / 2"},
    {"id": "k4", "name": "apart", "text": "3 in"} ]} ] }`;

function small(): Notebook {
  const read = readNotebook(file);
  if ('refused' in read) throw new Error('the test’s own notebook cannot be read');
  return read.notebook;
}

/** Runs with a session's signals, and counts how often each row was told. */
function withSignals(
  run: (signals: NotebookSignals, session: Session, told: Map<string, number>) => void,
): void {
  createRoot((dispose) => {
    const session = createSession({ notebook: small(), today: 20_000, random: () => 0.5 });
    const signals = createNotebookSignals(session);
    const told = new Map<string, number>();
    for (const id of ['k1', 'k2', 'k3', 'k4']) {
      createEffect(() => {
        signals.row(id);
        told.set(id, (told.get(id) ?? 0) + 1);
      });
    }
    queueMicrotask(() => {
      run(signals, session, told);
      dispose();
    });
  });
}

async function checked(run: Parameters<typeof withSignals>[0]): Promise<void> {
  let done = false;
  withSignals((...all) => {
    run(...all);
    done = true;
  });
  await Promise.resolve();
  await Promise.resolve();
  expect(done).toBe(true);
}

test('a nudge tells exactly the rows that it moves', () =>
  checked((signals, session, told) => {
    session.nudge({ cell: 'k1', column: null }, 1);
    expect(Object.fromEntries(told)).toEqual({ k1: 2, k2: 2, k3: 2, k4: 1 });
    expect(signals.row('k2').values[0]?.text).toBe('19½');
  }));

test('rows out of sight follow when the nudges rest, and at once when they come into sight', async () => {
  vi.useFakeTimers();
  try {
    await checked((signals, session, told) => {
      signals.setFar('k2', true);
      signals.setFar('k3', true);
      session.nudge({ cell: 'k1', column: null }, 1);
      expect(signals.row('k2').values[0]?.text).toBe('20');
      signals.setFar('k3', false);
      expect(signals.row('k3').values[0]?.text).toBe('9¾');
      vi.advanceTimersByTime(200);
      session.nudge({ cell: 'k1', column: null }, 1);
      vi.advanceTimersByTime(200);
      expect(signals.row('k2').values[0]?.text).toBe('20');
      vi.advanceTimersByTime(200);
      expect(signals.row('k2').values[0]?.text).toBe('19');
      expect(told.get('k2')).toBe(2);
    });
  } finally {
    vi.useRealTimers();
  }
});

test('a row that leaves the page is forgotten, and asking for the others goes on', () =>
  checked((signals, session) => {
    session.deleteCell('k4');
    expect(signals.view().sections[0]?.cells).toEqual(['k1', 'k2', 'k3']);
    session.nudge({ cell: 'k1', column: null }, -1);
    expect(signals.row('k2').values[0]?.text).toBe('20½');
  }));

test('what is said twice is said again', () =>
  checked((signals) => {
    signals.say('gone');
    const first = signals.spoken().turn;
    signals.say('gone');
    expect(signals.spoken()).toEqual({ words: 'gone', turn: first + 1 });
  }));

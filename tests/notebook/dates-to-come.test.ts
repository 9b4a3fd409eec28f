// The days of an example, moved on so that they have not gone by when it is begun.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  allCells,
  type Cell,
  type Notebook,
  withDatesToCome,
  writeNotebook,
} from '../../src/notebook/index.ts';
import { createSession } from '../../src/session/index.ts';
import { notebookNames, openNotebook } from '../support/notebook.ts';

const dayOf = (text: string): number => Math.floor(Date.parse(text) / 86_400_000);

const cellOf = (notebook: Notebook, name: string): Cell => {
  const cell = allCells(notebook).find((one) => one.name === name);
  if (!cell) throw new Error(`there is no cell ${name}`);
  return cell;
};

const textOf = (notebook: Notebook, name: string) => cellOf(notebook, name).text ?? '';

const saysOn = (notebook: Notebook, today: number, name: string) => {
  const session = createSession({ notebook, today, random: () => 0.5 });
  const value = session.live.sheet.value(session.live.sheet.idOf(name) ?? '');
  return value.kind === 'truth' && value.truth;
};

describe('the days of a prebuilt notebook as it is begun', () => {
  test('stay while they are still to come', () => {
    for (const name of notebookNames) {
      const notebook = openNotebook(name);
      expect(withDatesToCome(notebook, dayOf('2026-01-07')), name).toBe(notebook);
    }
  });

  test('what the baby is to wear is still to be worn, at the same age, whenever it is begun', () => {
    const notebook = openNotebook('baby-set');
    const begun = withDatesToCome(notebook, dayOf('2026-11-27'));
    expect([textOf(begun, 'born'), textOf(begun, 'worn_from')]).toEqual(['2027-04-18', '2027-10-01']);
    for (const day of ['2026-10-01', '2026-10-02', '2030-10-02', '2041-03-01']) {
      const then = withDatesToCome(notebook, dayOf(day));
      expect(saysOn(then, dayOf(day), 'still_to_be_worn'), day).toBe(true);
      expect(dayOf(textOf(then, 'worn_from')) - dayOf(textOf(then, 'born'))).toBe(166);
      expect(dayOf(textOf(then, 'worn_from')) - dayOf(day)).toBeLessThan(366);
    }
  });

  test('no gift is for a day gone by, and the gifts stay as far from each other', () => {
    const notebook = openNotebook('plan-gifts');
    const days = (one: Notebook) => Object.values(cellOf(one, 'needed_by').each ?? {});
    expect(days(withDatesToCome(notebook, dayOf('2026-12-20')))).toEqual(days(notebook));
    expect(days(withDatesToCome(notebook, dayOf('2026-12-21')))).toEqual([
      '2027-12-24',
      '2027-12-20',
      '2027-12-24',
      '2028-01-06',
    ]);
  });

  test('the season ends after it is begun', () => {
    const begun = withDatesToCome(openNotebook('tally-season'), dayOf('2027-03-21'));
    expect(textOf(begun, 'season_ends')).toBe('2028-03-20');
  });

  test('nothing else in it changes', () => {
    const years = (text: string) => text.replaceAll(/"(\d{4})-(\d\d-\d\d)"/g, '"$2"');
    for (const name of notebookNames) {
      const notebook = openNotebook(name);
      const begun = withDatesToCome(notebook, dayOf('2029-06-15'));
      expect(years(writeNotebook(begun)), name).toBe(years(writeNotebook(notebook)));
    }
  });
});

test('29 February is the day after the 28th where there is none', () => {
  const notebook = openNotebook('tally-season');
  const leap = {
    ...notebook,
    sections: [{ id: 's1', title: 'All', cells: [{ id: 'k1', name: 'due', text: '2028-02-29' }] }],
  };
  fc.assert(
    fc.property(fc.integer({ min: dayOf('2028-03-01'), max: dayOf('2060-01-01') }), (today) => {
      const due = textOf(withDatesToCome(leap, today), 'due');
      expect(due).toMatch(/-(02-29|03-01)$/);
      expect(dayOf(due)).toBeGreaterThanOrEqual(today);
      expect(dayOf(due) - today).toBeLessThanOrEqual(366);
    }),
  );
});

// A length that stands beside a count is the length which that count makes, and not the one that was wished for: every
// prebuilt notebook, every column, with gauges at which nothing comes out even by chance.
import { describe, expect, test, vi } from 'vitest';
import { draw, drawingKind } from '../../src/drawing/index.ts';
import { createSession, type DrawingView, type Session, type StepView } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY, withSets } from '../support/notebook.ts';

vi.setConfig({ testTimeout: 30_000 });

const GAUGES = /(^|_)(stitch|row)_gauge(_|$)/;

/** Every gauge typed in one cell of a notebook by its name, each at a number nobody would choose. */
function oddGauges(name: string, withEmpty: boolean): Readonly<Record<string, string>> {
  const cells = openNotebook(name)
    .sections.flatMap((section) => section.cells)
    .filter(
      (cell) => GAUGES.test(cell.name) && (/^[\d.]/.test(cell.text ?? '') || (withEmpty && cell.text === '')),
    );
  return Object.fromEntries(
    cells.map((cell, k) => {
      const unit = cell.name.includes('stitch') ? 'st' : 'row';
      return [cell.name, `${(unit === 'st' ? 19.37 : 26.83) + k * 0.59} ${unit} / 4 in`];
    }),
  );
}

function opened(name: string, withEmpty: boolean): Session {
  const notebook = withSets(openNotebook(name), oddGauges(name, withEmpty));
  return createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
}

/** The gauges one knits at, for stitches or for rows, to the centimetre. */
function gauges({ live: { sheet } }: Session, count: 'stitch' | 'row'): readonly number[] {
  const named = sheet.cells.filter(
    (id) =>
      GAUGES.test(sheet.nameOf(id)) &&
      sheet.nameOf(id).includes(count) &&
      !/^pattern_/.test(sheet.nameOf(id)),
  );
  return [...named, ...sheet.cells.filter((id) => /^rows_per_length/.test(sheet.nameOf(id)))].flatMap(
    (id) => {
      const value = sheet.value(id, 0);
      return value.kind === 'quantity' ? [value.value * 1000] : [];
    },
  );
}

/** The length and the count that stand in one label of a drawing, by the names of its parts. */
function pairsIn(view: DrawingView): readonly (readonly [length: string, count: string])[] {
  const { block } = draw(view.kind, view.parts);
  if (block?.kind !== 'scene') return [];
  const measures = new Map(drawingKind(view.kind)?.parts.map((spec) => [spec.name, spec.measures]));
  const partOf = (cell: string | undefined, kind: string) =>
    Object.entries(view.parts).flatMap(([name, part]) =>
      typeof part === 'object' && part.cell === cell && measures.get(name) === kind ? [name] : [],
    );
  return block.labels.flatMap(({ runs }) => {
    const lengths = runs.flatMap(({ cell }) => partOf(cell, 'length').slice(0, 1));
    const counts = runs.flatMap(({ cell }) => partOf(cell, 'count').slice(0, 1));
    return lengths.flatMap((length) => counts.map((count) => [length, count] as const));
  });
}

/** Which labels of a drawing put a length beside a count that makes another. */
function faultsOf(session: Session, view: DrawingView): readonly string[] {
  return pairsIn(view).flatMap(([length, count]) => {
    const [long, many] = [view.parts[length], view.parts[count]];
    if (typeof long !== 'object' || typeof many !== 'object') return [];
    const kind = /(rows|rounds)$/.test(count) ? 'row' : 'stitch';
    const makes = gauges(session, kind).map((gauge) => many.value / gauge);
    const fits = makes.some((cm) => Math.abs(cm - long.value) < 0.001);
    return fits ? [] : [`${view.title}: ${long.name} ${long.text} beside ${many.name} ${many.text}`];
  });
}

const isOverRows = ({ counts, counter }: StepView): boolean =>
  counter !== undefined || counts.some(({ text }) => /\b(rows?|rnds?)$/.test(text));

/** The lengths a step prints beside rows that are no whole number of rows at any gauge. */
function lengthsOff(session: Session, step: StepView): readonly string[] {
  const { sheet } = session.live;
  if (!step.applies || !isOverRows(step)) return [];
  return step.runs.flatMap(({ cell, text }) => {
    const value = cell === '' ? undefined : sheet.value(cell, Math.max(0, sheet.chosenColumn));
    if (value?.kind !== 'quantity' || !/\b(in|cm|mm)$/.test(text)) return [];
    const rows = gauges(session, 'row').map((gauge) => (value.value / 1000) * gauge);
    const isKnit = rows.some((n) => Math.abs(n - Math.round(n)) < 1e-5);
    return isKnit ? [] : [`${step.text}: ${sheet.nameOf(cell)} is ${text}`];
  });
}

function everywhere(name: string, look: (session: Session) => readonly string[]): readonly string[] {
  return [false, true].flatMap((withEmpty) => {
    const session = opened(name, withEmpty);
    const { columns } = session.page();
    return (columns.length > 0 ? columns : [undefined]).flatMap((column) => {
      if (column) session.choose(column.id);
      return look(session).map((fault) => `${column?.label ?? name}: ${fault}`);
    });
  });
}

describe('a length beside a count is what the count makes', () => {
  test.each(notebookNames)('on every label of the drawings of %s', (name) => {
    const faults = everywhere(name, (session) =>
      session.drawings().flatMap((view) => faultsOf(session, view)),
    );
    expect(faults).toEqual([]);
  });

  test.each(notebookNames)('in every step of %s', (name) => {
    const faults = everywhere(name, (session) =>
      session.steps().steps.flatMap((step) => lengthsOff(session, step)),
    );
    expect(faults).toEqual([]);
  });

  test('a sweater worked flat, too, has the length of its rows', () => {
    const session = opened('resize-sweater', false);
    expect(session.type({ cell: session.live.sheet.idOf('worked') ?? '', column: null }, '"flat"').done).toBe(
      true,
    );
    const faults = session.steps().steps.flatMap((step) => lengthsOff(session, step));
    expect(faults).toEqual([]);
  });

  test('the schematics do show lengths beside counts', () => {
    const pairs = notebookNames.flatMap((name) => opened(name, false).drawings().flatMap(pairsIn));
    expect(pairs.length).toBeGreaterThan(20);
  });
});

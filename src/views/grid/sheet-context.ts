import { type Accessor, createContext, createMemo, useContext } from 'solid-js';
import type { ColumnView, SectionView, TrialView } from '../../session/index.ts';
import type { NotebookSignals } from '../notebook-signals.ts';
import { createSettled } from '../settled.ts';
import { createSight, type Sight } from './sight.ts';

/** What every row of a sheet reads alike: worked out once, told only when it differs. */
export interface SheetContext {
  readonly columns: Accessor<readonly ColumnView[]>;
  /** Where the chosen column stands, from 0; −1 when none is chosen. */
  readonly chosenIndex: Accessor<number>;
  readonly trial: Accessor<TrialView | undefined>;
  readonly readOnly: Accessor<boolean>;
  section(id: string): SectionView | undefined;
  /** How many of a section's cells are drawn by now. */
  drawnIn(id: string): number;
  /** Which blocks of rows are in sight. */
  readonly sight: Sight;
}

const Context = createContext<SheetContext>();
export const SheetProvider = Context.Provider;

/** The sheet around a component. Throws outside one. */
export function useSheet(): SheetContext {
  const sheet = useContext(Context);
  if (!sheet) throw new Error('This component stands outside a sheet.');
  return sheet;
}

/** Reads a notebook's page for the rows of a sheet. */
export function createSheetContext(notebook: NotebookSignals, drawn: Accessor<number>): SheetContext {
  const { view } = notebook;
  const columns = createSettled(() => view().columns, isSameColumns);
  const chosenIndex = createSettled(() => view().columns.findIndex((column) => column.chosen));
  const list = createMemo(() => view().sections);
  const sections = createMemo(() => new Map(list().map((section) => [section.id, section])));
  const startsAt = createMemo(() => firstRows(list()));
  return {
    columns,
    chosenIndex,
    trial: () => view().trial,
    readOnly: createSettled(() => view().readOnly),
    section: (id) => sections().get(id),
    sight: createSight(),
    drawnIn: (id) => Math.max(0, drawn() - (startsAt().get(id) ?? 0)),
  };
}

/** How many cells stand above each section. */
function firstRows(sections: readonly SectionView[]): ReadonlyMap<string, number> {
  let above = 0;
  return new Map(
    sections.map((section) => {
      const start = above;
      above += section.cells.length;
      return [section.id, start];
    }),
  );
}

function isSameColumns(old: readonly ColumnView[], now: readonly ColumnView[]): boolean {
  return (
    old.length === now.length &&
    old.every((column, i) => column.id === now[i]?.id && column.label === now[i].label)
  );
}

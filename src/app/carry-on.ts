/*
 * From one prebuilt notebook on to another, with numbers carried over: a gauge that three swatches have shown leads to
 * the sheet that works a pattern over at it.
 */

import type { Notebook } from '../notebook/index.ts';
import type { Session } from '../session/index.ts';
import { prebuilt } from './prebuilt.ts';

/** A way on from a notebook that was begun from another. */
interface WayOn {
  readonly from: string;
  readonly to: string;
  /** Cells of the new notebook, and the cells whose values are carried into them. */
  readonly carries: Readonly<Record<string, string>>;
}

const WAYS: readonly WayOn[] = [
  {
    from: 'compare-swatches',
    to: 'resize-sweater',
    carries: {
      pattern_stitch_gauge: 'pattern_stitch_gauge',
      pattern_row_gauge: 'pattern_row_gauge',
      stitch_gauge: 'nearest_gauge',
      row_gauge: 'nearest_row_gauge',
    },
  },
];

/** A way on, as the page offers it. */
export interface CarryOn {
  /** "Resize a sweater". */
  readonly title: string;
  /** The cells whose worked-out values are carried over. */
  readonly cells: readonly string[];
  /** The new notebook, with them in it. Rejects where it cannot be fetched. */
  begin(): Promise<Notebook>;
}

/** Where a notebook leads on to; undefined where nowhere, or where a cell that would be carried is gone. */
export function carryOn(session: Session): CarryOn | undefined {
  const { notebook, live } = session;
  const way = WAYS.find(({ from }) => from === (notebook.from?.notebook ?? notebook.id));
  const title = prebuilt.find(({ name }) => name === way?.to)?.title;
  if (!way || title === undefined) return undefined;
  const names = Object.values(way.carries);
  const there = names.flatMap((name) => live.sheet.idOf(name) ?? []);
  if (there.length < names.length) return undefined;
  return { title, cells: there.filter((id) => !live.sheet.info(id).typed), begin: () => begun(session, way) };
}

async function begun(session: Session, { to, carries }: WayOn): Promise<Notebook> {
  const { beginFrom } = await import('./begin.ts');
  const [begins, questions] = await Promise.all([beginFrom(to), session.questions()]);
  const textFor = (name: string) => {
    const source = Object.hasOwn(carries, name) ? carries[name] : undefined;
    return source === undefined ? undefined : questions.carried(source);
  };
  const sections = begins.sections.map((section) => ({
    ...section,
    cells: section.cells.map((cell) => {
      const text = textFor(cell.name);
      if (text === undefined) return cell;
      const { each: _each, ...rest } = cell;
      return { ...rest, text };
    }),
  }));
  return { ...begins, units: session.notebook.units, sections };
}

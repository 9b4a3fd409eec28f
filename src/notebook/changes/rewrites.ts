/*
 * Texts that are rewritten along with a renaming. Finding them takes reading formulas, which the notebook cannot do: the
 * session works the new texts out and the change carries them. What is not there (any more) is passed over, and a field is
 * only rewritten where there is one.
 */
import type { Cell, Notebook, Says, Step } from '../document.ts';
import { limits } from '../limits.ts';
import { normalName } from '../names.ts';
import { own, record } from '../record.ts';
import { inOrder } from '../settle.ts';
import { present, type Shape } from '../shape.ts';
import { readChoices, readSays } from '../validate.ts';
import { readById, readTexts } from './keys.ts';
import { allCells, mapCells } from './places.ts';

/** What a cell's texts become. */
export type CellTexts = Pick<Cell, 'text' | 'each' | 'shown' | 'says' | 'choices'>;

/** New texts by id. */
export interface Rewrites {
  readonly cells?: Readonly<Record<string, CellTexts>>;
  readonly steps?: Readonly<Record<string, Partial<Pick<Step, 'text' | 'when'>>>>;
  /** The whole binding of a drawing, by drawing id. */
  readonly drawings?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** The cell that the chosen column follows. */
  readonly follow?: string;
}

/** The notebook with the texts rewritten. */
export function rewrite(notebook: Notebook, { cells, steps, drawings, follow }: Rewrites): Notebook {
  const order = (notebook.columns?.list ?? []).map(({ id }) => id);
  const rewritten = mapCells(notebook, (cell) => {
    const texts = own(cells, cell.id);
    if (texts === undefined) return cell;
    const each = texts.each && { each: inOrder(texts.each, order) };
    return { ...cell, ...only(cell, { ...texts, ...each }) };
  });
  return {
    ...rewritten,
    steps: notebook.steps.map((step) => ({ ...step, ...only(step, own(steps, step.id)) })),
    drawings: notebook.drawings.map((one) => ({ ...one, ...only(one, bound(own(drawings, one.id))) })),
    ...(follow !== undefined && notebook.chosen && 'follow' in notebook.chosen
      ? { chosen: { ...notebook.chosen, follow } }
      : {}),
  };
}

/** The same texts as they are now. */
export function rewritesBack(notebook: Notebook, { cells, steps, drawings, follow }: Rewrites): Rewrites {
  return present<Rewrites>({
    cells: cells && back(allCells(notebook), cells),
    steps: steps && back(notebook.steps, steps),
    drawings:
      drawings &&
      record(notebook.drawings.flatMap(({ id, binds }) => (own(drawings, id) ? [[id, binds]] : []))),
    follow:
      follow !== undefined && notebook.chosen && 'follow' in notebook.chosen
        ? notebook.chosen.follow
        : undefined,
  });
}

/** As it is kept: unknown keys of `says` beside the known ones. */
export function rewritesToJSON(rewrites: Rewrites): unknown {
  if (rewrites.cells === undefined) return rewrites;
  const cells = Object.entries(rewrites.cells).map(([id, texts]) => {
    const { extra, ...says } = texts.says ?? {};
    return [id, texts.says ? { ...texts, says: { ...says, ...extra } } : texts] as const;
  });
  return { ...rewrites, cells: record(cells) };
}

/** Read back from what was kept. */
export function readRewrites(shape: Shape | undefined): Rewrites | undefined {
  if (shape === undefined) return undefined;
  const follow = shape.text('follow', limits.name);
  return present<Rewrites>({
    cells: readById(shape.group('cells'), limits.cells, readCellTexts),
    steps: readById(shape.group('steps'), limits.steps, readStepTexts),
    drawings: readById(shape.group('drawings'), limits.drawings, (group) => readTexts(group, limits.binds)),
    follow: follow && normalName(follow),
  });
}

const readCellTexts = (group: Shape): CellTexts =>
  present<CellTexts>({
    text: group.formula(group.value('text'), group.at('text')),
    each: readTexts(group.group('each'), limits.columns),
    shown: group.text('shown', limits.word),
    says: readSays(group),
    choices: readChoices(group),
  });

const readStepTexts = (group: Shape) =>
  present<Partial<Pick<Step, 'text' | 'when'>>>({
    text: group.text('text', limits.sentence),
    when: group.text('when', limits.name),
  });

const bound = (binds: Readonly<Record<string, string>> | undefined) =>
  binds === undefined ? undefined : { binds };

/** Those of the new fields that the group already has. */
function only<G extends object, F extends object>(group: G, fields: F | undefined): Partial<F> {
  const there = Object.entries(fields ?? {}).filter(([key]) => Object.hasOwn(group, key));
  return Object.fromEntries(there) as Partial<F>;
}

/** For each member that is rewritten, the fields it has of those, as they are. */
function back<G extends { readonly id: string; readonly says?: Says }, F extends object>(
  members: readonly G[],
  rewritten: Readonly<Record<string, F>>,
): Record<string, F> {
  return record(
    members.flatMap((member) => {
      const fields = own(rewritten, member.id);
      if (fields === undefined) return [];
      const there = Object.entries(member).filter(([key]) => Object.hasOwn(fields, key));
      return [[member.id, Object.fromEntries(there) as F] as const];
    }),
  );
}

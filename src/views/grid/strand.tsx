/*
 * The strand of yarn in the margin: from the cell where she stands to each cell that it moves, a knot at each, where
 * it becomes the line under the name. With the workings open, a second, dotted strand comes from the cells it uses.
 * It is decoration; the same is said in words where she stands. It is drawn only for that one cell and at most 60
 * knots, the nearest first, and measured again only when she moves, rows come, go or come into sight, or the sheet
 * changes its height.
 */
import { createEffect, createMemo, createSignal, Index, on, onCleanup, onMount, Show } from 'solid-js';
import { type Desk, useDesk } from '../desk.ts';
import { useSheet } from './sheet-context.ts';
import { isDrawn } from './sight.ts';
import { type Knot, strandPaths } from './strand-path.ts';

const mostKnots = 60;

interface Strands {
  readonly from: number;
  readonly fed: readonly Knot[];
  readonly used: readonly Knot[];
}

/** Draws the strand over the sheet whose element is given. */
export function Strand(props: { readonly sheet: () => HTMLElement | undefined }) {
  const desk = useDesk();
  const { sight } = useSheet();
  const [strands, setStrands] = createSignal<Strands>();
  const measure = () => setStrands(measured(desk, props.sheet()));
  let frame = 0;
  const measureSoon = () => {
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(measure);
  };

  const formula = createMemo(() => formulaOfFocused(desk));
  createEffect(() => {
    formula();
    nameNeighbours(desk);
    measureSoon();
  });
  createEffect(on(sight.turn, measureSoon, { defer: true }));
  onMount(() => {
    const sheet = props.sheet();
    if (!sheet) return;
    const watcher = new ResizeObserver(measureSoon);
    watcher.observe(sheet.querySelector('.grid') ?? sheet); // Its rows: a short sheet is as high as the window.
    sheet.addEventListener('contentvisibilityautostatechange', measureSoon);
    onCleanup(() => watcher.disconnect());
  });
  onCleanup(() => cancelAnimationFrame(frame));
  return (
    <svg class="strand" aria-hidden="true">
      <Show when={strands()}>
        {(drawn) => (
          <>
            <path class="strand-used" d={pathOf(drawn().from, drawn().used, usedDashPx)} />
            <Index each={drawn().used}>
              {(knot) => <circle class="knot-used" cx="35" cy={knot().y} r="3.4" />}
            </Index>
            <Yarn d={pathOf(drawn().from, drawn().fed, plyDashPx)} />
            <Index each={drawn().fed}>{(knot) => <circle class="knot" cx="35" cy={knot().y} r="4" />}</Index>
            <Show when={drawn().fed.length + drawn().used.length > 0}>
              <circle class="knot-from" cx="35" cy={drawn().from} r="5.2" />
            </Show>
          </>
        )}
      </Show>
    </svg>
  );
}

/** The yarn and, over it, its plies. */
function Yarn(props: { readonly d: string }) {
  const path = createMemo(() => props.d);
  return (
    <>
      <path class="strand-yarn" d={path()} />
      <path class="strand-ply" d={path()} />
    </>
  );
}

/** From one dash to the next of the plies and of the dotted strand, as the style sheet has them. */
const plyDashPx = 6.5;
const usedDashPx = 4.5;

const pathOf = (from: number, knots: readonly Knot[], dashPx: number) =>
  strandPaths(from, knots, dashPx).join('');

/** How the focused cell is worked out: another text may name other cells. */
function formulaOfFocused(desk: Desk): string {
  const { row } = desk.stand();
  return row.startsWith('k:') ? desk.notebook.row(row.slice(2)).how : '';
}

/** Flags the rows that the focused cell moves and, with its workings open, those that it uses. */
function nameNeighbours(desk: Desk): void {
  const { row } = desk.stand();
  const id = row.startsWith('k:') ? row.slice(2) : undefined;
  desk.order(); // Rows that come or go change who moves whom.
  const isOpen = id !== undefined && desk.open.has(id);
  desk.fed.replace(id === undefined ? [] : desk.notebook.page.feeds(id));
  desk.used.replace(isOpen ? desk.notebook.page.uses(id) : []);
}

function measured(desk: Desk, sheet: HTMLElement | undefined): Strands | undefined {
  const { row } = desk.stand();
  if (!sheet || !row.startsWith('k:') || desk.phone()) return undefined;
  const sheetTop = sheet.getBoundingClientRect().top;
  const topOf = createTops();
  const middleOf = (key: string) => {
    const top = topOf(desk.elementOf(key));
    return top === undefined ? undefined : Math.round(top - sheetTop) + firstLinePx / 2;
  };
  const from = middleOf(row);
  if (from === undefined) return undefined;
  const knots = (ids: readonly string[]) =>
    ids.slice(0, mostKnots).flatMap((id) => {
      const y = middleOf(`k:${id}`);
      return y === undefined ? [] : [{ id, y: y + underlinePx }];
    });
  return { from, fed: knots(desk.fed.list()), used: knots(desk.used.list()) };
}

/**
 * Where rows begin, in pixels of the window. One in a block that the browser leaves undrawn is not measured, as that
 * would lay it out: its share of the block is near enough while it is out of sight. Of a block is asked once.
 */
function createTops(): (row: HTMLElement | undefined) => number | undefined {
  const undrawn = new Map<Element, ReadonlyMap<Element, number> | undefined>();
  return (row) => {
    const block = row?.parentElement;
    if (!row || !block) return undefined;
    if (!undrawn.has(block)) undrawn.set(block, isDrawn(block) ? undefined : sharesOf(block));
    return undrawn.get(block)?.get(row) ?? row.getBoundingClientRect().top;
  };
}

function sharesOf(block: Element): ReadonlyMap<Element, number> {
  const { top, height } = block.getBoundingClientRect();
  return new Map([...block.children].map((row, i) => [row, top + (height * i) / block.childElementCount]));
}

/** The height of a row with one line. */
const firstLinePx = 41;

/** So far under the middle of a name its line is drawn. */
const underlinePx = 12;

import { createMemo, For, onMount, Show, Suspense } from 'solid-js';
import { useDesk } from '../desk.ts';
import { FirstCell } from '../later.ts';
import { isSameList } from '../same-list.ts';
import { ColumnHeads } from './column-heads.tsx';
import { createDrawingOn } from './drawing-on.ts';
import { hearGridKey, openMenuAt } from './keys.ts';
import { createPointed, PointedNudge } from './pointed-nudge.tsx';
import { copyRows, writeValue } from './row-actions.ts';
import { rowOf } from './row-of.ts';
import { SectionRows } from './section-rows.tsx';
import { createSheetContext, SheetProvider, useSheet } from './sheet-context.ts';
import { Strand } from './strand.tsx';

/** The first rows are more than a tall screen holds. */
const ROWS = { first: 70, atATime: 60 };

/** The notebook as a ruled page: a grid of sections, cells and columns. */
export function Sheet() {
  const desk = useDesk();
  const drawing = createDrawingOn(() => desk.order().length, ROWS);
  const sheet = createSheetContext(desk.notebook, drawing.drawn);
  const sectionIds = createMemo(() => desk.notebook.view().sections.map((section) => section.id), undefined, {
    equals: isSameList,
  });
  const isBlank = createMemo(() =>
    desk.notebook.view().sections.every((section) => section.cells.length === 0),
  );
  let body!: HTMLDivElement;
  onMount(() => desk.standAt(desk.stand()));
  desk.onMissingRow(drawing.all);
  return (
    <SheetProvider value={sheet}>
      <div
        ref={body}
        class="sheet-body"
        style={{ '--columns': String(Math.max(sheet.columns().length, 1)) }}
        classList={{ many: sheet.columns().length > 6, blank: isBlank() }}
        on:paste={(event: ClipboardEvent) => {
          const text = event.clipboardData?.getData('text/plain') ?? '';
          if (event.defaultPrevented || (isField(event.target) && !text.includes('\t'))) return;
          event.preventDefault();
          const { row } = desk.stand();
          const id = row.slice(2);
          const at = row.startsWith('k:') ? desk.placeOf(id) : { section: id, atEnd: row[0] === '+' };
          desk.heed(desk.notebook.page.paste(at, text));
        }}
      >
        <Strand sheet={() => body} />
        <GridOf ids={sectionIds()} />
        <Show when={isBlank() && !sheet.readOnly()}>
          <Suspense>
            <FirstCell />
          </Suspense>
        </Show>
      </div>
    </SheetProvider>
  );
}

function GridOf(props: { readonly ids: readonly string[] }) {
  const desk = useDesk();
  const sheet = useSheet();
  const { pointed, move, leave } = createPointed(desk);
  return (
    <div
      role="grid"
      class="grid"
      aria-label={desk.notebook.view().title || 'this notebook'}
      aria-readonly={desk.notebook.view().readOnly}
      onPointerDown={() => {
        desk.tell(undefined);
        stoodAt = desk.partOf(desk.stand().row, desk.stand().part);
      }}
      onPointerOver={move}
      on:pointerleave={leave}
      onKeyDown={(event) => {
        if (event.key.length > 1 || !event.ctrlKey) desk.tell(undefined);
        if (!hearGridKey(event, desk)) return;
        event.preventDefault();
        event.stopPropagation();
      }}
      onFocusIn={(event) => standWhereFocused(event.target, desk, sheet.chosenIndex())}
      onClick={(event) => openOnSecondClick(event, desk, sheet.chosenIndex())}
      onDblClick={(event) => openOnDoubleClick(event, desk)}
      onContextMenu={(event) => {
        const row = rowOf(event.target);
        if (event.defaultPrevented || !row || isField(event.target)) return;
        event.preventDefault();
        openMenuAt(desk, row);
      }}
      on:copy={(event: ClipboardEvent) => {
        const { row } = desk.stand();
        if (isField(event.target) || !row.startsWith('k:') || !document.getSelection()?.isCollapsed) return;
        event.preventDefault();
        event.clipboardData?.setData('text/plain', copyRows(desk, row.slice(2)));
      }}
    >
      <div role="rowgroup" class="heads-group">
        <ColumnHeads />
      </div>
      <For each={props.ids}>{(id) => <SectionRows id={id} />}</For>
      <PointedNudge pointed={pointed()} onTaken={leave} />
    </div>
  );
}

type DeskOf = ReturnType<typeof useDesk>;

function isField(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, select, .cm-editor') !== null;
}

/** The part of a row that an element is in, as the desk counts them. */
function partNumberOf(target: Element, desk: DeskOf): number | undefined {
  const word = target.closest<HTMLElement>('[data-part]')?.dataset['part'];
  if (word === undefined) return undefined;
  return word === 'how' || word === 'about' ? Math.max(desk.columnCount(), 1) + 1 : Number(word);
}

function standWhereFocused(target: EventTarget, desk: DeskOf, chosen: number): void {
  const row = rowOf(target);
  const part = target instanceof Element ? partNumberOf(target, desk) : undefined;
  if (row === undefined || part === undefined) return;
  const stand = desk.stand();
  // "Keep", "back" and "…" belong to the value where she stands: were she to leave it, − and + would go from under the finger.
  if (stand.row === row && (target as Element).closest('.offers, .how .more')) return;
  // On a phone the name stands for the value beside it, so that − and + come by either.
  const isName = part === 0 && desk.phone() && row.startsWith('k:');
  const value = isName && desk.notebook.row(row.slice(2)).each ? Math.max(1, chosen + 1) : 1;
  const wanted = isName ? value : part;
  const isSameWide = stand.row === row && desk.partOf(row, stand.part) === desk.partOf(row, wanted);
  if (!isSameWide) desk.standAt({ row, part: wanted });
}

let clickedPart: Element | null | undefined;
/** Where she stood as a finger came down. */
let stoodAt: Element | undefined;

/** A click on a typed value where she already stands opens it; on a phone its row looks open from the start. */
function openOnSecondClick(event: MouseEvent, desk: DeskOf, chosen: number): void {
  const target = event.target as Element;
  const row = rowOf(target);
  // On a card the large number stands for your column's value.
  const large = row !== undefined && target.closest('.chosen-value') ? { row, part: chosen + 1 } : undefined;
  const part = large ? desk.partOf(large.row, large.part) : target.closest('[data-part]');
  const wasClicked = part && (part === clickedPart || (desk.phone() && part === stoodAt));
  clickedPart = part;
  if (large) desk.standAt(large, true);
  if (!wasClicked || !row?.startsWith('k:') || target.closest('button, input, .cm-editor')) return;
  const id = row.slice(2);
  if (part.classList.contains('v') && desk.notebook.row(id).typed) writeValue(desk, id, desk.stand().part);
}

function openOnDoubleClick(event: MouseEvent, desk: DeskOf): void {
  const target = event.target as Element;
  const row = rowOf(target);
  if (!row || desk.notebook.view().readOnly || target.closest('button, input, .cm-editor')) return;
  const part = partNumberOf(target, desk);
  const id = row.slice(2);
  if (row.startsWith('s:')) desk.edit({ what: part === 0 ? 'section' : 'about', id, column: null });
  else if (!row.startsWith('k:') || part === undefined) return;
  else if (part === 0) desk.edit({ what: 'name', id, column: null });
  else if (part > Math.max(desk.columnCount(), 1)) desk.edit({ what: 'note', id, column: null });
  else if (!desk.isEditing('text', id)) writeValue(desk, id, part);
}

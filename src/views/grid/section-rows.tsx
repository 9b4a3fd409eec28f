import { createEffect, createMemo, createSignal, For, onCleanup, Show } from 'solid-js';
import { type Desk, useDesk } from '../desk.ts';
import { InlineText } from '../inline-text.tsx';
import { isSameList } from '../same-list.ts';
import { type Block, createBlocks } from './blocks.ts';
import { CellRow } from './cell-row.tsx';
import { openSectionMenu } from './open-menu.ts';
import { addCell, addSection } from './row-actions.ts';
import { useSheet } from './sheet-context.ts';
import { BLOCK } from './sight.ts';

/** A section of the sheet: its heading, its cells, and the place where a cell can be added. */
export function SectionRows(props: { readonly id: string }) {
  const sheet = useSheet();
  const cells = createMemo(() => sheet.section(props.id)?.cells ?? [], undefined, { equals: isSameList });
  const drawn = createMemo(() => Math.min(sheet.drawnIn(props.id), cells().length));
  const blocks = createBlocks(() => cells().slice(0, drawn()));
  return (
    <div role="rowgroup" class="section">
      <SectionHead id={props.id} />
      <For each={blocks()}>{(block) => <BlockRows block={block} />}</For>
      <AddRow id={props.id} after={cells().at(-1) ?? null} />
    </div>
  );
}

/** Rows that the browser draws, or leaves undrawn, as one. */
function BlockRows(props: { readonly block: Block }) {
  const desk = useDesk();
  const sheet = useSheet();
  const { ids } = props.block;
  const isWrittenIn = createMemo(() => {
    const editing = desk.editing();
    return editing !== undefined && ids().includes(editing.id);
  });
  const [isFar, setFar] = createSignal(false);
  const [isDrawn, setDrawn] = createSignal(false);
  createEffect(() => {
    const is = isFar();
    for (const id of ids()) desk.notebook.setFar(id, is);
  });
  return (
    <div
      ref={(element) => onCleanup(sheet.sight.watch(element, { setNear: (is) => setFar(!is), setDrawn }))}
      role="presentation"
      class={BLOCK}
      classList={{ written: isWrittenIn(), drawn: isDrawn() }}
      style={{ '--rows': String(ids().length) }}
    >
      <For each={ids()}>{(id) => <CellRow id={id} isFar={isFar()} />}</For>
    </div>
  );
}

function SectionHead(props: { readonly id: string }) {
  const desk = useDesk();
  const sheet = useSheet();
  const key = () => `s:${props.id}`;
  const section = () => sheet.section(props.id);
  return (
    <div
      ref={(element) => desk.register(key(), element)}
      role="row"
      class="section-head"
      data-row={key()}
      classList={{ standing: desk.isStandingIn(key()) }}
    >
      <div role="rowheader" tabindex="-1" data-part="0" class="section-title">
        <Show
          when={desk.isEditing('section', props.id)}
          fallback={<h2>{section()?.title || <span class="untitled">untitled</span>}</h2>}
        >
          <SectionField id={props.id} what="section" />
        </Show>
      </div>
      <div role="gridcell" tabindex="-1" data-part="about" class="about">
        <Show
          when={desk.isEditing('about', props.id)}
          fallback={<span class="about-text">{section()?.about}</span>}
        >
          <SectionField id={props.id} what="about" />
        </Show>
        <For each={section()?.cautions}>{(caution) => <p class="caution">{caution}</p>}</For>
        <Show when={desk.isStandingIn(key()) && !sheet.readOnly()}>
          <button
            type="button"
            tabindex="-1"
            class="more"
            aria-label={`more for ${section()?.title || 'this section'}`}
            aria-haspopup="menu"
            onClick={(event) => openSectionMenu(desk, props.id, event.currentTarget)}
          >
            …
          </button>
        </Show>
      </div>
    </div>
  );
}

function SectionField(props: { readonly id: string; readonly what: 'section' | 'about' }) {
  const desk = useDesk();
  const sheet = useSheet();
  const isTitle = () => props.what === 'section';
  const stored = () => (isTitle() ? sheet.section(props.id)?.title : sheet.section(props.id)?.about) ?? '';
  return (
    <InlineText
      label={isTitle() ? 'a title for this section' : 'a few words about this section'}
      placeholder={isTitle() ? 'a title' : 'a few words about it'}
      text={stored()}
      atEnd={!isTitle()}
      onCommit={(text, by) => {
        const done = text.trim() === stored() || desk.heed(keepWords(desk, props.id, isTitle(), text.trim()));
        if (done || by === 'blur') desk.leave(by !== 'blur');
        return done || by === 'blur';
      }}
      onCancel={() => desk.leave()}
    />
  );
}

function keepWords(desk: Desk, id: string, isTitle: boolean, text: string) {
  const { page } = desk.notebook;
  return isTitle ? page.renameSection(id, text) : page.setSectionAbout(id, text);
}

/** The quiet row at a section's end. */
function AddRow(props: { readonly id: string; readonly after: string | null }) {
  const desk = useDesk();
  const sheet = useSheet();
  const key = () => `+:${props.id}`;
  const isLast = () => desk.notebook.view().sections.at(-1)?.id === props.id;
  return (
    <div
      ref={(element) => desk.register(key(), element)}
      role="row"
      class="add-row"
      data-row={key()}
      classList={{ standing: desk.isStandingIn(key()), last: isLast() }}
      onMouseDown={(event) => {
        // The keyboard stays till the press has ended: a card folding up above would move the button from under the finger.
        if (!desk.editing()) event.preventDefault();
      }}
    >
      <div role="gridcell" tabindex="-1" data-part="0">
        <Show when={!sheet.readOnly()}>
          <button
            type="button"
            tabindex="-1"
            class="link quiet"
            onClick={() => addCell(desk, props.id, props.after)}
          >
            add a cell
          </button>
          <Show when={isLast()}>
            <button type="button" tabindex="-1" class="link quiet" onClick={() => addSection(desk, props.id)}>
              add a section
            </button>
          </Show>
        </Show>
      </div>
    </div>
  );
}

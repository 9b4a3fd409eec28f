import { createEffect, Index, Show } from 'solid-js';
import type { ColumnView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { InlineText } from '../inline-text.tsx';
import { StitchKey } from '../stitch-mark.tsx';
import { addColumn, withArticle, yourColumn } from './column-actions.ts';
import { openColumnMenu } from './open-menu.ts';
import { useSheet } from './sheet-context.ts';

/** The row of column heads, which stays in sight. A click or Enter makes a column the chosen one. */
export function ColumnHeads() {
  const desk = useDesk();
  const sheet = useSheet();
  const standing = () => desk.isStandingIn('head');
  let heads!: HTMLDivElement;
  createEffect(() => {
    if (desk.phone() && sheet.columns().length > 0) showHead(heads, sheet.chosenIndex());
  });
  return (
    <div
      ref={(element) => {
        heads = element;
        desk.register('head', element);
      }}
      role="row"
      class="heads"
      data-row="head"
      classList={{ standing: standing() }}
    >
      <div role="columnheader" tabindex="-1" data-part="0" class="head-name">
        <span class="hidden">name</span>
        <StitchKey />
      </div>
      <div class="vals">
        <Index
          each={sheet.columns()}
          fallback={
            <div role="columnheader" tabindex="-1" data-part="1" class="v wide">
              <span class="hidden">value</span>
            </div>
          }
        >
          {(column, index) => <ColumnHead column={column()} index={index} />}
        </Index>
      </div>
      <div role="columnheader" tabindex="-1" data-part="how" class="how">
        <span class="how-title">how it’s worked out</span>
        <Show when={!sheet.readOnly()}>
          <HeadOffers />
        </Show>
      </div>
    </div>
  );
}

/** Brings your column's head into the strip, which on a phone holds only a few. */
function showHead(heads: HTMLElement, chosen: number): void {
  const strip = heads.querySelector<HTMLElement>('.vals');
  const head = heads.querySelector<HTMLElement>(`[data-part="${chosen + 1}"]`);
  if (!strip || !head || chosen < 0) return;
  const [outer, inner] = [strip.getBoundingClientRect(), head.getBoundingClientRect()];
  const isInSight = inner.left >= outer.left && inner.right <= outer.right;
  if (!isInSight) strip.scrollLeft += inner.left + inner.width / 2 - (outer.left + outer.width / 2);
}

function ColumnHead(props: { readonly column: ColumnView; readonly index: number }) {
  const desk = useDesk();
  const sheet = useSheet();
  const chosen = () => sheet.chosenIndex() === props.index;
  const standing = () => desk.isStandingIn('head') && desk.stand().part === props.index + 1;
  const isNamed = () => desk.isEditing('column', props.column.id);
  let before: string | undefined;
  const choose = ({ detail }: MouseEvent) => {
    if (detail > 1 || isNamed()) return;
    const { follows, columns } = desk.notebook.view();
    before = chosen() ? undefined : follows ? 'follow' : columns.find((one) => one.chosen)?.id;
    if (!chosen()) desk.heed(desk.notebook.page.choose(props.column.id));
  };
  /** A double click gives a column a name, and leaves what was chosen. */
  const name = () => {
    if (sheet.readOnly() || isNamed()) return;
    if (before) desk.heed(desk.notebook.page.choose(before));
    desk.edit({ what: 'column', id: props.column.id, column: null });
  };
  return (
    <div
      role="columnheader"
      tabindex="-1"
      data-part={props.index + 1}
      class="v head"
      classList={{ pick: chosen() }}
      aria-label={
        chosen() ? `${props.column.label}, ${yourColumn(desk.notebook.view().heading)}` : props.column.label
      }
      onClick={choose}
      onContextMenu={(event) => {
        event.preventDefault();
        openColumnMenu(desk, props.index, event.currentTarget);
      }}
    >
      <Show
        when={isNamed()}
        fallback={
          <>
            <Show when={chosen()}>
              <span class="yours">{yourColumn(desk.notebook.view().heading)}</span>
            </Show>
            <span class="label" onDblClick={name}>
              {props.column.label}
            </span>
          </>
        }
      >
        <ColumnField column={props.column} />
      </Show>
      <Show when={standing() && !sheet.readOnly() && !isNamed()}>
        <button
          type="button"
          tabindex="-1"
          class="more"
          aria-label={`more for ${props.column.label}`}
          aria-haspopup="menu"
          onClick={(event) => {
            event.stopPropagation();
            openColumnMenu(desk, props.index, event.currentTarget);
          }}
        >
          …
        </button>
      </Show>
    </div>
  );
}

function ColumnField(props: { readonly column: ColumnView }) {
  const desk = useDesk();
  return (
    <InlineText
      label={`a name for ${props.column.label}`}
      text={props.column.label}
      onCommit={(label, by) => {
        const same = label.trim() === props.column.label;
        const done = same || desk.heed(desk.notebook.page.renameColumn(props.column.id, label.trim()));
        if (done || by === 'blur') desk.leave(by !== 'blur');
        return done || by === 'blur';
      }}
      onCancel={() => desk.leave()}
    />
  );
}

/** Going back to the column a cell names, and adding one. */
function HeadOffers() {
  const desk = useDesk();
  const view = desk.notebook.view;
  return (
    <>
      <Show when={view().couldFollow}>
        <button
          type="button"
          tabindex="-1"
          class="link"
          onClick={() => desk.heed(desk.notebook.page.choose('follow'))}
        >
          back to {view().couldFollow}
        </button>
      </Show>
      <button type="button" tabindex="-1" class="link quiet add-column" onClick={() => addColumn(desk, null)}>
        add {withArticle(view().heading || 'column')}
      </button>
    </>
  );
}

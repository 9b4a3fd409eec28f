/*
 * What appears in the one row where she stands: − and + beside a typed value, and the editor while she writes. They
 * are mounted into that row's cell, so that a thousand other rows carry none of it.
 */
import { createEffect, createMemo, createSignal, type JSX, onCleanup, Show, untrack } from 'solid-js';
import { Portal } from 'solid-js/web';
import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { CellEditor } from '../editor/cell-editor.tsx';
import { ChoiceEditor } from '../editor/choice-editor.tsx';
import { makeDrag } from './drag.ts';
import { Nudge } from './nudge.tsx';
import { nudge } from './row-actions.ts';
import { useSheet } from './sheet-context.ts';
import { markTight } from './tight.ts';

/** So far a finger goes for one step. */
const dragStepPx = 14;

/** The tools of the row where she stands. */
export function CellTools(props: { readonly row: RowView }) {
  const desk = useDesk();
  const sheet = useSheet();
  const [cell, setCell] = createSignal<HTMLElement>();
  const isWriting = () => desk.isEditing('text', props.row.id);
  // Decided when the writing began: what is being written may change what the row is.
  const isStrip = () => desk.editing()?.inPlace !== true;
  const onValue = () => desk.stand().part >= 1 && desk.stand().part <= Math.max(desk.columnCount(), 1);

  const nudges = createMemo(() => props.row.nudges && !isWriting() && !sheet.readOnly());

  createEffect(() => {
    // The cells are made anew when a row gets one value or one for each column, at the latest after writing.
    props.row.each;
    sheet.columns();
    isWriting();
    setCell(onValue() ? desk.partOf(`k:${props.row.id}`, desk.stand().part) : undefined);
  });
  const tools = createMemo(() => (isWriting() && !isStrip() ? 'editor' : nudges() ? 'nudge' : 'none'));
  const spoken = createMemo(() => spokenOf(props.row, desk.stand().part));
  keepAttribute(cell, 'data-tools', tools);
  keepAttribute(cell, 'aria-description', spoken);

  createEffect(() => {
    const element = cell();
    if (element && nudges()) markTight(element);
  });

  createEffect(() => {
    const element = cell();
    const { id } = untrack(() => props.row);
    if (element && nudges()) onCleanup(makeDrag(element, dragStepPx, (steps) => nudge(desk, id, steps)));
  });

  return (
    <>
      <Show when={cell()} keyed>
        {(element) => (
          <>
            <Show when={nudges()}>
              <Mounted into={element.querySelector('.pill') ?? element}>
                <Nudge row={props.row} />
              </Mounted>
            </Show>
            <Show when={isWriting() && !isStrip()}>
              <Mounted into={element}>
                <Show when={props.row.choices.length > 0} fallback={<CellEditor row={props.row} />}>
                  <ChoiceEditor row={props.row} />
                </Show>
              </Mounted>
            </Show>
          </>
        )}
      </Show>
      <Show when={isWriting() && isStrip()}>
        <div role="gridcell" class="strip">
          <CellEditor row={props.row} />
        </div>
      </Show>
    </>
  );
}

/** Gives an element an attribute, and takes it away when the element is another or the owner is gone. */
function keepAttribute(element: () => Element | undefined, name: string, value: () => string): void {
  createEffect(() => {
    const one = element();
    if (!one) return;
    createEffect(() => one.setAttribute(name, value()));
    onCleanup(() => one.removeAttribute(name));
  });
}

function Mounted(props: { readonly into: Element; readonly children: JSX.Element }) {
  return (
    <Portal mount={props.into} ref={(div) => div.classList.add('tools')}>
      {props.children}
    </Portal>
  );
}

/** A value as it is read aloud where she stands. */
function spokenOf(row: RowView, part: number): string {
  const value = row.values[row.each ? part - 1 : 0];
  if (!value) return 'empty';
  const marks = [
    value.decided && !row.typed ? 'stitches to knit' : '',
    value.pinned ? 'on the needles' : '',
    value.old ? `was ${value.old.text}` : '',
    value.says,
  ];
  return [value.spoken || value.text || 'empty', ...marks].filter(Boolean).join(', ');
}

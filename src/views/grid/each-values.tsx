/*
 * The values of a row that has one for each column. A nudge can touch hundreds of such rows, so each row has a single
 * effect that writes only what differs, instead of several effects for every value.
 */
import { createRenderEffect, Index } from 'solid-js';
import type { RowView, ValueView } from '../../session/index.ts';
import { useSheet } from './sheet-context.ts';

interface Parts {
  readonly cell: HTMLElement;
  readonly number: Text;
  readonly pill: HTMLElement;
  small: HTMLElement | undefined;
  shown: ValueView | undefined;
}

/** The value cells of one row, in the columns' order. */
export function EachValues(props: { readonly row: RowView }) {
  const sheet = useSheet();
  const parts: Parts[] = [];
  const take = (cell: HTMLElement, index: number) => {
    const pill = cell.firstElementChild as HTMLElement;
    const number = document.createTextNode('');
    pill.firstElementChild?.append(number);
    parts[index] = { cell, number, pill, small: undefined, shown: undefined };
  };
  const cells = (
    <Index each={sheet.columns()}>
      {(column, index) => (
        <div
          ref={(cell) => take(cell, index)}
          role="gridcell"
          tabindex="-1"
          data-part={index + 1}
          data-label={column().label}
          class="v"
        >
          <div class="pill">
            <span class="n" />
          </div>
        </div>
      )}
    </Index>
  );
  createRenderEffect(() => {
    const { values, typed } = props.row;
    const chosen = sheet.chosenIndex();
    const count = sheet.columns().length;
    for (let i = 0; i < count; i += 1) {
      const part = parts[i];
      const value = values[i];
      if (part && value) write(part, value, i === chosen, typed);
    }
  });
  return cells;
}

function write(part: Parts, value: ValueView, chosen: boolean, typed: boolean): void {
  const classes = classesOf(value, chosen, typed);
  if (part.cell.className !== classes) part.cell.className = classes;
  if (part.shown === value) return;
  part.shown = value;
  if (part.number.data !== value.text) part.number.data = value.text;
  writeSmall(part, value.pinned ? 'on the needles' : smallPrint(value), value.pinned ? 'pin' : 'd');
}

function classesOf(value: ValueView, chosen: boolean, typed: boolean): string {
  let classes = chosen ? 'v pick' : 'v';
  if (value.tone !== 'plain') classes += ` ${value.tone}`;
  if (value.kind === 'empty') classes += ' empty';
  if (value.decided && !typed) classes += ' decided';
  if (value.old) classes += ' moved';
  return classes;
}

/** The difference a trial makes, or what a label was. */
function smallPrint(value: ValueView): string {
  if (!value.old) return '';
  return value.old.difference || (value.old.text === value.text ? '' : `was ${value.old.text}`);
}

function writeSmall(part: Parts, text: string, kind: string): void {
  if (text === '' && !part.small) return;
  if (!part.small) {
    part.small = document.createElement('small');
    part.cell.append(part.small);
  }
  if (part.small.textContent !== text) part.small.textContent = text;
  if (part.small.className !== kind) part.small.className = kind;
}

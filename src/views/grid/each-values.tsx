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
  classes: string;
  small: Text | undefined;
  smallText: string;
  smallKind: string;
  shown: ValueView | undefined;
}

/** The value cells of one row, in the columns' order. */
export function EachValues(props: { readonly row: RowView }) {
  const sheet = useSheet();
  const parts: Parts[] = [];
  const take = (cell: HTMLElement, index: number) => {
    const number = document.createTextNode('');
    cell.firstElementChild?.append(number);
    parts[index] = {
      cell,
      number,
      classes: 'v',
      small: undefined,
      smallText: '',
      smallKind: '',
      shown: undefined,
    };
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
          <span class="n pill" />
        </div>
      )}
    </Index>
  );
  createRenderEffect(() => {
    const { values, typed } = props.row;
    const chosen = sheet.chosenIndex();
    const count = sheet.columns().length;
    const moved = values.some((value) => value.old);
    for (let i = 0; i < count; i += 1) {
      const part = parts[i];
      const value = values[i];
      if (part && value) write(part, value, { chosen: i === chosen, typed, moved });
    }
  });
  return cells;
}

/** What a value's cell shares with its row. */
interface InRow {
  readonly chosen: boolean;
  readonly typed: boolean;
  /** A trial moves some value of the row: all make room for the small print, so that they stay level. */
  readonly moved: boolean;
}

function write(part: Parts, value: ValueView, row: InRow): void {
  const classes = classesOf(value, row);
  if (part.classes !== classes) {
    part.classes = classes;
    part.cell.className = classes;
  }
  if (part.shown === value) return;
  // Compared with what was written, as asking the page costs as much as writing.
  if (part.shown?.text !== value.text) part.number.data = value.text;
  part.shown = value;
  if (value.pinned) writeSmall(part, 'on the needles', 'pin');
  else writeSmall(part, smallPrint(value), 'd');
}

function classesOf(value: ValueView, { chosen, typed, moved }: InRow): string {
  let classes = chosen ? 'v pick' : 'v';
  if (value.tone !== 'plain') classes += ` ${value.tone}`;
  if (value.kind === 'empty') classes += ' empty';
  if (value.kind === 'plan') classes += ' plan';
  if (value.kind === 'date') classes += ' date';
  if (value.decided && !typed) classes += ' decided';
  if (moved) classes += ' moved';
  return classes;
}

/** The difference a trial makes, or what a label was. */
function smallPrint(value: ValueView): string {
  if (!value.old) return '';
  return value.old.difference || (value.old.text === value.text ? '' : `was ${value.old.text}`);
}

function writeSmall(part: Parts, text: string, kind: string): void {
  if (!part.small) {
    if (text === '') return;
    part.small = document.createTextNode('');
    const element = document.createElement('small');
    element.append(part.small);
    part.cell.append(element);
  }
  if (part.smallText !== text) {
    part.smallText = text;
    part.small.data = text;
  }
  const element = part.small.parentElement;
  if (element && part.smallKind !== kind) {
    part.smallKind = kind;
    element.className = kind;
  }
}

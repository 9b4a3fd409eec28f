/*
 * The values of a row that has one for each column. A nudge can touch hundreds of such rows, so each row has a single
 * effect that writes only what differs, instead of several effects for every value.
 */
import { createRenderEffect, Index } from 'solid-js';
import type { PlainValues, RowView, ValueView } from '../../session/index.ts';
import { useSheet } from './sheet-context.ts';

interface Part {
  readonly cell: HTMLElement;
  readonly number: Text;
  classes: string;
  text: string;
  small: Text | undefined;
  smallText: string;
  smallKind: string;
}

/** The value cells of one row, in the columns' order. */
export function EachValues(props: { readonly row: RowView }) {
  const sheet = useSheet();
  const parts: Part[] = [];
  const take = (cell: HTMLElement, index: number) => {
    const number = document.createTextNode('');
    cell.firstElementChild?.append(number);
    parts[index] = {
      cell,
      number,
      classes: 'v',
      text: '',
      small: undefined,
      smallText: '',
      smallKind: '',
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
    const { row } = props;
    const chosen = sheet.chosenIndex();
    const count = Math.min(sheet.columns().length, parts.length);
    if (row.plain) writePlain(parts, count, row.plain, chosen);
    else writeAll(parts, count, row, chosen);
  });
  return cells;
}

/** Numbers of which nothing is said: most rows are so, and of no value is made more than its texts. */
function writePlain(parts: readonly Part[], count: number, plain: PlainValues, chosen: number): void {
  let moved = '';
  for (let i = 0; i < count && moved === ''; i += 1) if (plain.isMoved(i)) moved = ' moved';
  const rest = (plain.decided ? ' decided' : '') + moved;
  for (let i = 0; i < count; i += 1) {
    const part = parts[i];
    if (!part) continue;
    const text = plain.text(i);
    writeClasses(part, (i === chosen ? 'v pick' : 'v') + rest + longClass(text));
    writeText(part, text);
    const difference = moved === '' ? '' : plain.difference(i);
    const was = moved === '' || difference !== '' ? text : plain.was(i);
    writeSmall(part, difference || wasWords(was, text), 'd');
  }
}

function writeAll(parts: readonly Part[], count: number, { values, typed }: RowView, chosen: number): void {
  const moved = values.some((value) => value.old);
  for (let i = 0; i < count; i += 1) {
    const part = parts[i];
    const value = values[i];
    if (!part || !value) continue;
    writeClasses(part, classesOf(value, { chosen: i === chosen, typed, moved }));
    writeText(part, value.text);
    if (value.pinned) writeSmall(part, 'on the needles', 'pin');
    else writeSmall(part, smallPrint(value), 'd');
  }
}

// What is written is compared with what was, as asking the page costs as much as writing.

function writeClasses(part: Part, classes: string): void {
  if (part.classes === classes) return;
  part.classes = classes;
  part.cell.className = classes;
}

function writeText(part: Part, text: string): void {
  if (part.text === text) return;
  part.text = text;
  part.number.data = text;
}

/** What a value's cell shares with its row. */
interface InRow {
  readonly chosen: boolean;
  readonly typed: boolean;
  /** A trial moves some value of the row: all make room for the small print, so that they stay level. */
  readonly moved: boolean;
}

function classesOf(value: ValueView, { chosen, typed, moved }: InRow): string {
  let classes = chosen ? 'v pick' : 'v';
  if (value.tone !== 'plain') classes += ` ${value.tone}`;
  if (value.kind === 'empty') classes += ' empty';
  if (value.kind === 'plan') classes += ' plan';
  if (value.kind === 'date') classes += ' date';
  if (value.kind === 'label') classes += ' words';
  if (value.decided && !typed) classes += ' decided';
  if (moved) classes += ' moved';
  return classes + longClass(value.text);
}

/** A number of so many figures that it is set smaller where columns are narrow: 34.4618. */
const longClass = (text: string): string => (text.length > 5 ? ' long' : '');

/** The difference a trial makes, or what a label was. */
function smallPrint(value: ValueView): string {
  if (!value.old) return '';
  return value.old.difference || wasWords(value.old.text, value.text);
}

const wasWords = (was: string, text: string): string => (was === text ? '' : `was ${was}`);

function writeSmall(part: Part, text: string, kind: string): void {
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

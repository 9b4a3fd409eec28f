import type { CallHelp, Mistake, Page, Place } from '../../session/index.ts';

/** What is being written, and whom to tell as it goes. */
export interface Writing {
  readonly page: Page;
  readonly place: Place;
  readonly label: string;
  /** The id of the element with the sentence under the line. */
  readonly describedBy: string;
  readonly text: string;
  /** True takes hold of the whole text, so that the first key replaces it. */
  readonly selectAll: boolean;
  /** True lets a long text go over several lines on the screen. */
  readonly wraps: boolean;
  /** Takes each text as it is written. Gives what is wrong with it, as far as that is told already. */
  readonly onText: (text: string) => readonly Mistake[];
  readonly onHelp: (help: CallHelp | undefined) => void;
  readonly onEnter: () => void;
  readonly onEscape: () => void;
  readonly onTab: (direction: -1 | 1) => void;
  /** Moves the value by so many steps; false when it has none. */
  readonly onArrow: (steps: number) => boolean;
  /** A table was pasted: lines, or columns divided by tabs. */
  readonly onTable: (table: string) => void;
}

/** An editor for one text. */
export interface TextEditor {
  text(): string;
  replace(text: string): void;
  showMistakes(mistakes: readonly Mistake[]): void;
  focus(): void;
  destroy(): void;
}

export type MakeEditor = (host: HTMLElement, writing: Writing) => TextEditor;

/** True for a pasted text that is a table and not one value. */
export function isTable(text: string): boolean {
  return /[\t\n]/.test(text.trim());
}

/** A plain field, for as long as CodeMirror is on its way. */
export const makePlainEditor: MakeEditor = (host, writing) => {
  const field = document.createElement('input');
  field.type = 'text';
  field.className = 'plain-editor';
  field.autocomplete = 'off';
  field.spellcheck = false;
  field.value = writing.text;
  field.setAttribute('aria-label', writing.label);
  field.setAttribute('aria-describedby', writing.describedBy);
  const read = () => {
    const mistakes = writing.onText(field.value);
    field.setAttribute('aria-invalid', String(mistakes.length > 0));
    writing.onHelp(writing.page.callHelp(field.value, field.selectionStart ?? 0));
  };
  field.addEventListener('input', read);
  field.addEventListener('keydown', (event) => {
    if (hearKey(event, writing)) event.preventDefault();
  });
  field.addEventListener('paste', (event) => {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!isTable(text)) return;
    event.preventDefault();
    writing.onTable(text);
  });
  host.append(field);
  return {
    text: () => field.value,
    replace: (text) => {
      field.value = text;
      field.select();
    },
    showMistakes: (mistakes) => field.setAttribute('aria-invalid', String(mistakes.length > 0)),
    focus: () => {
      field.focus();
      if (writing.selectAll) field.select();
      else field.setSelectionRange(field.value.length, field.value.length);
      if (writing.text !== writing.page.text(writing.place)) read();
    },
    destroy: () => field.remove(),
  };
};

/** The keys that end the writing or move the value. True when the key was one of them. */
export function hearKey(event: KeyboardEvent, writing: Writing): boolean {
  if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key === 'Enter') writing.onEnter();
  else if (event.key === 'Escape') writing.onEscape();
  else if (event.key === 'Tab') writing.onTab(event.shiftKey ? -1 : 1);
  else if (event.key === 'ArrowUp') return writing.onArrow(event.shiftKey ? 10 : 1);
  else if (event.key === 'ArrowDown') return writing.onArrow(event.shiftKey ? -10 : -1);
  else return false;
  return true;
}

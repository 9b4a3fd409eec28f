/* The second editor: CodeMirror with the JavaScript language, which reads the notebook's file. */
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { javascriptLanguage } from '@codemirror/lang-javascript';
import { bracketMatching, LanguageSupport, syntaxHighlighting } from '@codemirror/language';
import { EditorState, StateEffect, StateField } from '@codemirror/state';
import {
  Decoration,
  type DecorationSet,
  drawSelection,
  EditorView,
  highlightActiveLine,
  keymap,
  lineNumbers,
} from '@codemirror/view';
import { classHighlighter } from '@lezer/highlight';
import type { Mistake } from '../../session/index.ts';

export interface FileEvents {
  /** What is wrong in a text. */
  readonly check: (text: string) => readonly Mistake[];
  readonly onChecked: (mistakes: readonly Mistake[]) => void;
  readonly onText: (text: string) => void;
  readonly onSave: () => void;
}

export interface FileEditor {
  text(): string;
  /** Goes to where a mistake stands. */
  show(mistake: Mistake): void;
  focus(): void;
  destroy(): void;
}

/** So long after the last key the whole file is checked. */
const settleMs = 150;

/** The file is one expression of the language. */
const json = new LanguageSupport(javascriptLanguage.configure({ top: 'SingleExpression' }));

/** Mounts the editor of a file. */
export function makeFileEditor(host: HTMLElement, text: string, events: FileEvents): FileEditor {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const check = (view: EditorView) => {
    const mistakes = events.check(view.state.doc.toString());
    view.dispatch({ effects: setMistakes.of(mistakes) });
    events.onChecked(mistakes);
  };
  const telling = EditorView.updateListener.of((update) => {
    if (!update.docChanged) return;
    events.onText(update.state.doc.toString());
    clearTimeout(timer);
    timer = setTimeout(() => check(update.view), settleMs);
  });
  const save = () => {
    events.onSave();
    return true;
  };
  const saving = keymap.of([{ key: 'Mod-s', run: save, preventDefault: true }]);
  const view = new EditorView({
    parent: host,
    state: EditorState.create({
      doc: text,
      extensions: [
        saving,
        lineNumbers(),
        history(),
        drawSelection(),
        highlightActiveLine(),
        bracketMatching(),
        keymap.of([...defaultKeymap, ...historyKeymap]),
        json,
        syntaxHighlighting(classHighlighter),
        EditorView.lineWrapping,
        mistakeField,
        telling,
        EditorView.contentAttributes.of({ 'aria-label': 'this notebook’s file' }),
      ],
    }),
  });
  return {
    text: () => view.state.doc.toString(),
    show: ({ from, to }) => {
      const end = Math.min(to, view.state.doc.length);
      view.dispatch({ selection: { anchor: Math.min(from, end), head: end }, scrollIntoView: true });
      view.focus();
    },
    focus: () => view.focus(),
    destroy: () => {
      clearTimeout(timer);
      view.destroy();
    },
  };
}

const setMistakes = StateEffect.define<readonly Mistake[]>();

const mistakeField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(old, change) {
    for (const effect of change.effects) {
      if (effect.is(setMistakes)) return underlined(effect.value, change.newDoc.length);
    }
    return old.map(change.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});

function underlined(mistakes: readonly Mistake[], length: number): DecorationSet {
  const marks = mistakes.flatMap(({ from, to }) => {
    const start = Math.min(Math.max(from, 0), Math.max(length - 1, 0));
    const end = Math.min(Math.max(to, start + 1), length);
    return end > start ? [Decoration.mark({ class: 't-mistake' }).range(start, end)] : [];
  });
  return Decoration.set(marks, true);
}

/*
 * The formula editor: CodeMirror with our own colours, since knitting text (`42"`, `18 st / 4 in`) is no programming
 * language. The session says what each piece is, what would complete it, and where a mistake stands.
 */
import {
  acceptCompletion,
  autocompletion,
  type Completion as CodeCompletion,
  type CompletionContext,
  type CompletionResult,
  completionKeymap,
  completionStatus,
  moveCompletionSelection,
  selectedCompletion,
} from '@codemirror/autocomplete';
import { history, historyKeymap, standardKeymap } from '@codemirror/commands';
import { EditorState, type Extension, Prec, type Range, StateEffect, StateField } from '@codemirror/state';
import { Decoration, type DecorationSet, EditorView, keymap, tooltips, ViewPlugin } from '@codemirror/view';
import type { Completion, Mistake } from '../../session/index.ts';
import './formula-editor.css';
import { hearKey, isTable, type MakeEditor, type Writing } from './text-editor.ts';

/** Mounts the editor in an element. */
export const makeFormulaEditor: MakeEditor = (host, writing) => {
  const offered = document.body.appendChild(document.createElement('div'));
  const view = new EditorView({
    parent: host,
    state: EditorState.create({ doc: writing.text, extensions: extensionsFor(writing, offered) }),
  });
  const showMistakes = (mistakes: readonly Mistake[]) => {
    view.contentDOM.setAttribute('aria-invalid', String(mistakes.length > 0));
    view.dispatch({ effects: setMistakes.of(mistakes) });
  };
  return {
    text: () => view.state.doc.toString(),
    replace: (text) => {
      view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: text } });
      view.dispatch({ selection: { anchor: 0, head: text.length } });
    },
    showMistakes,
    focus: () => {
      const end = view.state.doc.length;
      // What is drawn anew under the caret of a page that was clicked would take it to the beginning: so this comes first.
      if (writing.text !== writing.page.text(writing.place)) showMistakes(writing.onText(writing.text));
      view.focus();
      view.dispatch({ selection: { anchor: writing.selectAll ? 0 : end, head: end } });
      writing.onHelp(writing.page.callHelp(writing.text, end));
    },
    destroy: () => {
      view.destroy();
      offered.remove();
    },
  };
};

/** What is offered while one writes stands in an element of its own, over the page. */
function extensionsFor(writing: Writing, offered: HTMLElement): readonly Extension[] {
  return [
    Prec.highest(keysFor(writing)),
    history(),
    keymap.of([...historyKeymap, ...standardKeymap]),
    completionFor(writing),
    tooltips({ parent: offered }),
    writing.wraps ? EditorView.lineWrapping : [],
    oneLine,
    pasteFor(writing),
    colouredBy(writing),
    mistakeField,
    tellingOf(writing),
    belowWhatIsTold(offered),
    EditorView.contentAttributes.of({
      'aria-label': writing.label,
      'aria-describedby': writing.describedBy,
      autocapitalize: 'off',
    }),
  ];
}

/** Enter and Tab take a completion that is being looked at; else they, Esc and the arrows do what they do in a cell. */
function keysFor(writing: Writing): Extension {
  return EditorView.domEventHandlers({
    keydown: (event, view) => {
      const isOpen = completionStatus(view.state) === 'active';
      const isChosen = isOpen && selectedCompletion(view.state) !== null;
      if (isOpen && event.key === 'Tab' && !event.shiftKey) return takeFirst(view);
      if (isOpen && ['ArrowUp', 'ArrowDown', 'Escape'].includes(event.key)) return false;
      if (isChosen && event.key === 'Enter') return false;
      return hearKey(event, writing);
    },
  });
}

function takeFirst(view: EditorView): boolean {
  if (selectedCompletion(view.state) === null) moveCompletionSelection(true)(view);
  return acceptCompletion(view);
}

/** A text is one line: line breaks become spaces. */
const oneLine = EditorState.transactionFilter.of((change) => {
  if (!change.docChanged || change.newDoc.lines === 1) return change;
  const text = change.newDoc.toString().replace(/\s*\n\s*/g, ' ');
  return {
    changes: { from: 0, to: change.startState.doc.length, insert: text },
    selection: { anchor: text.length },
  };
});

function pasteFor(writing: Writing): Extension {
  return EditorView.domEventHandlers({
    paste: (event) => {
      const text = event.clipboardData?.getData('text/plain') ?? '';
      if (!isTable(text)) return false;
      event.preventDefault();
      writing.onTable(text);
      return true;
    },
  });
}

function completionFor(writing: Writing): Extension {
  const source = (context: CompletionContext): CompletionResult | null => {
    const text = context.state.doc.toString();
    const { from, options } = writing.page.complete(writing.place, text, context.pos);
    const word = text.slice(from, context.pos);
    if (options.length === 0 || (word === '' && !context.explicit)) return null;
    if (!context.explicit && options.some((option) => option.insert === word)) return null;
    return { from, options: options.map(toCodeCompletion), filter: false };
  };
  return [
    autocompletion({
      override: [source],
      icons: false,
      selectOnOpen: false,
      interactionDelay: 0,
      activateOnTypingDelay: 50,
      addToOptions: [{ render: helpOf, position: 80 }],
    }),
    keymap.of(completionKeymap),
  ];
}

interface HelpfulCompletion extends CodeCompletion {
  readonly help: string;
}

function toCodeCompletion(option: Completion): HelpfulCompletion {
  const isFunction = option.insert.endsWith('(') || option.insert.endsWith('()');
  const apply = isFunction
    ? (view: EditorView, _: CodeCompletion, from: number, to: number) => {
        const insert = option.insert.endsWith('()') ? option.insert.slice(0, -1) : option.insert;
        view.dispatch({ changes: { from, to, insert }, selection: { anchor: from + insert.length } });
      }
    : option.insert;
  return { label: option.label, apply, type: option.kind, help: option.help };
}

function helpOf(completion: CodeCompletion): Node {
  const line = document.createElement('span');
  line.className = 'completion-help';
  line.textContent = 'help' in completion ? String(completion.help) : '';
  return line;
}

/** Colours the text by what the session says each piece is. */
function colouredBy(writing: Writing): Extension {
  const colour = (view: EditorView): DecorationSet => {
    const text = view.state.doc.toString();
    const marks: Range<Decoration>[] = [];
    for (const { from, to, kind } of writing.page.tokens(text)) {
      if (to > from && to <= text.length) marks.push(Decoration.mark({ class: `t-${kind}` }).range(from, to));
    }
    return Decoration.set(marks, true);
  };
  return ViewPlugin.fromClass(
    class {
      set: DecorationSet;
      constructor(view: EditorView) {
        this.set = colour(view);
      }
      update(update: { readonly docChanged: boolean; readonly view: EditorView }) {
        if (update.docChanged) this.set = colour(update.view);
      }
    },
    { decorations: (plugin) => plugin.set },
  );
}

const setMistakes = StateEffect.define<readonly Mistake[]>();

/** Where mistakes stand, underlined until the text changes. */
const mistakeField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(old, change) {
    for (const effect of change.effects)
      if (effect.is(setMistakes)) return underlined(effect.value, change.newDoc.length);
    return change.docChanged ? old.map(change.changes) : old;
  },
  provide: (field) => EditorView.decorations.from(field),
});

function underlined(mistakes: readonly Mistake[], length: number): DecorationSet {
  const marks = mistakes.flatMap(({ from, to }) => {
    const end = Math.min(Math.max(to, from + 1), length);
    const start = Math.min(from, Math.max(end - 1, 0));
    return end > start ? [Decoration.mark({ class: 't-mistake' }).range(start, end)] : [];
  });
  return Decoration.set(marks, true);
}

/** Tells each text as it is written, underlines what is wrong in it, and says which function the caret is in. */
function tellingOf(writing: Writing): Extension {
  return EditorView.updateListener.of((update) => {
    if (!update.docChanged && !update.selectionSet) return;
    const text = update.state.doc.toString();
    if (update.docChanged) {
      const mistakes = writing.onText(text);
      update.view.contentDOM.setAttribute('aria-invalid', String(mistakes.length > 0));
      // Not within the update, and not once the editor has gone.
      queueMicrotask(() => {
        if (update.view.dom.isConnected) update.view.dispatch({ effects: setMistakes.of(mistakes) });
      });
    }
    writing.onHelp(writing.page.callHelp(text, update.state.selection.main.head));
  });
}

/**
 * What is offered hangs below the sentence under the line: of that nothing is covered. How far, is known where it hangs
 * alone: known to the whole page it would have every row of a long sheet styled anew.
 */
const belowWhatIsTold = (offered: HTMLElement): Extension =>
  EditorView.updateListener.of(({ view }) => {
    view.requestMeasure({
      key: 'told',
      read: () =>
        view.dom.closest('.editor')?.querySelector<HTMLElement>('.editor-hint:not(:empty)')?.offsetHeight ??
        0,
      write: (height) => offered.style.setProperty('--told', `${height}px`),
    });
  });

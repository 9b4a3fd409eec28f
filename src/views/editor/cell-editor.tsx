/*
 * The one editor of the sheet, on the cell where she stands. A plain field serves until CodeMirror has come (it is
 * fetched after the first paint); from the next opening on it is CodeMirror. Both tell the same few things.
 * While she writes, the page shows what the last readable text would do; Enter keeps it, Esc leaves all as it was. What is
 * wrong with a text is told when she pauses: half a word is no mistake.
 */
import { createSignal, createUniqueId, For, onCleanup, onMount, Show } from 'solid-js';
import type { CallHelp, Mistake, Place, RowView } from '../../session/index.ts';
import { type Desk, useDesk } from '../desk.ts';
import { nudge, writeValue } from '../grid/row-actions.ts';
import { formulaEditor, keepBefore } from './lazy.ts';
import { makePlainEditor, type TextEditor, type Writing } from './text-editor.ts';

/** So long she pauses before a mistake is told; one that stands told is told anew at every key. */
const PAUSE_MS = 800;

/** Another tab wrote here while this one was writing: the later stands, and undo gives the other back. */
function tellOverwritten(desk: Desk, theirs: string): void {
  const what = theirs === '' ? 'emptied it' : `wrote “${theirs}” here`;
  const sentence = `Another tab ${what} while you were writing; yours stands now.`;
  desk.tell({ sentence, canUndo: true });
  desk.notebook.say(`${sentence} Undo gives the other back.`);
}

/** The editor for a row's text at the column where she stands. */
export function CellEditor(props: { readonly row: RowView }) {
  const desk = useDesk();
  const { page } = desk.notebook;
  const { id } = props.row;
  const editing = desk.editing();
  const place: Place = { cell: id, column: editing?.column ?? null };
  const stored = page.text(place);
  const [mistakes, setMistakes] = createSignal<readonly Mistake[]>([]);
  const [help, setHelp] = createSignal<CallHelp>();
  const isTyped = editing?.inPlace === true;
  const hintId = createUniqueId();
  let host!: HTMLDivElement;
  let editor: TextEditor | undefined;
  let isOver = false;
  let arrowSteps = 0;
  let pause: ReturnType<typeof setTimeout> | undefined;
  /** What stood in the cell as the editor was given its text; another tab may change it meanwhile. */
  let given = stored;

  const tell = (found: readonly Mistake[]) => {
    clearTimeout(pause);
    setMistakes(found);
    editor?.showMistakes(found);
  };
  const leave = (focus: boolean) => {
    isOver = true;
    page.preview(place, null);
    desk.leave(focus);
  };
  const cancel = () => {
    leave(true);
    for (; arrowSteps > 0; arrowSteps -= 1) page.undo();
    page.unadd(id);
  };
  const commit = (focus: boolean): boolean => {
    if (isOver) return true;
    const text = editor?.text() ?? given;
    page.preview(place, null);
    const now = page.text(place);
    if (text !== given && text !== now) {
      const isTakenOut = text.trim() === '' && !isTyped && editing?.start === undefined;
      const outcome = page.type(isTakenOut ? { cell: id, column: null } : place, text, { unread: !focus });
      if (!outcome.done && focus) {
        const [from, to] = outcome.at ?? [0, text.length];
        tell([{ from, to, sentence: outcome.sentence }]);
        desk.notebook.say(outcome.sentence);
        return false;
      }
      if (desk.heed(outcome) && now !== given) tellOverwritten(desk, now);
    }
    leave(focus);
    return true;
  };
  /** Tab keeps this value and goes on to the next column's. */
  const goOn = (direction: -1 | 1) => {
    const part = desk.stand().part + direction;
    const last = props.row.each && props.row.typed ? desk.columnCount() : 1;
    if (!commit(true)) return;
    if (part >= 1 && part <= last) writeValue(desk, id, part);
    else desk.standAt({ row: `k:${id}`, part: Math.max(0, part) }, true);
  };
  /** Arrows move an opened value by its steps: ten with Shift. */
  const arrow = (steps: number): boolean => {
    if (!props.row.nudges || !editor) return false;
    if (editor.text() !== page.text(place) && !page.type(place, editor.text()).done) return true;
    page.preview(place, null);
    nudge(desk, id, steps);
    arrowSteps += 1;
    given = page.text(place);
    editor.replace(given);
    return true;
  };
  const writing: Writing = {
    page,
    place,
    label: `${props.row.name}, ${isTyped ? 'what you type' : 'how it’s worked out'}`,
    describedBy: hintId,
    text: editing?.start ?? stored,
    selectAll: editing?.start === undefined && editing?.inPlace === true,
    wraps: editing?.inPlace !== true,
    onText: (text) => {
      const found = page.preview(place, text);
      clearTimeout(pause);
      if (found.length > 0 && mistakes().length === 0) pause = setTimeout(tell, PAUSE_MS, found);
      else setMistakes(found);
      return mistakes();
    },
    onHelp: setHelp,
    onEnter: () => void commit(true),
    onEscape: cancel,
    onTab: goOn,
    onArrow: arrow,
    onTable: (table) => {
      leave(true);
      desk.heed(page.paste(place, table));
    },
  };

  onMount(() => {
    editor = (formulaEditor() ?? makePlainEditor)(host, writing);
    editor.focus();
    onCleanup(keepBefore(host, () => void commit(false), writing, editor, stored));
  });
  onCleanup(() => {
    clearTimeout(pause);
    editor?.destroy();
  });
  return (
    <div
      class="editor"
      onKeyDown={(event) => event.stopPropagation()}
      onFocusOut={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null) && document.hasFocus())
          commit(false);
      }}
    >
      <div ref={host} class="editor-field" classList={{ mistaken: mistakes().length > 0 }} />
      <div id={hintId} class="editor-hint">
        <Show when={help()}>{(call) => <Help call={call()} />}</Show>
        <Show when={mistakes()[0]}>{(mistake) => <p class="mistake">{mistake().sentence}</p>}</Show>
      </div>
    </div>
  );
}

/** The function whose brackets the caret is in: its arguments, the one being written in bold, and a line of help. */
function Help(props: { readonly call: CallHelp }) {
  const current = () => props.call.parameters[props.call.at];
  return (
    <p class="call-help">
      <span class="call">
        {props.call.name}(
        <For each={props.call.parameters}>
          {(parameter, index) => (
            <>
              {index() > 0 ? ', ' : ''}
              <span classList={{ parameter: true, now: index() === props.call.at }}>
                {parameter.optional ? `[${parameter.name}]` : parameter.name}
              </span>
            </>
          )}
        </For>
        )
      </span>{' '}
      {current()?.help || props.call.help}
    </p>
  );
}

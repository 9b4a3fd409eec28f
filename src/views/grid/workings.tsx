import { createMemo, For, Show } from 'solid-js';
import { useDesk } from '../desk.ts';
import { Words } from '../words.tsx';
import { createDrawingOn } from './drawing-on.ts';
import { askWhatWouldChange } from './row-actions.ts';
import { useSheet } from './sheet-context.ts';
import './workings.css';

/** How a value came to be, unfolded under its row: the names, the numbers, the result, and what rounding cost. */
export function Workings(props: { readonly id: string }) {
  const desk = useDesk();
  const sheet = useSheet();
  const column = createMemo(() => {
    const row = desk.notebook.row(props.id);
    if (!row.each) return undefined;
    const part = desk.isStandingIn(`k:${props.id}`) ? desk.stand().part - 1 : sheet.chosenIndex();
    return sheet.columns()[part] ?? sheet.columns()[sheet.chosenIndex()] ?? sheet.columns()[0];
  });
  const workings = createMemo(() => {
    desk.notebook.row(props.id); // Told anew when the row is.
    return desk.notebook.page.workings(props.id, column()?.id ?? null);
  });
  return (
    <div role="gridcell" class="workings">
      <Show when={column()}>{(one) => <p class="workings-of">{one().label}</p>}</Show>
      <Show when={desk.notebook.row(props.id).note}>
        {(note) => (
          <p class="remark">
            <Words text={note()} />
          </p>
        )}
      </Show>
      <dl>
        <For each={workings().lines}>
          {(line) => (
            <div class="line">
              <dt>{line.label}</dt>
              <dd>
                <Words text={line.text} />
              </dd>
            </div>
          )}
        </For>
      </dl>
      <For each={workings().roundings}>
        {(rounding) => (
          <p class="rounding">
            <Words text={rounding} />
          </p>
        )}
      </For>
      <Show when={workings().plan.length > 0}>
        <ol class="plan">
          <For each={workings().plan}>{(line) => <li>{line}</li>}</For>
        </ol>
      </Show>
      <For each={workings().remarks}>{(remark) => <p class="remark">{remark}</p>}</For>
      <Names label="from" ids={workings().uses} />
      <Names label="moves" ids={workings().feeds} />
      <Show when={!desk.notebook.row(props.id).typed}>
        <p>
          <button
            type="button"
            tabindex="-1"
            class="link ask-back"
            onClick={() => askWhatWouldChange(desk, props.id)}
          >
            what would have to change for another outcome?
          </button>
        </p>
      </Show>
    </div>
  );
}

/** A cell may move hundreds: the first of them come with the workings, the rest in the frames after. */
const NAMES = { first: 36, atATime: 48 };

/** The cells a value comes from, or those that it moves, each a step away. */
function Names(props: { readonly label: string; readonly ids: readonly string[] }) {
  const desk = useDesk();
  const { drawn } = createDrawingOn(() => props.ids.length, NAMES);
  return (
    <Show when={props.ids.length > 0}>
      <p class="names">
        <span class="names-label">{props.label}</span>
        <For each={props.ids.slice(0, drawn())}>
          {(id) => (
            <button
              type="button"
              tabindex="-1"
              class="link"
              onClick={() => desk.standAt({ row: `k:${id}`, part: Math.max(desk.stand().part, 1) }, true)}
            >
              {desk.notebook.face(id).name}
            </button>
          )}
        </For>
      </p>
    </Show>
  );
}

import { createMemo, For, Show, Suspense } from 'solid-js';
import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { InlineText } from '../inline-text.tsx';
import { WorkBack, Workings } from '../later.ts';
import { Words } from '../words.tsx';
import { CellTools } from './cell-tools.tsx';
import { ChosenValue } from './chosen-value.tsx';
import { EachValues } from './each-values.tsx';
import { HowCell } from './how-cell.tsx';
import { renameCell } from './row-actions.ts';
import { sentencesOf } from './sentences.ts';
import { useSheet } from './sheet-context.ts';
import { SingleValue } from './single-value.tsx';

export interface CellRowProps {
  readonly id: string;
  /** Out of sight: then it wears no marks of what the cell where she stands feeds and uses. */
  readonly isFar: boolean;
}

/** One cell of the notebook as a row: its name, its value or values, how it is worked out. */
export function CellRow(props: CellRowProps) {
  const desk = useDesk();
  const key = () => `k:${props.id}`;
  const row = () => desk.notebook.row(props.id);
  const face = () => desk.notebook.face(props.id);
  // The cells stay while one of them is being written in, whatever the row would become.
  const each = createMemo((old: boolean) => {
    const isHeld = desk.isEditing('text', props.id) && desk.editing()?.inPlace === true;
    return isHeld ? old : face().each;
  }, face().each);
  return (
    <div
      ref={(element) => desk.register(key(), element)}
      role="row"
      class="row"
      data-row={key()}
      classList={{
        typed: face().typed,
        each: each(),
        tried: face().tried,
        standing: desk.isStandingIn(key()),
        fed: !props.isFar && desk.fed.has(props.id),
        used: !props.isFar && desk.used.has(props.id),
        marked: desk.marked.has(props.id),
      }}
    >
      <NameCell row={face()} />
      <Show when={each() && desk.phone()}>
        <ChosenValue row={row()} />
      </Show>
      <div class="vals">
        <Show when={each()} fallback={<SingleValue row={row()} />}>
          <EachValues row={row()} />
        </Show>
      </div>
      <HowCell row={face()} />
      <Sentences row={face()} />
      <Show when={desk.isStandingIn(key())}>
        <CellTools row={row()} />
      </Show>
      <Show when={desk.open.has(props.id)}>
        <Suspense>
          <Workings id={props.id} />
        </Suspense>
      </Show>
      <Show when={desk.isAskedBack(props.id)}>
        <Suspense>
          <WorkBack id={props.id} />
        </Suspense>
      </Show>
    </div>
  );
}

function NameCell(props: { readonly row: RowView }) {
  const desk = useDesk();
  return (
    <div role="rowheader" tabindex="-1" data-part="0" class="name">
      <Show
        when={desk.isEditing('name', props.row.id)}
        fallback={
          <>
            <span class="nm">{props.row.name}</span>
            <Show when={props.row.unit}>
              {' '}
              <span class="u">{props.row.unit}</span>
            </Show>
          </>
        }
      >
        <InlineText
          label={`a name for ${props.row.name}`}
          text={desk.editing()?.start ?? props.row.name}
          atEnd={desk.editing()?.start !== undefined}
          onCommit={(name, by) => renameCell(desk, props.row.id, name, by)}
          onCancel={() => {
            desk.leave();
            desk.notebook.page.unadd(props.row.id);
          }}
        />
      </Show>
    </div>
  );
}

/** What a row with many values has to say, and the cautions that stand beside it. */
function Sentences(props: { readonly row: RowView }) {
  const sheet = useSheet();
  const sentences = createMemo(() => sentencesOf(props.row, sheet.columns(), sheet.chosenIndex()));
  return (
    <Show when={sentences().length > 0 || props.row.cautions.length > 0}>
      <div role="gridcell" class="sentences">
        <For each={sentences()}>
          {(one) => (
            <p class={one.tone}>
              <Words text={one.text} />
            </p>
          )}
        </For>
        <For each={props.row.cautions}>{(caution) => <p class="caution">{caution}</p>}</For>
      </div>
    </Show>
  );
}

import { createMemo, Show } from 'solid-js';
import type { RowView, ValueView } from '../../session/index.ts';
import { StitchMark, ToneMark } from '../stitch-mark.tsx';
import { Words } from '../words.tsx';

const nothing: ValueView = {
  kind: 'empty',
  text: '',
  unit: '',
  tolerance: '',
  decided: false,
  pinned: false,
  says: '',
  tone: 'plain',
  spoken: 'empty',
};

/** The one value of a row, with its unit, its mark and the sentence beside it. */
export function SingleValue(props: { readonly row: RowView }) {
  const value = createMemo(() => props.row.values[0] ?? nothing);
  return (
    <div role="gridcell" tabindex="-1" data-part="1" class={`v wide ${value().kind} ${value().tone}`}>
      <div class="pill">
        <span class="n">{value().text}</span>
        <span class="u">{value().unit && ` ${value().unit}`}</span>
      </div>
      <Show when={value().decided && !props.row.typed}>
        <StitchMark />
      </Show>
      <Show when={value().tolerance}>
        {' '}
        <span class="tolerance">{value().tolerance}</span>
      </Show>
      <Show when={value().pinned}>
        {' '}
        <span class="pin">on the needles</span>
      </Show>
      <Show when={value().old}>{(old) => <Old old={old()} />}</Show>
      <Show when={value().says}>
        {' '}
        <span class="says">
          <ToneMark tone={value().tone} />
          <Words text={value().says} />
        </span>
      </Show>
    </div>
  );
}

function Old(props: { readonly old: { readonly text: string; readonly difference: string } }) {
  return (
    <span class="old">
      {' '}
      <span class="was">was {props.old.text}</span>
      <Show when={props.old.difference}>
        {' '}
        <span class="d">{props.old.difference}</span>
      </Show>
    </span>
  );
}

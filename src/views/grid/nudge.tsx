import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { nudge } from './row-actions.ts';

/** − and + around the value where she stands. With Shift ten steps. */
export function Nudge(props: { readonly row: RowView }) {
  return (
    <>
      <Step row={props.row} steps={-1} sign="−" word="less" />
      <Step row={props.row} steps={1} sign="+" word="more" />
    </>
  );
}

interface StepProps {
  readonly row: RowView;
  readonly steps: -1 | 1;
  readonly sign: string;
  readonly word: string;
}

function Step(props: StepProps) {
  const desk = useDesk();
  return (
    <button
      type="button"
      tabindex="-1"
      class={`step ${props.word}`}
      aria-label={props.word}
      onPointerDown={(event) => event.preventDefault() /* the keyboard stays where it is */}
      onClick={(event) => nudge(desk, props.row.id, event.shiftKey ? props.steps * 10 : props.steps)}
    >
      {props.sign}
    </button>
  );
}

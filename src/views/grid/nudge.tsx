import { onCleanup } from 'solid-js';
import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { nudge } from './row-actions.ts';

/**
 * − and + around a value. With Shift ten steps; held down they go on. `onPress` comes first: beside a value that is
 * only pointed at it goes there, and says whether the press was meant.
 */
export function Nudge(props: { readonly row: RowView; readonly onPress?: () => boolean }) {
  const press = () => props.onPress?.() ?? true;
  return (
    <>
      <Step row={props.row} onPress={press} steps={-1} sign="−" word="less" />
      <Step row={props.row} onPress={press} steps={1} sign="+" word="more" />
    </>
  );
}

interface StepProps {
  readonly row: RowView;
  readonly onPress: () => boolean;
  readonly steps: -1 | 1;
  readonly sign: string;
  readonly word: string;
}

function Step(props: StepProps) {
  const desk = useDesk();
  const hold = makeHold(() => take(props.steps));
  const take = (steps: number) => {
    const { id } = props.row;
    if (props.onPress()) nudge(desk, id, steps);
  };
  onCleanup(hold.stop);
  return (
    <button
      type="button"
      tabindex="-1"
      class={`step ${props.word}`}
      aria-label={props.word}
      onPointerDown={(event) => {
        event.preventDefault(); // The keyboard stays where it is.
        hold.start();
      }}
      onPointerUp={hold.stop}
      onPointerLeave={hold.stop}
      onPointerCancel={hold.stop}
      onClick={(event) => {
        if (!hold.wasHeld()) take(event.shiftKey ? props.steps * 10 : props.steps);
      }}
    >
      {props.sign}
    </button>
  );
}

/** So long a button is held before it goes on by itself, and then at this pace. */
const holdMs = 450;
const paceMs = 90;

/** Repeats something while a button is held down. */
function makeHold(step: () => void) {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let steps = 0;
  const goOn = () => {
    steps += 1;
    step();
    timer = setTimeout(goOn, paceMs);
  };
  return {
    start: () => {
      steps = 0;
      clearTimeout(timer);
      timer = setTimeout(goOn, holdMs);
    },
    stop: () => clearTimeout(timer),
    /** True when the last press went on by itself, so that its click adds nothing. */
    wasHeld: () => steps > 0,
  };
}

import { Show } from 'solid-js';
import type { Place } from '../../session/index.ts';
import { useDesk } from '../desk.ts';

export interface ToleranceProps {
  readonly place: Place;
  /** Of what: "stitch gauge". */
  readonly name: string;
  /** "± ½" and "sts / 4 in". */
  readonly tolerance: string;
  readonly unit: string;
  /** The tolerance as a number in that unit. */
  readonly off: number;
}

/** How far off a typed value is said to be, moved by its − and +, or by the arrow keys. */
export function Tolerance(props: ToleranceProps) {
  const desk = useDesk();
  const canMove = () => !desk.notebook.view().readOnly;
  const move = (steps: number) => desk.heed(desk.notebook.page.nudgeTolerance(props.place, steps));
  const hearKey = (event: KeyboardEvent) => {
    const steps = STEPS[event.key];
    if (steps === undefined) return;
    event.preventDefault();
    move(steps);
  };
  return (
    <Show when={canMove()} fallback={<span class="doubt-tolerance">{props.tolerance}</span>}>
      <span class="doubt-spin">
        <span
          role="spinbutton"
          tabindex="0"
          class="doubt-tolerance"
          aria-label={`how far off ${props.name} is`}
          aria-valuetext={`${props.tolerance} ${props.unit}`.trim()}
          aria-valuenow={props.off}
          onKeyDown={hearKey}
        >
          {props.tolerance}
        </span>
        <button
          type="button"
          tabindex="-1"
          class="doubt-step"
          aria-label={`surer of ${props.name}`}
          onClick={() => move(-1)}
        >
          −
        </button>
        <button
          type="button"
          tabindex="-1"
          class="doubt-step"
          aria-label={`less sure of ${props.name}`}
          onClick={() => move(1)}
        >
          +
        </button>
      </span>
    </Show>
  );
}

const STEPS: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowRight: 1,
  '+': 1,
  ArrowDown: -1,
  ArrowLeft: -1,
  '-': -1,
  '−': -1,
};

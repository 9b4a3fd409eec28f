/* One text of a drawing: plain words, or a button that finds the cell it comes from. */
import { Show } from 'solid-js';
import { type LaidText, n2 } from '../../drawing/index.ts';

export interface DrawingTextProps {
  readonly text: LaidText;
  readonly picked?: boolean;
  /** True for the one text of the drawing that the Tab key comes to. */
  readonly isStop?: boolean;
  readonly onFocus?: () => void;
  readonly onSelect?: ((cell: string) => void) | undefined;
}

/** A text at its place; a button where it names a cell and something is asked when it is chosen. */
export function DrawingText(props: DrawingTextProps) {
  const choose = () => {
    const { cell } = props.text;
    if (cell !== undefined) props.onSelect?.(cell);
  };
  return (
    <Show when={props.onSelect} fallback={<Words text={props.text} picked={props.picked ?? false} />}>
      <g
        class="drawing-button"
        role="button"
        tabindex={props.isStop ? 0 : -1}
        aria-pressed={props.picked ?? false}
        aria-label={spoken(props.text)}
        onFocus={() => props.onFocus?.()}
        onClick={choose}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' && event.key !== ' ') return;
          event.preventDefault();
          choose();
        }}
      >
        <rect
          class="drawing-touch"
          x={n2(props.text.box.x - 3)}
          y={n2(props.text.box.y)}
          width={n2(props.text.box.width + 6)}
          height={n2(props.text.box.height)}
          rx="5"
        />
        <Words text={props.text} picked={props.picked ?? false} />
      </g>
    </Show>
  );
}

function spoken({ before, text, after }: LaidText): string {
  return [before, text, after].filter(Boolean).join(' ');
}

function Words(props: { readonly text: LaidText; readonly picked: boolean }) {
  return (
    <text
      class={`drawing-text ${props.text.role}`}
      classList={{ picked: props.picked }}
      x={n2(props.text.x)}
      y={n2(props.text.y)}
      font-size={n2(props.text.sizePx)}
      text-anchor={props.text.anchor}
    >
      <Show when={props.text.before}>
        <tspan class="around">{`${props.text.before} `}</tspan>
      </Show>
      <tspan class="value">{props.text.text}</tspan>
      <Show when={props.text.after}>
        <tspan class="around">{` ${props.text.after}`}</tspan>
      </Show>
    </text>
  );
}

/*
 * A drawing on the page. It is laid out for the width it is given and again whenever that changes. Every text that
 * comes from a cell is a button; the Tab key comes to one of them, the arrows go on from there. The lines are for the
 * eye alone: the same facts stand as sentences in the caption, for whoever hears the page.
 */
import './drawing.css';
import {
  createEffect,
  createMemo,
  createSignal,
  createUniqueId,
  For,
  Index,
  onCleanup,
  onMount,
  Show,
} from 'solid-js';
import { type LaidPath, type LaidText, layOut, looks, n2, type Picture } from '../../drawing/index.ts';
import { DrawingText } from './drawing-text.tsx';

export interface DrawingProps {
  readonly picture: Picture;
  /** What it shows is not knitted now: after other drawings it is not seen. */
  readonly laidAside?: boolean;
  /** The id of the cell that is looked at on the sheet; its texts and lines are marked. */
  readonly selected?: string | undefined;
  /** Asked when a text is chosen, with the id of the cell it shows. Without it nothing is a button. */
  readonly onSelect?: ((cell: string) => void) | undefined;
  /** Lays it out for this width, in pixels, whatever the page is: for print. */
  readonly widthPx?: number | undefined;
}

/** What a drawing is laid out for until its width is known: a side panel. */
const USUAL_WIDTH_PX = 340;

/** A drawing to scale, its texts selectable, its words in the caption. */
export function Drawing(props: DrawingProps) {
  const caption = createUniqueId();
  let figure: HTMLElement | undefined;
  const measured = createWidth(() => figure);
  const laid = createMemo(() => layOut(props.picture, props.widthPx ?? measured()));
  const labels = createMemo(() => laid().texts.filter((text) => text.role === 'label'));
  const others = createMemo(() => laid().texts.filter((text) => text.role !== 'label'));
  const [stop, setStop] = createSignal(0);
  createEffect(() => setStop((old) => Math.min(old, Math.max(0, labels().length - 1))));

  return (
    <figure class="drawing" classList={{ 'laid-aside': props.laidAside === true }} ref={figure}>
      <Show when={props.picture.block}>
        <svg
          viewBox={`0 0 ${n2(laid().widthPx)} ${n2(laid().heightPx)}`}
          role="group"
          aria-label={props.picture.title}
          aria-describedby={caption}
          onKeyDown={(event) => walk(event, stop(), labels().length)}
        >
          {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines cannot be focused. */}
          <g aria-hidden="true">
            <Index each={laid().paths}>
              {(path) => <DrawnPath path={path()} picked={isPicked(path(), props.selected)} />}
            </Index>
            <Index each={others()}>{(text) => <DrawingText text={text()} />}</Index>
          </g>
          <Index each={labels()}>
            {(text, k) => (
              <DrawingText
                text={text()}
                picked={isPicked(text(), props.selected)}
                isStop={k === stop()}
                onFocus={() => setStop(k)}
                onSelect={props.onSelect}
              />
            )}
          </Index>
        </svg>
      </Show>
      <figcaption id={caption} class="hidden">
        {props.picture.describe.join(' ')}
      </figcaption>
      <Show when={props.picture.leftOut.length > 0}>
        <ul class="drawing-left-out">
          <For each={props.picture.leftOut}>{(sentence) => <li>{sentence}</li>}</For>
        </ul>
      </Show>
    </figure>
  );
}

function isPicked({ cell }: LaidPath | LaidText, selected: string | undefined): boolean {
  return cell !== undefined && cell === selected;
}

/** How much larger the page's letters are than usual: a drawing is laid out for less, and shown larger by as much. */
function textScale(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
}

/** The width of an element, followed as it changes. */
function createWidth(element: () => HTMLElement | undefined): () => number {
  const [width, setWidth] = createSignal(USUAL_WIDTH_PX);
  onMount(() => {
    const observed = element();
    if (!observed) return;
    const take = () => {
      const now = Math.round(observed.clientWidth / textScale());
      if (now > 0) setWidth(now);
    };
    take();
    const observer = new ResizeObserver(take);
    observer.observe(observed);
    onCleanup(() => observer.disconnect());
  });
  return width;
}

/** From the label that has the focus to the next or the last one, by the arrows, Home and End. */
function walk(event: KeyboardEvent, from: number, count: number): void {
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: from + 1,
    ArrowDown: from + 1,
    ArrowLeft: from - 1,
    ArrowUp: from - 1,
    Home: 0,
    End: count - 1,
  };
  const to = steps[event.key];
  if (
    to === undefined ||
    event.ctrlKey ||
    event.metaKey ||
    event.altKey ||
    !(event.currentTarget instanceof Element)
  )
    return;
  const buttons = event.currentTarget.querySelectorAll<SVGElement>('[role="button"]');
  const next = buttons[Math.max(0, Math.min(count - 1, to))];
  if (!next) return;
  event.preventDefault();
  next.focus();
}

function DrawnPath(props: { readonly path: LaidPath; readonly picked: boolean }) {
  const look = () => looks[props.path.role];
  const colour = (name: string | undefined) => (name === undefined ? 'none' : `var(--${name})`);
  return (
    <path
      d={props.path.d}
      class={`drawn ${props.path.role}`}
      classList={{ picked: props.picked }}
      fill={colour(look().fill)}
      fill-opacity={look().fillOpacity}
      stroke={colour(look().stroke)}
      stroke-width={props.path.strokeWidth ?? look().strokeWidth}
      stroke-dasharray={look().dashes}
    />
  );
}

/*
 * Which blocks of rows are in sight. Left to itself the browser draws a block a frame late: it looks where the blocks are
 * when the frame is made, and the far end of a leap is shown as empty paper. So the blocks that a frame will show are
 * looked for when the scroll is told of, which is before that frame is laid out: they are drawn, and their rows asked for
 * anew, in it. A block drawn so stays drawn until it is screens away, and is the browser's again from there on.
 */

import { type Accessor, batch, createSignal, onCleanup } from 'solid-js';

/** The class that every block wears. */
export const BLOCK = 'block';

/** What a block is told. */
export interface Told {
  /** It is in sight or nearly so, or no longer. */
  setNear(isNear: boolean): void;
  /** It is to be drawn without waiting for the browser to find it in sight, or no longer. */
  setDrawn(isDrawn: boolean): void;
}

/** Tells the blocks of a sheet what they are to know of where they stand. */
export interface Sight {
  /** Tells a block, now and whenever it changes. Gives what ends it. */
  watch(element: Element, told: Told): () => void;
  /** Another number each time that blocks were drawn for a scroll. */
  readonly turn: Accessor<number>;
}

/** So far above and below what can be seen a block counts as near. */
const NEAR = '64px 0px';
/** So far away a block is left to the browser again: half a screen further than it draws by itself. */
const AWAY = '200% 0px';

/** One sight for the whole sheet. Needs an owner. */
export function createSight(): Sight {
  const blocks = new Map<Element, Told>();
  const [turn, setTurn] = createSignal(0);
  const near = makeWatcher(NEAR, (element, isIn) => blocks.get(element)?.setNear(isIn));
  // Only of what was drawn for a scroll is it asked whether it is away: each question costs something in every frame.
  const away = makeWatcher(AWAY, (element, isIn) => {
    if (isIn) return;
    blocks.get(element)?.setDrawn(false);
    away.unobserve(element);
  });
  const draw = (element: Element) => {
    blocks.get(element)?.setDrawn(true);
    away.observe(element);
  };
  const hear = ({ target }: Event) => {
    if (blocks.size > 0 && target instanceof Node && drawInView(target, blocks, draw))
      setTurn((old) => old + 1);
  };
  // A scroll does not bubble; whatever scrolls, the page or the sheet in it, is heard on its way down.
  const options = { capture: true, passive: true };
  document.addEventListener('scroll', hear, options);
  onCleanup(() => {
    document.removeEventListener('scroll', hear, options);
    near.disconnect();
    away.disconnect();
  });
  return {
    turn,
    watch: (element, told) => {
      blocks.set(element, told);
      near.observe(element);
      return () => {
        near.unobserve(element);
        away.unobserve(element);
        blocks.delete(element);
      };
    },
  };
}

function makeWatcher(margin: string, tell: (element: Element, isIn: boolean) => void): IntersectionObserver {
  const hear = (entries: readonly IntersectionObserverEntry[]) =>
    batch(() => {
      for (const { target, isIntersecting } of entries) tell(target, isIntersecting);
    });
  return new IntersectionObserver(hear, { rootMargin: margin, ...{ scrollMargin: margin } });
}

/** A block that is drawn may be lower than was thought, and others come into sight below it: so often it is looked again. */
const mostLooks = 4;

/** Draws the blocks that stand in what can be seen of a scroller and are not drawn. True when there were any. */
function drawInView(
  scroller: Node,
  blocks: ReadonlyMap<Element, Told>,
  draw: (element: Element) => void,
): boolean {
  const elements =
    scroller instanceof Element || scroller instanceof Document ? scroller.getElementsByClassName(BLOCK) : [];
  for (let look = 0; look < mostLooks; look += 1) {
    const inView = standingIn(elements, viewOf(scroller));
    const undrawn = inView.filter((element) => !isDrawn(element));
    batch(() => {
      for (const element of inView) blocks.get(element)?.setNear(true);
      for (const element of undrawn) draw(element);
    });
    if (undrawn.length === 0) return look > 0;
  }
  return true;
}

/** Whether the browser draws what is in a block. */
export const isDrawn = (block: Element): boolean =>
  block.firstElementChild?.checkVisibility({ contentVisibilityAuto: true }) ?? true;

/** From where to where something reaches, in pixels of the window. */
interface Reach {
  readonly top: number;
  readonly bottom: number;
}

function viewOf(scroller: Node): Reach {
  const whole = { top: 0, bottom: innerHeight };
  if (!(scroller instanceof Element)) return whole;
  const { top, bottom } = scroller.getBoundingClientRect();
  return { top: Math.max(top, whole.top), bottom: Math.min(bottom, whole.bottom) };
}

/** Those of elements that stand one below the other which reach into the view. */
function standingIn(elements: ArrayLike<Element>, view: Reach): readonly Element[] {
  const found: Element[] = [];
  for (let at = firstBelow(elements, view.top); at < elements.length; at += 1) {
    const element = elements[at];
    if (!element || element.getBoundingClientRect().top >= view.bottom) break;
    found.push(element);
  }
  return found;
}

/** Where the first stands that ends below a height; halving, as there may be a thousand. */
function firstBelow(elements: ArrayLike<Element>, top: number): number {
  let [low, high] = [0, elements.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const bottom = elements[middle]?.getBoundingClientRect().bottom ?? top;
    if (bottom <= top) low = middle + 1;
    else high = middle;
  }
  return low;
}

import { type Accessor, createSignal, onCleanup } from 'solid-js';

/**
 * Whether the page is no wider than so many letters, as `@container (max-width: …rem)` counts them, as a signal. It
 * follows the window, and letters that become larger on the page; it listens until its owner is gone.
 */
export function createNarrow(widthRem: number): Accessor<boolean> {
  const isNarrow = () => ruler.offsetWidth >= innerWidth;
  const ruler = document.body.appendChild(document.createElement('i'));
  ruler.style.cssText = `position: fixed; visibility: hidden; width: ${widthRem}rem`;
  const [narrow, setNarrow] = createSignal(isNarrow());
  const look = () => setNarrow(isNarrow());
  const observer = new ResizeObserver(look);
  observer.observe(ruler);
  addEventListener('resize', look);
  onCleanup(() => {
    observer.disconnect();
    removeEventListener('resize', look);
    ruler.remove();
  });
  return narrow;
}

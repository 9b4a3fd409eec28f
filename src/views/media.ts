import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** Whether a media query holds, as a signal; it listens until its owner is gone. */
export function createMedia(query: string): Accessor<boolean> {
  const list = matchMedia(query);
  const [matches, setMatches] = createSignal(list.matches);
  const hear = () => setMatches(list.matches);
  list.addEventListener('change', hear);
  onCleanup(() => list.removeEventListener('change', hear));
  return matches;
}

// A page with one drawing on it, for the browser tests: `show(name)` puts up one of the sample pictures.
import '../../../src/views/theme.css';
import { createSignal, Show } from 'solid-js';
import { render } from 'solid-js/web';
import { Drawing } from '../../../src/views/drawings/drawing.tsx';
import { pictures } from '../../drawing/samples.ts';

const [name, setName] = createSignal('pullover');
const [selected, setSelected] = createSignal<string>();

declare global {
  interface Window {
    show(name: string, cell?: string): void;
    selected(): string | undefined;
    readonly names: readonly string[];
  }
}

window.show = (next, cell) => {
  setName(next);
  setSelected(cell);
};
window.selected = selected;
Object.assign(window, { names: Object.keys(pictures) });

const holder = document.querySelector('main');
if (holder) {
  render(
    () => (
      <Show when={pictures[name()]}>
        {(picture) => <Drawing picture={picture()} selected={selected()} onSelect={setSelected} />}
      </Show>
    ),
    holder,
  );
}

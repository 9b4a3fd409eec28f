import { createSignal, lazy, Show, Suspense } from 'solid-js';
import type { MenuItem, OpenMenu } from '../desk.ts';

const LazyMenu = lazy(() => import('./menu.tsx').then(({ Menu }) => ({ default: Menu })));

export interface MenuButtonProps {
  /** What the menu is of: "Saltmarsh pullover". */
  readonly of: string;
  readonly items: () => readonly MenuItem[];
}

/** Three dots that open a menu of what can be done with the thing they stand beside. */
export function MenuButton(props: MenuButtonProps) {
  const [menu, setMenu] = createSignal<OpenMenu>();
  let button!: HTMLButtonElement;
  const open = () => {
    const { x, y, width, height } = button.getBoundingClientRect();
    setMenu({ label: `what to do with ${props.of}`, anchor: { x, y, width, height }, items: props.items() });
  };
  const close = (chosen: (() => void) | undefined) => {
    setMenu(undefined);
    button.focus();
    chosen?.();
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        class="more-button"
        aria-haspopup="menu"
        aria-expanded={menu() !== undefined}
        aria-label={`what to do with ${props.of}`}
        onClick={open}
      >
        <span aria-hidden="true">…</span>
      </button>
      <Suspense>
        <Show when={menu()} keyed>
          {(one) => <LazyMenu menu={one} onClose={close} />}
        </Show>
      </Suspense>
    </>
  );
}

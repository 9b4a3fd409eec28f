import { lazy, Show, Suspense } from 'solid-js';
import { useDesk } from '../desk.ts';

const importMenu = () => import('./menu.tsx').then(({ Menu }) => ({ default: Menu }));
const LazyMenu = lazy(importMenu);

/** Fetches the menu before it is asked for. */
export function fetchMenu(): void {
  void importMenu().catch(() => undefined);
}

/** Shows the sheet's open menu, if there is one, and gives the keyboard back when it closes. */
export function MenuHost() {
  const desk = useDesk();
  const close = (chosen: (() => void) | undefined) => {
    desk.openMenu(undefined);
    desk.standAt(desk.stand(), true);
    chosen?.();
  };
  return (
    <Suspense>
      <Show when={desk.menu()} keyed>
        {(menu) => <LazyMenu menu={menu} onClose={close} />}
      </Show>
    </Suspense>
  );
}

import { DropdownMenu } from '@kobalte/core/dropdown-menu';
import { For, Show } from 'solid-js';
import type { OpenMenu } from '../desk.ts';
import './menu.css';

export interface MenuProps {
  readonly menu: OpenMenu;
  /** The menu is over; `chosen` runs after the keyboard is back where it was. */
  readonly onClose: (chosen: (() => void) | undefined) => void;
}

/**
 * An open menu hanging from a place on the page. Fetched when the first one is opened. A finger and a mouse choose at
 * the click, the last event of a tap: were the menu gone before, the click would fall on what lies beneath it.
 */
export function Menu(props: MenuProps) {
  let byPointer = false;
  return (
    <DropdownMenu
      open={true}
      modal={false}
      gutter={4}
      fitViewport={true}
      getAnchorRect={() => props.menu.anchor}
      placement="bottom-end"
      onOpenChange={(open) => {
        if (!open) props.onClose(undefined);
      }}
    >
      <DropdownMenu.Portal ref={(div) => inLandmark(div, props.menu.label)}>
        <DropdownMenu.Content
          ref={(content: HTMLElement) => beginAtFirst(content)}
          class="menu"
          aria-label={props.menu.label}
          onCloseAutoFocus={(event) => event.preventDefault()}
        >
          <For each={props.menu.items}>
            {(item) => (
              <>
                <Show when={item.apart}>
                  <DropdownMenu.Separator class="menu-rule" />
                </Show>
                <DropdownMenu.Item
                  class="menu-item"
                  data-keys={item.keys ?? ''}
                  disabled={item.disabled ?? false}
                  closeOnSelect={false}
                  onPointerUp={() => {
                    byPointer = true;
                  }}
                  onKeyDown={() => {
                    byPointer = false;
                  }}
                  onSelect={() => {
                    if (!byPointer) props.onClose(item.choose);
                  }}
                  onClick={() => {
                    if (!item.disabled) props.onClose(item.choose);
                  }}
                >
                  {item.label}
                </DropdownMenu.Item>
              </>
            )}
          </For>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu>
  );
}

/** The menu stands outside the page's main part; a reader hears whose it is. */
function inLandmark(div: Element, label: string): void {
  div.setAttribute('role', 'region');
  div.setAttribute('aria-label', label);
}

/** The first item is the one a key would choose, as in a menu opened by its own button. */
function beginAtFirst(content: HTMLElement): void {
  requestAnimationFrame(() =>
    setTimeout(() => content.querySelector<HTMLElement>('[role=menuitem]:not([data-disabled])')?.focus()),
  );
}

import { createMemo, For, type JSX } from 'solid-js';

/** What a phone shows: the sheet, or the panels that stand under one of the other tabs. */
export type PanelTab = 'sheet' | 'drawings' | 'doubt' | 'knit';

/** Something that stands beside the sheet. */
export interface Panel {
  readonly id: string;
  /** Its heading, read anew when it changes: "Schematic, size S". */
  readonly title: () => JSX.Element;
  /** The tab it stands under on a phone. */
  readonly tab: Exclude<PanelTab, 'sheet'>;
  readonly show: () => JSX.Element;
}

const tabWords: Readonly<Record<PanelTab, string>> = {
  sheet: 'Sheet',
  drawings: 'Drawings',
  doubt: 'How far off',
  knit: 'What to knit',
};

export interface PanelsProps {
  readonly panels: readonly Panel[];
  readonly tab: PanelTab;
  readonly onClose: () => void;
}

/** The panels beside the sheet; on a narrow screen they are pulled up over it. */
export function Panels(props: PanelsProps) {
  return (
    <aside
      class="aside"
      aria-label="beside the sheet"
      tabindex="0"
      onKeyDown={(event) => {
        if (event.key === 'Escape') props.onClose();
      }}
    >
      <For each={props.panels}>
        {(panel) => (
          <section class="panel" data-tab={panel.tab} aria-labelledby={`panel-${panel.id}`}>
            <h2 id={`panel-${panel.id}`} tabindex="-1">
              {panel.title()}
            </h2>
            {panel.show()}
          </section>
        )}
      </For>
    </aside>
  );
}

export interface PhoneTabsProps {
  readonly panels: readonly Panel[];
  readonly tab: PanelTab;
  readonly onTab: (tab: PanelTab) => void;
}

/** The tabs at the foot of a narrow screen. */
export function PhoneTabs(props: PhoneTabsProps) {
  const tabs = createMemo(() => {
    const used = new Set<PanelTab>(['sheet', ...props.panels.map((panel) => panel.tab)]);
    return (['sheet', 'drawings', 'doubt', 'knit'] as const).filter((tab) => used.has(tab));
  });
  return (
    <nav class="phone-tabs" aria-label="what to look at">
      <For each={tabs()}>
        {(tab) => (
          <button type="button" aria-pressed={props.tab === tab} onClick={() => props.onTab(tab)}>
            {tabWords[tab]}
          </button>
        )}
      </For>
    </nav>
  );
}

/*
 * The page around a notebook: head, the list of notebooks, the sheet, what stands beside it, and on a phone the tabs at
 * the foot. What stands beside the sheet is given as panels; where it comes from is no business of the shell.
 */
import { createMemo, createSignal, type JSX, onCleanup, onMount, Show, Suspense } from 'solid-js';
import { afterFirstPaint } from './after-paint.ts';
import { createDesk, type Desk, DeskProvider } from './desk.ts';
import { fetchFormulaEditor } from './editor/lazy.ts';
import { hearGridKey } from './grid/keys.ts';
import { fetchMenus } from './grid/open-menu.ts';
import { Sheet } from './grid/sheet.tsx';
import { Actions, Header, type HeaderAction, HistoryButton, UnitSwitch } from './header.tsx';
import { HintBar } from './hint-bar.tsx';
import { hearHistoryKey } from './history-key.ts';
import { fetchFirstCell, fetchWorkings, NoticeBar, Paper, TrialBar } from './later.ts';
import { LiveRegion } from './live-region.tsx';
import { createMedia } from './media.ts';
import { fetchMenu, MenuHost } from './menu/menu-host.tsx';
import { NotebookNotes, NotebookRemarks } from './notebook-notes.tsx';
import type { NotebookSignals } from './notebook-signals.ts';
import { type NavGroup, NotebooksNav } from './notebooks-nav.tsx';
import { type Panel, Panels, type PanelTab, PhoneTabs } from './panels.tsx';

export interface ShellProps {
  readonly notebook: NotebookSignals;
  /** "saved on this device", or what else is to be known about it. */
  readonly saved: string;
  /** What that rests on, where the browser promises nothing; "" where it does. */
  readonly savedWhy: string;
  /** The lists at the left: her notebooks, those to start from, other pages. */
  readonly nav: readonly NavGroup[];
  /** What stands beside the sheet, in order. */
  readonly panels: readonly Panel[];
  /** Share, Print and what else the head offers. */
  readonly actions: readonly HeaderAction[];
  /** One line for a first visit, saying what to change first; "" later. */
  readonly hint?: string;
  /** The cell she stands at when the page opens. */
  readonly startAt?: string;
  /** What stands above the sheet: that the notebook is only looked at. */
  readonly above?: JSX.Element;
  /** The notebook is only looked at, and what stands above says so. */
  readonly isVisitor?: boolean;
  /** What the app has to say, at the foot of the sheet or the page in its place. */
  readonly notices?: JSX.Element;
  /** What leads through the page step by step, at the foot of the sheet or the page in its place. */
  readonly guide?: JSX.Element;
  /** True while something leads: the sheet then keeps room for it below its last row. */
  readonly isGuided?: boolean;
  /** A page shown in place of the sheet: the notebook's file, units and functions. */
  readonly instead?: JSX.Element;
}

/** The whole page. */
export function Shell(props: ShellProps) {
  const instead = createMemo(() => props.instead); // Made once, however often it is asked for.
  const hasPanels = () => instead() === undefined && props.panels.length > 0;
  const phone = createMedia('(max-width: 40em)');
  const desk = createDesk(props.notebook, phone);
  if (props.startAt) desk.standAt({ row: `k:${props.startAt}`, part: 1 });
  const [tab, setTab] = createSignal<PanelTab>('sheet');
  desk.onShowPanel((id) => {
    const panel = props.panels.find((one) => one.id === id);
    if (panel) setTab(panel.tab);
  });
  const [isNavOpen, setNavOpen] = createSignal(false);
  const [isPainted, setPainted] = createSignal(false);

  onMount(() => {
    afterFirstPaint(() => {
      void fetchFormulaEditor()
        .then(fetchMenu)
        .then(fetchMenus)
        .then(fetchFirstCell)
        .catch(() => undefined);
      fetchWorkings().catch(() => undefined); // They are asked for again when they are opened.
      setPainted(true);
    });
    const hear = (event: KeyboardEvent) => {
      if (event.key === 'Escape') setNavOpen(false);
      if (!isWriting(event.target)) hearHistoryKey(event, props.notebook);
      hearLooseKey(event, desk, instead() !== undefined);
    };
    document.addEventListener('keydown', hear);
    onCleanup(() => document.removeEventListener('keydown', hear));
  });
  return (
    <DeskProvider value={desk}>
      <div
        class="shell"
        data-tab={tab()}
        classList={{ 'nav-open': isNavOpen(), wide: !hasPanels(), guided: props.isGuided ?? false }}
      >
        <a class="skip" href="#sheet">
          to the sheet
        </a>
        <Header
          notebook={props.notebook}
          saved={props.saved}
          savedWhy={props.savedWhy}
          actions={props.actions}
          isNavOpen={isNavOpen()}
          onNav={() => setNavOpen(!isNavOpen())}
        />
        <NotebooksNav groups={props.nav} onChosen={() => setNavOpen(false)}>
          <UnitSwitch notebook={props.notebook} place="list" />
          <HistoryButton
            word="Redo"
            what={props.notebook.view().redo}
            onChoose={() => props.notebook.page.redo()}
          />
          <Actions actions={props.actions} onChosen={() => setNavOpen(false)} />
        </NotebooksNav>
        <Show when={isNavOpen()}>
          <div class="veil" onPointerDown={() => setNavOpen(false)} />
        </Show>
        <main
          id="sheet"
          class="sheet"
          tabindex="-1"
          onFocus={({ relatedTarget }) => {
            const isSkipped = relatedTarget instanceof Element && relatedTarget.classList.contains('skip');
            if (isSkipped && instead() === undefined) desk.standAt(desk.stand(), true);
          }}
        >
          <Show when={instead() === undefined} fallback={instead()}>
            {props.above}
            <NotebookRemarks view={props.notebook.view()} isSaid={props.isVisitor ?? false} />
            <Sheet />
            <NotebookNotes view={props.notebook.view()} />
          </Show>
          <div class="foot">
            <Show when={instead() === undefined}>
              <HintBar hint={props.hint ?? ''} notebook={props.notebook} />
              <Show when={isPainted()}>
                <Suspense>
                  <NoticeBar />
                  <TrialBar isCovered={phone() && tab() !== 'sheet'} />
                </Suspense>
              </Show>
            </Show>
            {props.notices}
            {props.guide}
          </div>
        </main>
        <Show when={hasPanels()}>
          <Panels panels={props.panels} tab={tab()} onClose={() => setTab('sheet')} />
          <PhoneTabs panels={props.panels} tab={tab()} onTab={setTab} />
        </Show>
        <LiveRegion spoken={props.notebook.spoken()} />
        <MenuHost />
      </div>
      <Show when={isPainted() && instead() === undefined}>
        <Suspense>
          <Paper />
        </Suspense>
      </Show>
    </DeskProvider>
  );
}

/** When the keyboard is nowhere, as on arrival, the keys of the grid go to where she stands. */
function hearLooseKey(event: KeyboardEvent, desk: Desk, isElsewhere: boolean): void {
  if (event.target !== document.body || isElsewhere || event.defaultPrevented || event.key === ' ') return;
  if (event.key === 'Tab' || event.key === 'Escape' || !hearGridKey(event, desk)) return;
  if (document.activeElement === document.body) desk.standAt(desk.stand(), true);
  event.preventDefault();
}

/** A text being written undoes and redoes its own letters. */
function isWriting(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, .cm-editor') !== null;
}

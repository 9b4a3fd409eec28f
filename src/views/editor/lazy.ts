import type * as Before from './before-buttons.ts';
import type { MakeEditor } from './text-editor.ts';

let loaded: MakeEditor | undefined;
let before: typeof Before | undefined;
let loading: Promise<void> | undefined;

/** Fetches CodeMirror, once. Called when the page has been painted and has nothing else to do. */
export function fetchFormulaEditor(): Promise<void> {
  loading ??= Promise.all([import('./formula-editor.ts'), import('./before-buttons.ts')]).then(
    ([{ makeFormulaEditor }, buttons]) => {
      loaded = makeFormulaEditor;
      before = buttons;
    },
    () => {
      loading = undefined; // Without it the plain field goes on serving, and the next call tries again.
    },
  );
  return loading;
}

/** CodeMirror's editor if it has come; undefined until then. */
export function formulaEditor(): MakeEditor | undefined {
  if (!loaded) void fetchFormulaEditor();
  return loaded;
}

/**
 * Keeps what is written before a button elsewhere does its part, and while the page is out of sight, once what does that
 * has come. Gives what ends it.
 */
export function keepBefore(
  editor: HTMLElement,
  keep: () => void,
  meanwhile: () => (() => void) | undefined,
): () => void {
  const ends = [before?.makeKeepBeforeButtons(editor, keep), before?.makeKeepMeanwhile(meanwhile)];
  return () => {
    for (const end of ends) end?.();
  };
}

import type { makeKeepBefore } from './before-buttons.ts';
import type { MakeEditor } from './text-editor.ts';

let loaded: MakeEditor | undefined;
let keeping: typeof makeKeepBefore | undefined;
let loading: Promise<void> | undefined;

/** Fetches CodeMirror, once. Called when the page has been painted and has nothing else to do. */
export function fetchFormulaEditor(): Promise<void> {
  loading ??= Promise.all([import('./formula-editor.ts'), import('./before-buttons.ts')]).then(
    ([{ makeFormulaEditor }, buttons]) => {
      loaded = makeFormulaEditor;
      keeping = buttons.makeKeepBefore;
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

/** Keeps what is written before it is taken from the page, once what does that has come. Gives what ends it. */
export const keepBefore: typeof makeKeepBefore = (...args) => keeping?.(...args) ?? (() => undefined);

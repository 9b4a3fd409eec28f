import type { makeKeepBefore } from './before-buttons.ts';
import type { MakeEditor } from './text-editor.ts';

let loaded: MakeEditor | undefined;
let loading: Promise<void> | undefined;

/** Fetches CodeMirror, once. Called when the page has been painted and has nothing else to do. */
export function fetchFormulaEditor(): Promise<void> {
  loading ??= Promise.all([import('./formula-editor.ts'), fetchKeepBefore()]).then(
    ([{ makeFormulaEditor }]) => {
      loaded = makeFormulaEditor;
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

const fetchKeepBefore = () => import('./before-buttons.ts');

/** Keeps what is written before it is taken from the page, once what does that has come. Gives what ends it. */
export function keepBefore(...what: Parameters<typeof makeKeepBefore>): () => void {
  let isOver = false;
  let end = () => {
    isOver = true;
  };
  fetchKeepBefore().then(
    ({ makeKeepBefore }) => {
      if (!isOver) end = makeKeepBefore(...what);
    },
    () => undefined,
  );
  return () => end();
}

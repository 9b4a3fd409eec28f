import type { MakeEditor } from './text-editor.ts';

let loaded: MakeEditor | undefined;
let loading: Promise<void> | undefined;

/** Fetches CodeMirror, once. Called when the page has been painted and has nothing else to do. */
export function fetchFormulaEditor(): Promise<void> {
  loading ??= import('./formula-editor.ts').then(
    ({ makeFormulaEditor }) => {
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

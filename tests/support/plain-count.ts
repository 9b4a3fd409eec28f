import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line, "12 passed, 0 failed", with ", 1 skipped" only when something was. */
export default class PlainCount implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    let passed = 0;
    let skipped = 0;
    let failed = errors.length;
    if (modules.length === 0) failed += 1; // Nothing ran, which is no success.
    for (const module of modules) {
      if (module.errors().length > 0) failed += 1; // It could not be read, so its tests were never counted.
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
        else skipped += 1;
      }
    }
    const more = skipped > 0 ? `, ${skipped} skipped` : '';
    process.stdout.write(`${passed} passed, ${failed} failed${more}\n`);
  }
}

// Golden pictures: a screenshot against the one on record.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pixelmatch from 'pixelmatch';
import { PNG } from 'pngjs';
import { expect } from 'vitest';

const folder = join(import.meta.dirname, '../golden/screens');

/** So much of a picture may differ: an edge of a letter here and there, not a word. */
const allowedShare = 0.0005;

/** How two PNG pictures differ. */
export interface Difference {
  /** In the words of a failure; undefined when they count as alike. */
  readonly sentence: string | undefined;
  /** A picture of where they differ, as PNG; undefined when they are alike or their sizes differ. */
  readonly picture: Buffer | undefined;
}

/** Compares two PNG pictures; with `sizeOnly`, only their sizes. */
export function differenceOf(old: Buffer, now: Buffer, sizeOnly: boolean): Difference {
  const [a, b] = [PNG.sync.read(old), PNG.sync.read(now)];
  if (a.width !== b.width || a.height !== b.height) {
    const sentence = `was ${a.width} × ${a.height} pixels, is ${b.width} × ${b.height}`;
    return { sentence, picture: undefined };
  }
  const diff = new PNG({ width: a.width, height: a.height });
  const count = sizeOnly ? 0 : pixelmatch(a.data, b.data, diff.data, a.width, a.height, { threshold: 0.1 });
  if (count <= allowedShare * a.width * a.height) return { sentence: undefined, picture: undefined };
  return { sentence: `${count} pixels differ`, picture: PNG.sync.write(diff) };
}

/**
 * Compares a screenshot with the recorded NAME.png, or records it when GOLDEN=1. On a difference it leaves
 * NAME.actual.png and NAME.diff.png beside the record (git ignores both) and fails.
 */
export function comparePicture(now: Buffer, name: string, sizeOnly: boolean): void {
  const file = (kind: string) => join(folder, `${name}${kind}.png`);
  for (const kind of ['.actual', '.diff']) rmSync(file(kind), { force: true });
  const isRecorded = existsSync(file(''));
  if (process.env['GOLDEN'] === '1') {
    mkdirSync(folder, { recursive: true });
    // One that counts as alike stays as it was, so that recording again changes nothing by chance.
    if (!isRecorded || differenceOf(readFileSync(file('')), now, false).sentence)
      writeFileSync(file(''), now);
    return;
  }
  expect(isRecorded, `${name}.png is not on record: run "npm run golden" and look at it`).toBe(true);
  const { sentence, picture } = differenceOf(readFileSync(file('')), now, sizeOnly);
  if (sentence === undefined) return;
  writeFileSync(file('.actual'), now);
  if (picture) writeFileSync(file('.diff'), picture);
  expect.fail(`${name}.png: ${sentence}; see ${name}.actual.png in tests/golden/screens`);
}

// Each drawing on fixed values, as SVG. `npm run golden` records them again; look at them before committing.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { layOut, toSvg } from '../../src/drawing/index.ts';
import { faultsOf } from './check.ts';
import { pictures } from './samples.ts';

const folder = join(import.meta.dirname, '../golden/drawings');

describe.each(Object.keys(pictures))('%s', (name) => {
  test.each([340, 680])('is drawn as recorded, %i px wide', (widthPx) => {
    const picture = pictures[name];
    if (!picture) throw new Error(`no picture ${name}`);
    const file = join(folder, `${name}-${widthPx}.svg`);
    const svg = toSvg(picture, widthPx);
    if (process.env['GOLDEN'] === '1') writeFileSync(file, svg);
    expect(existsSync(file), `${file} is recorded`).toBe(true);
    expect(svg).toBe(readFileSync(file, 'utf8'));
    expect(faultsOf(layOut(picture, widthPx))).toEqual([]);
    expect(picture.leftOut).toEqual([]);
  });
});

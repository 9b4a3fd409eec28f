/*
 * `npm run bench`: measures, prints a table, and writes the figures as JSON. With `--check` it fails where a figure is
 * worse than the one kept in `figures.json` by more than a fifth and three times its spread; `--keep` keeps the new
 * ones, those of parts that were not run staying as they were; `--markdown` prints the table for a page. Words without
 * dashes choose parts (`npm run bench -- engine`); `--quick` leaves out what takes long.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { arrivalFigures } from './arrival.ts';
import { askingFigures } from './asking.ts';
import { engineFigures } from './engine.ts';
import { type Figure, isWorse, type Kept, keptOf, markdown, table } from './figure.ts';
import { pageFigures } from './page.ts';

const folder = process.env['BENCH_FOLDER'] ?? import.meta.dirname;
const keptAt = join(folder, 'figures.json');

/** A part of the bench; `quick` leaves out what takes long. */
type Part = (quick: boolean) => readonly Figure[] | Promise<readonly Figure[]>;

const PARTS: Readonly<Record<string, Part>> = {
  engine: engineFigures,
  asking: askingFigures,
  page: pageFigures,
  arrival: arrivalFigures,
};

function before(): Kept | undefined {
  return existsSync(keptAt) ? (JSON.parse(readFileSync(keptAt, 'utf8')) as Kept) : undefined;
}

/** Tells which figures are worse than the kept ones; gives the exit code. */
function check(now: readonly Figure[], kept: Kept | undefined): number {
  if (!kept) {
    process.stderr.write('There are no figures to check against: run with --keep first.\n');
    return 1;
  }
  const worse = now.filter(({ name, ...figure }) => {
    const old = kept.figures[name];
    return old !== undefined && isWorse(figure, old);
  });
  for (const { name, ratio } of worse)
    process.stdout.write(`worse than before: ${name}: ${ratio}, was ${kept.figures[name]?.ratio}\n`);
  return worse.length === 0 ? 0 : 1;
}

/** Runs the bench; gives the exit code. */
export async function main(words: readonly string[]): Promise<number> {
  const wanted = words.filter((word) => !word.startsWith('--'));
  const figures: Figure[] = [];
  for (const [name, part] of Object.entries(PARTS))
    if (wanted.length === 0 || wanted.includes(name))
      figures.push(...(await part(words.includes('--quick'))));
  const machine = `${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} cores, Node ${process.version}`;
  process.stdout.write(`${machine}\n${(words.includes('--markdown') ? markdown : table)(figures)}\n`);
  const kept = before();
  const now = keptOf(figures, machine, new Date().toISOString().slice(0, 10));
  const written = words.includes('--keep') ? { ...now, figures: { ...kept?.figures, ...now.figures } } : now;
  const file = words.includes('--keep') ? keptAt : join(folder, 'last-figures.json');
  writeFileSync(file, `${JSON.stringify(written, null, 2)}\n`);
  return words.includes('--check') ? check(figures, kept) : 0;
}

/*
 * `npm run bench`: measures, prints a table, and writes the figures as JSON. With `--check` it fails where a figure is
 * worse than the one kept in `figures.json` by more than a fifth and three times its spread; `--keep` keeps the new
 * ones, those of parts that were not run staying as they were; `--markdown` prints the table for a page. Words without
 * dashes choose parts (`npm run bench -- engine`); `--quick` leaves out what takes long.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { arrivalFigures } from './arrival.ts';
import { askingFigures } from './asking.ts';
import { engineFigures } from './engine.ts';
import { type Figure, type Kept, keptOf, markdown, table, worseThan } from './figure.ts';
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

function keptFigures(): Kept | undefined {
  return existsSync(keptAt) ? (JSON.parse(readFileSync(keptAt, 'utf8')) as Kept) : undefined;
}

/** Tells which figures are worse than the kept ones; gives the exit code. */
function check(now: readonly Figure[], kept: Kept | undefined): number {
  if (!kept) {
    process.stderr.write('There are no figures to check against: run with --keep first.\n');
    return 1;
  }
  const worse = worseThan(now, kept);
  for (const line of worse) process.stdout.write(`${line}\n`);
  if (worse.length === 0) process.stdout.write(`No figure is worse than those kept on ${kept.date}.\n`);
  return worse.length === 0 ? 0 : 1;
}

const load = () => Math.round((loadavg()[0] ?? 0) * 10) / 10;

/** Measures the parts that are wanted. */
async function measure(wanted: readonly string[], quick: boolean): Promise<readonly Figure[]> {
  const unknown = wanted.filter((name) => !(name in PARTS));
  if (unknown.length > 0)
    throw new Error(`no part ${unknown.join(', ')}: there are ${Object.keys(PARTS).join(', ')}`);
  const figures: Figure[] = [];
  for (const [name, part] of Object.entries(PARTS))
    if (wanted.length === 0 || wanted.includes(name)) figures.push(...(await part(quick)));
  return figures;
}

/** Runs the bench; gives the exit code. */
export async function main(words: readonly string[]): Promise<number> {
  const has = (word: string) => words.includes(word);
  const before = load();
  const parts = words.filter((word) => !word.startsWith('--'));
  const figures = await measure(parts, has('--quick'));
  const machine = `${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} cores, Node ${process.version}`;
  process.stdout.write(`${machine}\n${(has('--markdown') ? markdown : table)(figures)}\n`);
  const date = new Date().toISOString().slice(0, 10);
  const now = keptOf(figures, { machine, date, load: [before, load()] });
  const kept = keptFigures();
  // With some parts only, the others' figures stay; with all, those of parts and peers that are gone go.
  const others = parts.length > 0 ? kept?.figures : {};
  const written = has('--keep') ? { ...now, figures: { ...others, ...now.figures } } : now;
  const file = has('--keep') ? keptAt : join(folder, 'last-figures.json');
  writeFileSync(file, `${JSON.stringify(written, null, 2)}\n`);
  return has('--check') ? check(figures, kept) : 0;
}

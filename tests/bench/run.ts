/*
 * `npm run bench`: measures, prints a table, and writes the figures as JSON. With `--check` it fails where a figure is
 * worse than the one kept in `figures.json` by more than a fifth and three times its spread. `--keep` keeps the new ones.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { engineFigures, type Figure } from './engine.ts';

const folder = process.env['BENCH_FOLDER'] ?? import.meta.dirname;
const kept = join(folder, 'figures.json');

interface Figures {
  readonly machine: string;
  readonly figures: readonly Figure[];
}

const number = (x: number): string =>
  Number.isNaN(x) ? '—' : x < 10 ? x.toFixed(2) : x < 1000 ? x.toFixed(1) : String(Math.round(x));

function reached({ ratio, aim, better }: Figure): string {
  if (aim === undefined || Number.isNaN(ratio)) return '';
  return (better === 'less' ? ratio <= aim : ratio >= aim) ? 'reached' : 'missed';
}

function table(figures: readonly Figure[]): string {
  const rows = figures.map((figure) => [
    figure.name,
    number(figure.ratio),
    `± ${number(figure.spread)}`,
    figure.aim === undefined ? '' : `${figure.better === 'less' ? '≤' : '≥'} ${figure.aim}`,
    reached(figure),
    figure.note ?? '',
  ]);
  const widths = [0, 1, 2, 3, 4, 5].map((k) => Math.max(...rows.map((row) => row[k]?.length ?? 0)));
  return rows
    .map((row) =>
      row
        .map((text, k) => text.padEnd(widths[k] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** Worse than before by more than a fifth and by three times the spread of either. */
function isWorse(now: Figure, before: Figure): boolean {
  const off = now.better === 'less' ? now.ratio - before.ratio : before.ratio - now.ratio;
  return off > before.ratio * 0.2 && off > 3 * Math.max(now.spread, before.spread);
}

function check(now: readonly Figure[]): number {
  if (!existsSync(kept)) {
    process.stderr.write('There are no figures to check against: run with --keep first.\n');
    return 1;
  }
  const { figures } = JSON.parse(readFileSync(kept, 'utf8')) as Figures;
  const worse = now.filter((figure) => {
    const before = figures.find((one) => one.name === figure.name);
    return before !== undefined && isWorse(figure, before);
  });
  for (const figure of worse) process.stdout.write(`worse than before: ${figure.name}\n`);
  return worse.length === 0 ? 0 : 1;
}

/** Runs the bench; gives the exit code. */
export async function main(
  words: readonly string[],
  more: () => Promise<readonly Figure[]> = async () => [],
): Promise<number> {
  const sizes = words.includes('--quick') ? [100, 1000] : [100, 1000, 10_000, 100_000];
  const figures = [...engineFigures(sizes), ...(words.includes('--engine') ? [] : await more())];
  const machine = `${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} cores, Node ${process.version}`;
  process.stdout.write(`${machine}\n${table(figures)}\n`);
  const all: Figures = { machine, figures };
  if (words.includes('--keep')) writeFileSync(kept, `${JSON.stringify(all, null, 2)}\n`);
  else writeFileSync(join(folder, 'last-figures.json'), `${JSON.stringify(all, null, 2)}\n`);
  return words.includes('--check') ? check(figures) : 0;
}

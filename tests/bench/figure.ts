/*
 * What the bench finds: figures, each a ratio of medians with its spread. Here is how they are worked out from times,
 * printed as a table, kept as JSON, and told to be worse than before.
 */

/** One figure of the bench. */
export interface Figure {
  readonly name: string;
  /** What it comes to: a ratio unless `unit` says otherwise. NaN where it could not be measured here. */
  readonly ratio: number;
  /** The median distance of the single rounds from it. */
  readonly spread: number;
  /** What we aim at, and whether more or less is better. */
  readonly aim?: number;
  readonly better: 'less' | 'more';
  /** What it is counted in, where it is not a ratio: `kB`, `bytes`, `cells`; `power` where it is an exponent. */
  readonly unit?: string;
  readonly note?: string;
}

/** A figure without its name. */
export type Measured = Omit<Figure, 'name'>;

/** Figures as they are kept: by name, with the machine and the day they were measured on. */
export interface Kept {
  readonly machine: string;
  readonly date: string;
  /** How much else the machine had to do: programs waiting for it, a minute's mean, before and after. */
  readonly load?: readonly [before: number, after: number];
  readonly figures: Readonly<Record<string, Measured>>;
}

/** The median of some numbers; NaN of none. */
export function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}

/** The median of what the rounds gave, and their median distance from it. */
export function around(single: readonly number[]): { readonly ratio: number; readonly spread: number } {
  const ratio = median(single);
  return { ratio, spread: median(single.map((one) => Math.abs(one - ratio))) };
}

/** The ratio of two series measured in turn: the median of the rounds' ratios, and their median distance from it. */
export function ratioOf(
  above: readonly number[],
  below: readonly number[],
): { readonly ratio: number; readonly spread: number } {
  const single = above.map((a, i) => a / (below[i] ?? Number.NaN)).filter(Number.isFinite);
  return around(single);
}

/** Whether a figure reaches its aim; undefined where it has none or was not measured. */
export function isReached({
  ratio,
  aim,
  better,
}: Pick<Figure, 'ratio' | 'aim' | 'better'>): boolean | undefined {
  if (aim === undefined || !Number.isFinite(ratio)) return undefined;
  return better === 'less' ? ratio <= aim : ratio >= aim;
}

/** Worse than before by more than a fifth and by three times the spread of either. What was not measured is not worse. */
export function isWorse(now: Measured, before: Measured): boolean {
  const off = now.better === 'less' ? now.ratio - before.ratio : before.ratio - now.ratio;
  return Number.isFinite(off) && off > before.ratio * 0.2 && off > 3 * Math.max(now.spread, before.spread);
}

/** The figures that are worse than the kept ones, a line each; those that were not kept before are not told. */
export function worseThan(figures: readonly Figure[], kept: Kept): readonly string[] {
  return figures.flatMap(({ name, ...now }) => {
    const before = kept.figures[name];
    if (!before || !isWorse(now, before)) return [];
    return [`worse than before: ${name}: ${amount(now)}, was ${amount(before)}`];
  });
}

/** A number with about three digits. */
function short(x: number): string {
  if (!Number.isFinite(x)) return '—';
  return x < 10 ? x.toFixed(2) : x < 1000 ? x.toFixed(1) : Math.round(x).toLocaleString('en-GB');
}

/** A figure with what it is counted in. */
function amount({ ratio, unit }: Pick<Figure, 'ratio' | 'unit'>): string {
  if (!Number.isFinite(ratio)) return '—';
  return unit === 'power' ? `n^${short(ratio)}` : `${short(ratio)} ${unit ?? '×'}`;
}

function cellsOf(figure: Figure): readonly string[] {
  const reached = isReached(figure);
  return [
    figure.name,
    amount(figure),
    Number.isFinite(figure.spread) && figure.spread > 0 ? `± ${short(figure.spread)}` : '',
    figure.aim === undefined ? '' : `${figure.better === 'less' ? '≤' : '≥'} ${figure.aim}`,
    reached === undefined ? '' : reached ? 'reached' : 'missed',
    figure.note ?? '',
  ];
}

/** Figures as lines for a terminal. */
export function table(figures: readonly Figure[]): string {
  const rows = figures.map(cellsOf);
  const widths = [0, 1, 2, 3, 4, 5].map((k) => Math.max(0, ...rows.map((row) => row[k]?.length ?? 0)));
  const line = (row: readonly string[]) => row.map((text, k) => text.padEnd(widths[k] ?? 0)).join('  ');
  return rows.map((row) => line(row).trimEnd()).join('\n');
}

/** Figures with an aim, and how costs grow, as a table for a page of Markdown. */
export function markdown(figures: readonly Figure[]): string {
  const shown = figures.filter(({ aim, unit }) => aim !== undefined || unit === 'power');
  const rows = shown.map((figure) => `| ${cellsOf(figure).slice(0, 5).join(' | ')} |`);
  return ['| what | measured | spread | aim | |', '| --- | ---: | ---: | ---: | --- |', ...rows].join('\n');
}

/** Figures as they are kept: those that were measured. */
export function keptOf(figures: readonly Figure[], about: Omit<Kept, 'figures'>): Kept {
  const named = figures.flatMap(({ name, ...rest }) =>
    Number.isFinite(rest.ratio) ? [[name, rest] as const] : [],
  );
  return { ...about, figures: Object.fromEntries(named) };
}

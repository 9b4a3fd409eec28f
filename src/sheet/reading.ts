/*
 * Reading a node: from what its text says to its kind, its lanes, and its code or its values. A *typed* text names no
 * cell: its value is known on the spot, column by column, and may say how far off it can be. Any other is a formula, one
 * for all columns, that gets code. Where something is wrong with a formula all its lanes say so, and it has no code.
 *
 * Always true of a node that is not stale:
 * - it is typed, or it has code, or something is wrong with its formula (flag OWN): just one of these;
 * - its kind is that of its text; where that gives none, that of what was knitted, or unknown.
 */

import {
  type Checked,
  checkTree,
  EMPTY,
  evaluate,
  isPercent,
  NOT_YET,
  type Node,
  type Parsed,
  type Problem,
  problem,
  quantity,
  sameType,
  type Type,
  typeInWords,
  UNKNOWN,
} from '../formula/index.ts';
import { isGauge } from '../quantity/index.ts';
import * as FLAG from './flags.ts';
import type { Graph } from './graph.ts';
import type { Lanes } from './lanes.ts';
import type { Pins } from './pins.ts';
import type { Setting } from './setting.ts';
import type { Texts } from './texts.ts';
import { isAlike } from './value.ts';
import type { Working } from './working.ts';

/** A ring of more cells than this is told by their number. */
const MOST_TOLD = 24;

/** What is wrong with typed texts, by column. */
type Own = ReadonlyMap<number, Problem>;
const NOTHING: readonly number[] = [];

/** Reads nodes, and knows what their texts say beside their values: what is wrong, and how far off they can be. */
export class Reading {
  /** By typed node: what is wrong with its text, and how far off its values can be; none where nothing is. */
  private readonly own = new Map<number, Own>();
  private readonly tolerances = new Map<number, number[]>();
  /** Whether the typed node that was read last held other values before. */
  changed = false;

  constructor(
    private readonly graph: Graph,
    private readonly lanes: Lanes,
    private readonly pins: Pins,
    private readonly texts: Texts,
    private readonly setting: Setting,
    private readonly working: Working,
  ) {}

  /** Reads a stale node; gives whether its kind or its place changed. A typed one then holds its values. */
  read(node: number): boolean {
    const { lanes } = this;
    const type = lanes.types[node] as Type;
    const offset = lanes.offsets[node];
    const text = this.texts.of(node);
    const parsed = this.texts.parsed(node);
    lanes.flags[node]! &= ~(FLAG.STALE | FLAG.OWN);
    this.remove(node);
    this.working.code.set(node, NOTHING);
    this.changed = false;
    const one = parsed[0] as Parsed;
    if (typeof text !== 'string') this.readTyped(node, text, parsed, true);
    else if (one.kind === 'tree' && !one.typed) this.readFormula(node, text, one.tree);
    else if (!this.readLiteral(node, text, one)) this.readTyped(node, [text], parsed, false);
    return offset !== lanes.offsets[node] || !sameType(type, lanes.types[node] as Type);
  }

  /** How far off a typed value can be in a lane, in base units; 0 where nothing is said. */
  tolerance(node: number, column: number): number {
    return this.tolerances.get(node)?.[column] ?? 0;
  }

  /** Whether a text says more than its values: that something is wrong with it, or how far off it can be. */
  saysMore(node: number): boolean {
    return this.own.has(node) || this.tolerances.has(node);
  }

  /** Whether a text could not be read as the parser was still to come. */
  isMissed(node: number): boolean {
    return [...(this.own.get(node)?.values() ?? [])].some(({ code }) => code === NOT_YET);
  }

  /** Forgets what a node's text said. */
  remove(node: number): void {
    if (this.own.size > 0) this.own.delete(node);
    if (this.tolerances.size > 0) this.tolerances.delete(node);
  }

  private check(text: string, tree: Node): Checked {
    return checkTree(text, tree, this.setting);
  }

  private readFormula(node: number, text: string, tree: Node): void {
    const { lanes } = this;
    lanes.set(node, FLAG.TYPED, false);
    const ring = this.graph.ring(node);
    const checked = this.check(text, tree);
    const bad = ring ? this.ringProblem(node, ring) : checked.problems[0];
    this.setType(node, bad ? UNKNOWN : checked.type);
    lanes.place(node, checked.each && lanes.columns.length > 0 && ring === undefined);
    if (!bad) return this.working.compile(node, tree);
    lanes.set(node, FLAG.OWN, true);
    const reason = lanes.reasons.broken(bad);
    for (let c = lanes.width(node) - 1; c >= 0; c -= 1) this.keep(node, c, Number.NaN, reason);
  }

  private ringProblem(node: number, ring: readonly number[]): Problem {
    const nameOf = (one: number) => this.setting.nameOf(one);
    // Thousands of cells that each named thousands would fill the memory, and nobody would read it.
    if (ring.length > MOST_TOLD) return problem('circle', { ring: [nameOf(node)], count: ring.length });
    const from = ring.indexOf(node);
    return problem('circle', { ring: [...ring.slice(from), ...ring.slice(0, from), node].map(nameOf) });
  }

  /** One number with its unit, the commonest typed value; gives whether nothing is wrong with it. */
  private readLiteral(node: number, text: string, parsed: Parsed): boolean {
    if (parsed.kind !== 'tree' || parsed.tolerance || parsed.tree.kind !== 'literal') return false;
    const { type, problems } = this.check(text, parsed.tree);
    if (problems.length > 0) return false;
    this.lanes.set(node, FLAG.TYPED, true);
    this.lanes.place(node, false);
    this.setType(node, type);
    this.keep(node, 0, parsed.tree.value, 0);
    return true;
  }

  /** Typed values are worked out on the spot, each column by itself. */
  private readTyped(node: number, texts: readonly string[], parsed: readonly Parsed[], each: boolean): void {
    this.lanes.set(node, FLAG.TYPED, true);
    this.lanes.place(node, each && this.lanes.columns.length > 0);
    const own = new Map<number, Problem>();
    const checks = parsed.map((one, c) => {
      if (one.kind === 'problem') own.set(c, one.problem);
      if (one.kind !== 'tree') return undefined;
      const checked = one.typed ? this.check(texts[c] ?? '', one.tree) : undefined;
      const bad = checked ? this.typedProblem(texts[c] ?? '', one, checked) : problem('formula-in-column');
      if (bad) own.set(c, bad);
      return bad ? undefined : checked;
    });
    this.setType(node, typedKind(checks, own, texts));
    if (own.size > 0) this.own.set(node, own);
    this.typedValues(node, parsed, own);
  }

  /** What is wrong with a typed value: its own problem, or a tolerance of another kind than the value. */
  private typedProblem(
    text: string,
    { tolerance }: Parsed & { kind: 'tree' },
    { type, problems }: Checked,
  ): Problem | undefined {
    if (problems.length > 0 || !tolerance) return problems[0];
    const off = this.check(text, tolerance).type;
    if (type.kind === 'quantity' && (isAlike(type, off) || isPercent(off))) return undefined;
    const parts = { value: typeInWords(type), off: typeInWords(off) };
    return problem('tolerance-unlike', parts, tolerance.at);
  }

  private typedValues(node: number, parsed: readonly Parsed[], own: Own): void {
    const type = this.lanes.types[node];
    const mustBeMore = type?.kind === 'quantity' && isGauge(type.dimension);
    const width = this.lanes.width(node);
    for (let c = 0; c < width; c += 1) {
      const one = parsed[c];
      const tree = one?.kind === 'tree' && !own.has(c) ? one : undefined;
      const worked = tree ? evaluate(tree.tree, 0, this.setting) : { value: Number.NaN, reason: EMPTY };
      const bad = worked.value <= 0 && mustBeMore ? problem('gauge-of-nothing') : own.get(c);
      if (bad) this.keep(node, c, Number.NaN, this.lanes.reasons.broken(bad));
      else this.keep(node, c, worked.value, worked.reason);
      if (tree?.tolerance) this.keepTolerance(node, c, tree.tolerance, worked.value);
    }
  }

  private keep(node: number, column: number, value: number, reason: number): void {
    this.changed = this.working.keep(node, column, value, reason) || this.changed;
  }

  /** Where a text gives no kind any more, that of what was knitted stays. */
  private setType(node: number, type: Type): void {
    this.lanes.types[node] = type.kind === 'unknown' ? (this.pins.typeOf(node) ?? type) : type;
  }

  private keepTolerance(node: number, column: number, tree: Node, value: number): void {
    const lanes = this.tolerances.get(node) ?? [];
    const off = Math.abs(evaluate(tree, 0, this.setting).value);
    const percent = tree.kind === 'literal' && tree.percent;
    lanes[column] = Number.isNaN(off) ? 0 : percent ? off * Math.abs(value) : off;
    this.tolerances.set(node, lanes);
  }
}

/** The kind of typed values: that of the first; those of another get a problem. */
function typedKind(
  checks: readonly (Checked | undefined)[],
  own: Map<number, Problem>,
  texts: readonly string[],
): Type {
  const first = checks.find((check) => check !== undefined)?.type ?? UNKNOWN;
  let decided = true;
  checks.forEach((check, c) => {
    if (!check) return;
    if (!isAlike(check.type, first)) own.set(c, problem('column-kind', { text: texts[c] ?? '' }));
    else if (check.type.kind === 'quantity' && !check.type.decided) decided = false;
  });
  return first.kind === 'quantity' ? quantity(first.dimension, decided, first.shown) : first;
}

/*
 * A sheet: named texts, some with one text for each column, kept worked out. Edits are cheap notes; `settle` then
 * does what they ask for: reads and checks what must be read again, works out what may have changed in order, and
 * stops wherever a value came out as it was. It gives what changed and what was worked out.
 *
 * The words: a *node* is a cell's number in the graph (0 is the chosen column, 1 is the day); a node's *lanes* are
 * its values, one or one for each column, at its *offset* in one array; a *stale* node must be read again, because
 * its text, a name in it, or the kind of something it uses has changed.
 *
 * Always true after `settle`:
 * - no node is stale or dirty;
 * - every lane equals what working the whole sheet out from nothing would give;
 * - a lane is NaN exactly when its reason is not 0.
 */

import {
  type Cells,
  type Checked,
  checkTree,
  compile,
  createPools,
  createStore,
  EMPTY,
  evaluate,
  type Field,
  type FunctionSpec,
  isPercent,
  isWholeCount,
  type Known,
  type Language,
  type Linker,
  Machine,
  MINUTES_A_DAY,
  NOT_YET,
  type Node,
  type Parsed,
  type Plan,
  type Problem,
  problem,
  quantity,
  Reasons,
  runWave,
  runWay,
  type Scope,
  type Surroundings,
  sameType,
  type Type,
  typeInWords,
  UNKNOWN,
  valueIn,
  walk,
} from '../formula/index.ts';
import { isGauge, PLAIN, unitNamed } from '../quantity/index.ts';
import { type Goes, Graph } from './graph.ts';
import { grown, Lists } from './lists.ts';
import { Pending } from './pending.ts';
import type { Value } from './value.ts';
import { Trodden } from './way.ts';

/** A ring of more cells than this is told by their number. */
const MOST_TOLD = 24;

/** One text, or one for each column. */
export type Text = string | readonly string[];

/** How the chosen column is found: a cell names it, it is fixed (counted from 0), or there is none. */
export type Choice = { readonly follow: string } | { readonly column: number } | undefined;

export interface SheetOptions {
  readonly language: Language;
  /** The labels of the columns. */
  readonly columns?: readonly string[];
  /** What the columns are: "size". */
  readonly heading?: string;
  readonly choice?: Choice;
  /** The day `today()` gives, as a day number. */
  readonly today?: number;
  readonly money?: string;
}

/** What a settling did: cells whose value, kind or reason changed, and cells that were worked out. To be asked before the next one. */
export interface Settled {
  readonly changed: readonly string[];
  readonly ran: readonly string[];
}

/** What is known of a cell before its numbers. */
export interface Info {
  readonly type: Type;
  readonly each: boolean;
  readonly typed: boolean;
}

export const CHOSEN = 0;
const TODAY = 1;
const RESERVED = 2;

/** Problems that stand in a cell's own text, by lane: one for all lanes, or one a column. */
type Own = ReadonlyMap<number, Problem>;
const NOTHING: readonly number[] = [];
const ALL = -1;

export class Sheet {
  private readonly language: Language;
  private readonly graph = new Graph();
  private readonly store = createStore();
  private readonly pools = createPools();
  private readonly machine = new Machine(this.pools, this.store);
  private readonly reasons = new Reasons();

  private readonly ids: string[] = ['', ''];
  private readonly names: string[] = ['', ''];
  private readonly texts: Text[] = ['', ''];
  private readonly byId = new Map<string, number>();
  private readonly byName = new Map<string, number>();
  /** Names that are used and that no cell has, with the nodes that use them. */
  private readonly wanted = new Map<string, Set<number>>();
  private readonly wants = new Map<number, readonly string[]>();
  /** Nodes with a text that could not be read. */
  private readonly unread = new Set<number>();
  /** Names came or went since the last settling: what is offered for unknown ones may be another. */
  private namesChanged = false;
  /** Nodes that took a name since the last settling: what waits for one shows it. */
  private readonly named = new Set<number>();

  private readonly types: Type[] = [quantity(PLAIN), { kind: 'date' }];
  private readonly own = new Map<number, Own>();
  private readonly tolerances = new Map<number, Float64Array>();
  /** Lanes that hold what was knitted, by node and column, and what they would hold otherwise, by lane. */
  private readonly pins = new Map<number, ReadonlyMap<number, number>>();
  /** The kind of what was knitted, for when the text gives none any more. */
  private readonly pinnedTypes = new Map<number, Type>();
  private readonly wouldBe = new Map<number, { readonly value: number; readonly reason: number }>();
  private pinsNow: ReadonlyMap<number, number> | undefined;
  private nodeNow = 0;
  /** Texts that were read and are still to be checked. */
  private readonly pending = new Pending();
  /** Nodes that must be read again, and what is known of each: see FLAG. */
  private flags = new Uint8Array(64);
  private offsets = new Int32Array(64);
  private values = new Float64Array(64);
  private lanesWhy = new Int32Array(64);
  private end = 0;
  private readonly freeSingles: number[] = [];
  private readonly freeEach: number[] = [];
  private readonly code = new Lists();
  /** Where constants of formulas are kept among the values. */
  private readonly constants = new Map<number, number>();
  private depth = 8;

  private columns: readonly string[];
  private labels: readonly number[] = [];
  private heading: string;
  private money: string;
  private choice: Choice;
  private today: number;
  private field: Field;
  /** What the last settling worked out: twice the node, plus one where it changed. */
  private ran = new Int32Array(64);
  private ranCount = 0;
  private settlings = 0;

  constructor(options: SheetOptions) {
    this.language = options.language;
    this.columns = options.columns ?? [];
    this.heading = options.heading ?? 'column';
    this.money = options.money ?? '';
    this.choice = options.choice;
    this.today = options.today ?? 0;
    for (let node = 0; node < RESERVED; node += 1) {
      this.graph.add();
      this.flags[node] = FLAG.SPECIAL;
      this.offsets[node] = this.allocate(false);
      this.graph.mark(node);
    }
    this.labels = this.columns.map((label) => this.store.label(label));
    this.field = this.fieldOn(this.values, 1, false);
  }

  // ── Edits ──────────────────────────────────────────────────────────────────────────────────────────────────────

  /** Adds a cell. Its id and its name must be new; the session sees to that. */
  add(id: string, name: string, text: Text): void {
    if (this.byId.has(id) || this.byName.has(name))
      throw new Error(`there is a cell ${id} or ${name} already`);
    const node = this.graph.add();
    if (node >= this.flags.length) {
      this.flags = grown(this.flags, node + 1);
      this.offsets = grown(this.offsets, node + 1);
    }
    this.flags[node] = 0;
    this.offsets[node] = -1;
    this.ids[node] = id;
    this.names[node] = name;
    this.texts[node] = text;
    this.types[node] = UNKNOWN;
    this.byId.set(id, node);
    this.take(name, node);
    this.write(node, text);
  }

  /** Replaces a cell's text. */
  setText(id: string, text: Text): void {
    this.write(this.nodeOf(id), text);
  }

  /** Replaces one column's text of a typed cell that has one for each. */
  setColumnText(id: string, column: number, text: string): void {
    const node = this.nodeOf(id);
    const texts = this.texts[node];
    if (typeof texts === 'string' || texts === undefined) throw new Error(`${id} has one text`);
    this.write(
      node,
      texts.map((old, c) => (c === column ? text : old)),
    );
  }

  /** Gives a cell another name. Texts that use the old name are not touched: they now use a cell that is not there. */
  rename(id: string, name: string): void {
    const node = this.nodeOf(id);
    if (this.byName.has(name)) throw new Error(`there is a cell ${name} already`);
    this.leave(node);
    this.names[node] = name;
    this.take(name, node);
  }

  remove(id: string): void {
    const node = this.nodeOf(id);
    this.leave(node);
    this.byId.delete(id);
    this.forgetWanted(node);
    this.release(node);
    this.graph.remove(node);
    this.own.delete(node);
    this.tolerances.delete(node);
    this.pending.delete(node);
    this.ids[node] = this.names[node] = '';
    this.texts[node] = '';
    this.pins.delete(node);
    this.pinnedTypes.delete(node);
    this.unread.delete(node);
  }

  /** Replaces the columns: the texts of cells with one for each are rearranged by `from` (old column, or −1 for a new one). */
  setColumns(labels: readonly string[], from: readonly number[], heading: string = this.heading): void {
    this.columns = labels;
    this.heading = heading;
    this.labels = labels.map((label) => this.store.label(label));
    this.wouldBe.clear();
    this.freeEach.length = 0;
    this.freeSingles.length = 0;
    this.constants.clear();
    this.end = 0;
    for (let node = 0; node < this.graph.size; node += 1) {
      if (!this.graph.isAlive(node)) continue;
      const text = this.texts[node];
      if (text !== undefined && typeof text !== 'string')
        this.write(
          node,
          from.map((old) => (old < 0 ? '' : (text[old] ?? ''))),
        );
      this.offsets[node] = -1;
      if (node < RESERVED) this.offsets[node] = this.allocate(false);
      this.flags[node] = (this.flags[node] as number) & ~FLAG.EACH;
      this.makeStale(node);
    }
    this.field = this.fieldOn(this.values, 1, false);
  }

  setChoice(choice: Choice): void {
    this.choice = choice;
    this.graph.setUses(CHOSEN, this.choiceUses());
    this.graph.mark(CHOSEN);
  }

  /** Says which lanes hold a value that was knitted, whatever their texts give: texts by cell id and column. */
  setPins(pins: ReadonlyMap<string, ReadonlyMap<number, string>>): void {
    const old = [...this.pins.keys()];
    this.pins.clear();
    this.pinnedTypes.clear();
    this.wouldBe.clear();
    for (const [id, lanes] of pins) {
      const values = new Map<number, number>();
      for (const [column, text] of lanes) {
        const parsed = this.parse(text);
        if (parsed.kind !== 'tree' || !parsed.typed) continue;
        values.set(column, evaluate(parsed.tree, 0, this.surroundings).value);
        this.pinnedTypes.set(this.nodeOf(id), checkTree(text, parsed.tree, this.scope).type);
      }
      this.pins.set(this.nodeOf(id), values);
    }
    for (const node of new Set([...old, ...this.pins.keys()])) {
      if (!this.graph.isAlive(node)) continue;
      if (this.pins.has(node)) this.flags[node]! |= FLAG.PINNED;
      else this.flags[node]! &= ~FLAG.PINNED;
      this.makeStale(node);
    }
  }

  /** What was knitted of a cell; not where its text has come to give another kind of thing. */
  private pinsOf(node: number): ReadonlyMap<number, number> | undefined {
    if (!this.flag(node, FLAG.PINNED)) return undefined;
    const [now, then] = [this.types[node] as Type, this.pinnedTypes.get(node)];
    const alike = now.kind === 'quantity' && then?.kind === 'quantity' && now.dimension === then.dimension;
    return alike || (now.kind !== 'quantity' && now.kind === then?.kind) ? this.pins.get(node) : undefined;
  }

  setToday(day: number): void {
    this.today = day;
    this.graph.mark(TODAY);
  }

  setMoney(money: string): void {
    this.money = money;
    for (const node of this.byId.values()) this.makeStale(node);
  }

  /** Does what the edits since the last settling ask for. */
  settle(): Settled {
    if (this.namesChanged) this.offerAgain();
    this.namesChanged = false;
    for (const node of this.graph.takeMoved()) if (node >= RESERVED) this.flags[node]! |= FLAG.STALE;
    if (this.ran.length < this.graph.size) this.ran = new Int32Array(Math.ceil(this.graph.size * 1.25));
    this.ranCount = 0;
    const source = this.graph.alone;
    this.goAgain(source);
    this.graph.sweep(this.recompute, this.goes);
    this.trodden.gone(source >= 0 && this.flag(source, FLAG.TYPED) ? source : -1);
    this.pending.clear();
    this.rewritten = -1;
    const shown = this.named.size > 0 ? this.showNames(this.ran.subarray(0, this.ranCount)) : NOTHING;
    this.settlings += 1;
    return new SettledNodes(this.journal, this.ranCount, shown, this.settlings);
  }

  /** Goes a way that is remembered. What is left to do is marked: all that follows where, the first cell read, it holds no more. */
  private goAgain(source: number): void {
    const way = this.trodden.from(source);
    if (!way) return;
    this.graph.unmark();
    const changed = this.recompute(source);
    this.ran[this.ranCount++] = changed ? 2 * source + 1 : 2 * source;
    if (!changed) return;
    if (this.trodden.from(source) !== way) return this.graph.markBeyond(source, source);
    const { nodes } = way;
    const done = runWay(way, this.cellsSeen, this.machine, this.recompute, this.ranCount);
    this.ranCount += Math.min(done + 1, nodes.length);
    if (done === nodes.length) return;
    const last = nodes[done]!;
    this.graph.markBeyond(source, last);
    for (let step = 0; step < done; step += 1) this.graph.markBeyond(nodes[step]!, last);
  }

  /** Whatever waits for a cell that took another name shows something else, though its value stayed. */
  private showNames(ran: Int32Array): readonly number[] {
    const changed = new Set<number>();
    for (const one of ran) if ((one & 1) === 1) changed.add(one >> 1);
    const found: number[] = [];
    for (const node of this.byId.values())
      if (!changed.has(node) && this.waitsForNamed(node)) found.push(node);
    this.named.clear();
    return found;
  }

  private waitsForNamed(node: number): boolean {
    const from = this.offsets[node]!;
    for (let lane = from + this.width(node) - 1; lane >= from; lane -= 1)
      if (this.named.has(this.reasons.waitsFor(this.lanesWhy[lane]!))) return true;
    return false;
  }

  private readonly journal = ((sheet: Sheet) => ({
    ids: sheet.ids,
    get ran() {
      return sheet.ran;
    },
    get settlings() {
      return sheet.settlings;
    },
  }))(this);

  private readonly goes: Goes = (wave, recompute) => {
    this.ranCount = runWave(wave, this.cellsSeen, this.machine, recompute, this.ranCount);
  };

  /** The cells as a wave sees them. */
  private readonly cellsSeen: Cells = ((sheet: Sheet): Cells => ({
    slow: FLAG.SLOW,
    each: FLAG.EACH,
    get values() {
      return sheet.values;
    },
    get why() {
      return sheet.lanesWhy;
    },
    get places() {
      return sheet.offsets;
    },
    get code() {
      return sheet.code.all;
    },
    get starts() {
      return sheet.code.starts;
    },
    get flags() {
      return sheet.flags;
    },
    get field() {
      return sheet.field;
    },
    get ran() {
      return sheet.ran;
    },
  }))(this);

  private readonly trodden = new Trodden(this.graph, this.cellsSeen, this.code);

  // ── Questions ──────────────────────────────────────────────────────────────────────────────────────────────────

  has(id: string): boolean {
    return this.byId.has(id);
  }

  idOf(name: string): string | undefined {
    const node = this.byName.get(name);
    return node === undefined ? undefined : this.ids[node];
  }

  nameOf(id: string): string {
    return this.names[this.nodeOf(id)] as string;
  }

  textOf(id: string): Text {
    return this.texts[this.nodeOf(id)] as Text;
  }

  /** Every id there is. */
  get cells(): readonly string[] {
    return [...this.byId.keys()];
  }

  info(id: string): Info {
    const node = this.nodeOf(id);
    return { type: this.types[node] as Type, each: this.isEach(node), typed: this.flag(node, FLAG.TYPED) };
  }

  /** What a cell holds in a column; the column is of no matter where it has one value. */
  value(id: string, column = 0): Value {
    const node = this.nodeOf(id);
    return this.valueAt(
      node,
      this.values[this.lane(node, column)] as number,
      this.lanesWhy[this.lane(node, column)] as number,
    );
  }

  /** Whether a lane holds a value that was knitted. */
  isPinned(id: string, column = 0): boolean {
    const node = this.nodeOf(id);
    return this.pinsOf(node)?.has(this.isEach(node) ? column : 0) ?? false;
  }

  /** What a pinned lane would hold if it were not pinned; the value itself for any other. */
  unpinned(id: string, column = 0): Value {
    const node = this.nodeOf(id);
    const kept = this.isPinned(id, column) ? this.wouldBe.get(this.lane(node, column)) : undefined;
    return kept ? this.valueAt(node, kept.value, kept.reason) : this.value(id, column);
  }

  /** The values as they are now, for telling later what moved. */
  freeze(): Frozen {
    const values = this.values.slice(0, this.end);
    const why = this.lanesWhy.slice(0, this.end);
    const offsets = this.offsets.slice(0, this.graph.size);
    const flags = this.flags.slice(0, this.graph.size);
    const types = [...this.types];
    const nodes = new Map(this.byId);
    return {
      value: (id, column) => {
        const node = nodes.get(id);
        if (node === undefined) return undefined;
        const lane = (offsets[node] as number) + ((flags[node] as number) & FLAG.EACH ? column : 0);
        return this.valueOf(types[node] as Type, values[lane] as number, why[lane] as number);
      },
    };
  }

  /** How far off a typed value can be in a column, in base units; 0 where nothing is said. */
  tolerance(id: string, column = 0): number {
    const node = this.nodeOf(id);
    return this.tolerances.get(node)?.[this.isEach(node) ? column : 0] ?? 0;
  }

  /** The number of the chosen column, or −1. */
  get chosenColumn(): number {
    const column = this.values[this.offsets[CHOSEN] as number] as number;
    return Number.isNaN(column) ? -1 : column;
  }

  /** The ids of the cells that a cell's text names, in the order of the text. */
  uses(id: string): readonly string[] {
    const node = this.nodeOf(id);
    return Array.from({ length: this.graph.useCount(node) }, (_, i) => this.graph.use(node, i))
      .filter((use) => use >= RESERVED)
      .map((use) => this.ids[use] as string);
  }

  /** The ids of the cells that name this one. */
  usedBy(id: string): readonly string[] {
    return [...this.graph.dependentsOf(this.nodeOf(id))]
      .filter((n) => n >= RESERVED)
      .map((n) => this.ids[n] as string);
  }

  /** Every cell that can change when this one does, nearest first (through the chosen column too). */
  feeds(id: string): readonly string[] {
    return this.graph
      .reachedFrom(this.nodeOf(id))
      .filter((n) => n >= RESERVED)
      .map((n) => this.ids[n] as string);
  }

  /** The cell and every cell it can hang on (through the chosen column too), each after what it uses. */
  above(id: string): readonly string[] {
    return this.graph
      .above(this.nodeOf(id))
      .filter((n) => n >= RESERVED)
      .map((n) => this.ids[n] as string);
  }

  /** The cell that the chosen column follows; undefined where it follows none. */
  get followed(): string | undefined {
    return this.choice && 'follow' in this.choice ? this.idOf(this.choice.follow) : undefined;
  }

  /** Reads a text against this sheet, without keeping it: its tree or problem, and its kind. */
  look(text: string): { readonly parsed: Parsed; readonly checked: Checked | undefined } {
    const parsed = this.parseOften(text);
    return { parsed, checked: parsed.kind === 'tree' ? checkTree(text, parsed.tree, this.scope) : undefined };
  }

  /** The tree of a cell's text (of one column, where it has several). */
  tree(id: string, column = 0): Node | undefined {
    const text = this.texts[this.nodeOf(id)] as Text;
    const parsed = this.parseOften(typeof text === 'string' ? text : (text[column] ?? ''));
    return parsed.kind === 'tree' ? parsed.tree : undefined;
  }

  /** Works a part of a formula out in a column, for "how it's worked out". */
  workOut(tree: Node, column: number): Value {
    const checked = checkTree('', tree, this.scope);
    const { value, reason } = evaluate(tree, column, this.surroundings);
    return this.valueOf(checked.type, value, reason);
  }

  /** The surroundings a tree is worked out in, for remarks about ties and left-out columns. */
  get around(): Surroundings {
    return this.surroundings;
  }

  spec(name: string): FunctionSpec | undefined {
    return this.language.spec(name);
  }

  /** The labels of the columns and what they are called. */
  get columnLabels(): readonly string[] {
    return this.columns;
  }

  /** What is offered for a text that names nothing, or that could not be read, depends on which names there are. */
  private offerAgain(): void {
    this.readings.clear();
    for (const node of this.wants.keys()) this.makeStale(node);
    for (const node of this.unread) {
      this.pending.delete(node);
      this.makeStale(node);
    }
  }

  // ── Texts and names ────────────────────────────────────────────────────────────────────────────────────────────

  private nodeOf(id: string): number {
    const node = this.byId.get(id);
    if (node === undefined) throw new Error(`no cell ${id}`);
    return node;
  }

  private readonly isCell = (name: string): boolean => this.byName.has(name);

  private parse(text: string): Parsed {
    return this.language.parse(text, this.isCell);
  }

  private parseAll(text: Text): readonly Parsed[] {
    return typeof text === 'string' ? [this.parse(text)] : text.map((one) => this.parse(one));
  }

  /** Texts read again and again for the page, as they read while the names are what they are. */
  private readonly readings = new Map<string, Parsed>();

  private parseOften(text: string): Parsed {
    let parsed = this.readings.get(text);
    if (!parsed) {
      if (this.readings.size > 4000) this.readings.clear();
      parsed = this.parse(text);
      this.readings.set(text, parsed);
    }
    return parsed;
  }

  private write(node: number, text: Text): void {
    this.texts[node] = text;
    if (this.rewrites(node, text)) return this.graph.mark(node);
    this.forgetWanted(node);
    const parsed = this.parseAll(text);
    this.pending.set(node, parsed);
    if (parsed.some((one) => one.kind === 'problem')) this.unread.add(node);
    else if (this.unread.size > 0) this.unread.delete(node);
    this.graph.setUses(node, this.usesIn(node, parsed));
    this.makeStale(node);
  }

  /** The node whose numbers were written over since the last settling, −1 where none was, and the numbers. */
  private rewritten = -1;
  private numbers = new Float64Array(16);

  /**
   * Reads numbers that were written over numbers of the same unit, the commonest edit: then nothing about the cell
   * changes but what it holds, and it need not be read again. Gives whether that is all there is to it.
   */
  private rewrites(node: number, text: Text): boolean {
    const type = this.types[node]!;
    if ((this.flags[node]! & FLAG.SLOW) !== FLAG.TYPED || type.kind !== 'quantity') return false;
    if (this.isEach(node) === (typeof text === 'string') || this.own.has(node) || this.tolerances.has(node))
      return false;
    if (this.rewritten >= 0 && this.rewritten !== node) return false;
    const width = this.width(node);
    if (this.numbers.length < width) this.numbers = new Float64Array(width);
    let decided = true;
    for (let c = 0; c < width; c += 1) {
      const value = valueIn(type.shown, typeof text === 'string' ? text : (text[c] ?? ''));
      if (Number.isNaN(value)) return false;
      this.numbers[c] = value;
      decided &&= isWholeCount(type.dimension, value);
    }
    if (decided !== type.decided || (!type.shown && type.dimension !== PLAIN)) return false;
    this.rewritten = node;
    return true;
  }

  private keepNumbers(node: number): boolean {
    const width = this.width(node);
    const at = this.offsets[node]!;
    let changed = false;
    for (let c = 0; c < width; c += 1) changed = this.keepLane(at + c, this.numbers[c]!, 0) || changed;
    return changed;
  }

  /** Whether a text could not be read as the parser was still to come. To be asked of a settled sheet. */
  get hasMissed(): boolean {
    return this.missed().length > 0;
  }

  /** Reads once more what could not be read while the parser was still to come. */
  readMissed(): void {
    this.readings.clear();
    for (const node of this.missed()) this.write(node, this.texts[node] as Text);
  }

  private missed(): readonly number[] {
    const own = (node: number) => [...(this.own.get(node)?.values() ?? [])];
    return [...this.unread].filter((node) => own(node).some(({ code }) => code === NOT_YET));
  }

  private usesIn(node: number, parsed: readonly Parsed[]): readonly number[] {
    if (parsed.every((one) => one.kind !== 'tree' || one.typed)) return NOTHING;
    const uses = new Set<number>();
    const see = (part: Node) => {
      if (part.kind === 'cell') this.useName(node, part.name, uses);
      if (part.kind !== 'call') return;
      const spec = this.language.spec(part.name);
      if (spec?.kind === 'today') uses.add(TODAY);
      if (spec?.kind === 'run' && spec.followsChosen) uses.add(CHOSEN);
    };
    for (const one of parsed) if (one.kind === 'tree') walk(one.tree, see);
    return [...uses];
  }

  private useName(node: number, name: string, uses: Set<number>): void {
    const used = this.byName.get(name);
    if (used !== undefined) return void uses.add(used);
    const waiting = this.wanted.get(name) ?? new Set<number>();
    this.wanted.set(name, waiting.add(node));
    this.wants.set(node, [...(this.wants.get(node) ?? []), name]);
  }

  private forgetWanted(node: number): void {
    if (this.wants.size === 0) return;
    for (const name of this.wants.get(node) ?? []) {
      const nodes = this.wanted.get(name);
      if (nodes?.delete(node) && nodes.size === 0) this.wanted.delete(name);
    }
    this.wants.delete(node);
  }

  /** A name now belongs to a cell: texts that used it in vain are read again. */
  private take(name: string, node: number): void {
    this.namesChanged = true;
    if (this.reasons.areFor(node)) this.named.add(node);
    this.byName.set(name, node);
    for (const user of this.wanted.get(name) ?? []) this.readAgain(user);
    this.wanted.delete(name);
    this.yieldUnit(name);
    if (this.choice && 'follow' in this.choice && this.choice.follow === name) this.setChoice(this.choice);
  }

  /** A cell gives its name up: what used it is read again. */
  private leave(node: number): void {
    this.namesChanged = true;
    const users = [...this.graph.dependentsOf(node)];
    this.byName.delete(this.names[node] as string);
    for (const user of users) {
      if (user >= RESERVED) this.readAgain(user);
      else this.graph.mark(user);
    }
    this.yieldUnit(this.names[node] as string);
    this.graph.setUses(CHOSEN, this.choiceUses());
  }

  /** A cell may have the name of a unit that came into the language after it: then texts mean the cell by it. */
  private yieldUnit(name: string): void {
    if (unitNamed(name)) for (const node of this.byId.values()) this.readAgain(node);
  }

  private readAgain(node: number): void {
    if (this.byId.get(this.ids[node] as string) === node) this.write(node, this.texts[node] as Text);
  }

  private makeStale(node: number): void {
    this.flags[node] = (this.flags[node] as number) | FLAG.STALE;
    this.graph.mark(node);
  }

  private choiceUses(): readonly number[] {
    if (!this.choice || !('follow' in this.choice)) return NOTHING;
    const follow = this.byName.get(this.choice.follow);
    return follow === undefined ? NOTHING : [follow];
  }

  // ── Lanes ──────────────────────────────────────────────────────────────────────────────────────────────────────

  private flag(node: number, flag: number): boolean {
    return ((this.flags[node] as number) & flag) !== 0;
  }

  private setFlag(node: number, flag: number, is: boolean): void {
    if (is) this.flags[node]! |= flag;
    else this.flags[node]! &= ~flag;
  }

  private isEach(node: number): boolean {
    return this.flag(node, FLAG.EACH);
  }

  private width(node: number): number {
    return this.isEach(node) ? this.columns.length : 1;
  }

  private lane(node: number, column: number): number {
    return (this.offsets[node] as number) + (this.isEach(node) ? column : 0);
  }

  private allocate(each: boolean): number {
    const free = each ? this.freeEach : this.freeSingles;
    const offset = free.pop() ?? this.end;
    const width = each ? this.columns.length : 1;
    if (offset === this.end) this.end += width;
    // One more than there are: an odd number of columns is read with what is behind it (`wave-columns.ts`).
    if (this.end >= this.values.length) {
      this.values = grown(this.values, this.end + 1);
      this.lanesWhy = grown(this.lanesWhy, this.end + 1);
      this.field = this.fieldOn(this.values, 1, false);
    }
    this.values.fill(Number.NaN, offset, offset + width);
    this.lanesWhy.fill(0, offset, offset + width);
    return offset;
  }

  /** The place of a constant. Its value is there in every variant. */
  private constant(value: number): number {
    let offset = this.constants.get(value);
    if (offset === undefined) {
      offset = this.allocate(false);
      this.constants.set(value, offset);
      this.values[offset] = value;
    }
    return offset;
  }

  private release(node: number): void {
    const offset = this.offsets[node] as number;
    if (offset < 0) return;
    (this.isEach(node) ? this.freeEach : this.freeSingles).push(offset);
    this.offsets[node] = -1;
  }

  /** Gives a node lanes of the right number. */
  private place(node: number, each: boolean): void {
    if ((this.offsets[node] as number) >= 0 && this.isEach(node) === each) return;
    this.release(node);
    this.flags[node] = each
      ? (this.flags[node] as number) | FLAG.EACH
      : (this.flags[node] as number) & ~FLAG.EACH;
    this.offsets[node] = this.allocate(each);
  }

  private columnOf(label: number): number {
    return Number.isNaN(label) ? -1 : this.labels.findIndex((other) => this.store.sameLabel(other, label));
  }

  private fieldOn(values: Float64Array, variants: number, held: boolean): Field {
    return {
      values,
      variants,
      columns: this.columns.length,
      held,
      chosenOffset: this.offsets[CHOSEN] as number,
      labelOf: (column) => this.labels[column] ?? Number.NaN,
      columnOf: (label) => this.columnOf(label),
      isBroken: (offset, each, column) => this.isBroken(offset + (each ? column : 0)),
    };
  }

  /** Whether a lane has no value because of a problem, its own or further up, rather than for want of one. */
  private isBroken(lane: number): boolean {
    return this.reasons.isWrong(this.lanesWhy[lane] as number);
  }

  // ── Reading and checking ───────────────────────────────────────────────────────────────────────────────────────

  private readonly scope: Scope = ((sheet: Sheet): Scope => ({
    cell: (name) => sheet.known(name),
    cellNames: () => sheet.byName.keys(),
    spec: (name) => sheet.language.spec(name),
    specNames: () => sheet.language.specs.map((spec) => spec.name),
    get columns() {
      return sheet.columns.length > 0;
    },
    get heading() {
      return sheet.heading;
    },
    get money() {
      return sheet.money;
    },
  }))(this);

  private known(name: string): Known | undefined {
    const node = this.byName.get(name);
    return node === undefined ? undefined : { type: this.types[node] as Type, each: this.isEach(node) };
  }

  private readonly linker: Linker = ((sheet: Sheet): Linker => ({
    offset: (name) => {
      const node = sheet.byName.get(name);
      return node === undefined ? undefined : (sheet.offsets[node] as number);
    },
    isEach: (name) => sheet.isEach(sheet.byName.get(name) as number),
    isLabel: (node) => sheet.isLabel(node),
    isPercent: (node) => sheet.isPercent(node),
    spec: (name) => sheet.language.spec(name),
    constant: (value) => sheet.constant(value),
    get store() {
      return sheet.store;
    },
    get todayOffset() {
      return sheet.offsets[TODAY] as number;
    },
    get chosenOffset() {
      return sheet.offsets[CHOSEN] as number;
    },
  }))(this);

  private isLabel(node: Node): boolean {
    if (node.kind === 'label') return true;
    if (node.kind === 'cell') return this.known(node.name)?.type.kind === 'label';
    if (node.kind === 'if') return this.isLabel(node.yes) || this.isLabel(node.no);
    if (node.kind !== 'call') return false;
    const spec = this.language.spec(node.name);
    if (spec?.gives === 'label') return true;
    return spec?.gives === 'first' && node.args[0] !== undefined && this.isLabel(node.args[0]);
  }

  private isPercent(node: Node): boolean {
    return isPercent(checkTree('', node, this.scope).type);
  }

  /** Reads a stale node: its kind, its lanes, its code or its typed values. Gives whether its kind changed. */
  private read(node: number): boolean {
    this.flags[node] = (this.flags[node] as number) & ~FLAG.STALE;
    const text = this.texts[node] as Text;
    const parsed = this.pending.get(node) ?? this.parseAll(text);
    const old = { type: this.types[node] as Type, each: this.isEach(node), offset: this.offsets[node] };
    if (this.own.size > 0) this.own.delete(node);
    this.flags[node]! &= ~FLAG.OWN;
    if (this.tolerances.size > 0) this.tolerances.delete(node);
    this.code.set(node, NOTHING);
    if (typeof text !== 'string') this.readTyped(node, text, parsed, true);
    else if (!this.readLiteral(node, text, parsed[0] as Parsed))
      this.readOne(node, text, parsed[0] as Parsed);
    if (this.types[node]?.kind === 'unknown') this.types[node] = this.pinnedTypes.get(node) ?? UNKNOWN;
    return (
      !sameType(old.type, this.types[node] as Type) ||
      old.each !== this.isEach(node) ||
      old.offset !== this.offsets[node]
    );
  }

  private readOne(node: number, text: string, parsed: Parsed): void {
    if (parsed.kind !== 'tree' || parsed.typed) return this.readTyped(node, [text], [parsed], false);
    this.flags[node] = (this.flags[node] as number) & ~FLAG.TYPED;
    const ring = this.graph.ring(node);
    const checked = checkTree(text, parsed.tree, this.scope);
    const bad = ring ? this.ringProblem(node, ring) : checked.problems[0];
    this.types[node] = bad ? UNKNOWN : checked.type;
    this.place(node, checked.each && this.columns.length > 0 && ring === undefined);
    if (bad) {
      this.flags[node]! |= FLAG.OWN;
      return void this.own.set(node, new Map([[ALL, bad]]));
    }
    const { code, depth } = compile(parsed.tree, this.linker, this.pools);
    this.code.set(node, code);
    this.depth = Math.max(this.depth, depth);
    this.machine.reserve(this.depth, Math.max(1, this.columns.length));
    this.setFlag(node, FLAG.BRANCHES, isBranching(parsed.tree, this.language));
  }

  /** One number with its unit, the commonest typed value; gives whether nothing is wrong with it. */
  private readLiteral(node: number, text: string, parsed: Parsed): boolean {
    if (parsed.kind !== 'tree' || parsed.tolerance || parsed.tree.kind !== 'literal') return false;
    const { type, problems } = checkTree(text, parsed.tree, this.scope);
    if (problems.length > 0) return false;
    this.setFlag(node, FLAG.TYPED, true);
    this.place(node, false);
    this.types[node] = type;
    this.freshAt = this.offsets[node]!;
    this.takeFresh(parsed.tree.value, 0);
    return true;
  }

  /** Typed values are worked out on the spot, each column by itself. */
  private readTyped(node: number, texts: readonly string[], parsed: readonly Parsed[], each: boolean): void {
    this.flags[node] = (this.flags[node] as number) | FLAG.TYPED;
    this.place(node, each && this.columns.length > 0);
    const own = new Map<number, Problem>();
    const checks = parsed.map((one, c) => {
      if (one.kind === 'problem') own.set(c, one.problem);
      if (one.kind !== 'tree') return undefined;
      const checked = one.typed ? checkTree(texts[c] ?? '', one.tree, this.scope) : undefined;
      const bad = checked ? this.typedProblem(texts[c] ?? '', one, checked) : problem('formula-in-column');
      if (bad) own.set(c, bad);
      return bad ? undefined : checked;
    });
    this.types[node] = this.typedKind(checks, own, texts);
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
    const off = checkTree(text, tolerance, this.scope).type;
    if (type.kind === 'quantity' && off.kind === 'quantity')
      if (off.dimension === type.dimension || isPercent(off)) return undefined;
    const parts = { value: typeInWords(type), off: typeInWords(off) };
    return problem('tolerance-unlike', parts, tolerance.at);
  }

  private typedKind(
    checks: readonly (Checked | undefined)[],
    own: Map<number, Problem>,
    texts: readonly string[],
  ): Type {
    const first = checks.find((check) => check !== undefined)?.type ?? UNKNOWN;
    let decided = true;
    checks.forEach((check, c) => {
      if (!check) return;
      const alike = check.type.kind === first.kind;
      const both = check.type.kind === 'quantity' && first.kind === 'quantity';
      if (!alike || (both && check.type.kind === 'quantity' && check.type.dimension !== first.dimension))
        own.set(c, problem('column-kind', { text: texts[c] ?? '' }));
      else if (check.type.kind === 'quantity' && !check.type.decided) decided = false;
    });
    return first.kind === 'quantity' ? quantity(first.dimension, decided, first.shown) : first;
  }

  private typedValues(node: number, parsed: readonly Parsed[], own: ReadonlyMap<number, Problem>): void {
    const offset = this.offsets[node] as number;
    const width = this.width(node);
    for (let c = 0; c < width; c += 1) {
      const one = parsed[c];
      const tree = one?.kind === 'tree' && !own.has(c) ? one : undefined;
      const worked = tree ? evaluate(tree.tree, 0, this.surroundings) : { value: Number.NaN, reason: EMPTY };
      const bad = worked.value <= 0 && this.isGauge(node) ? problem('gauge-of-nothing') : own.get(c);
      this.takeFresh(bad ? Number.NaN : worked.value, bad ? this.reasons.broken(bad) : worked.reason);
      if (tree?.tolerance) this.keepTolerance(node, c, tree.tolerance, worked.value);
    }
    this.freshAt = offset;
  }

  private isGauge(node: number): boolean {
    const type = this.types[node];
    return type?.kind === 'quantity' && isGauge(type.dimension);
  }

  private keepTolerance(node: number, column: number, tree: Node, value: number): void {
    const lanes = this.tolerances.get(node) ?? new Float64Array(this.width(node));
    const off = Math.abs(evaluate(tree, 0, this.surroundings).value);
    const percent = tree.kind === 'literal' && tree.percent;
    lanes[column] = Number.isNaN(off) ? 0 : percent ? off * Math.abs(value) : off;
    this.tolerances.set(node, lanes);
  }

  private ringProblem(node: number, ring: readonly number[]): Problem {
    // Thousands of cells that each named thousands would fill the memory, and nobody would read it.
    if (ring.length > MOST_TOLD)
      return problem('circle', { ring: [this.names[node] as string], count: ring.length });
    const from = ring.indexOf(node);
    const turned = [...ring.slice(from), ...ring.slice(0, from), node];
    return problem('circle', {
      ring: turned.map((n) => (n === CHOSEN ? `the chosen ${this.heading}` : (this.names[n] as string))),
    });
  }

  // ── Working out ────────────────────────────────────────────────────────────────────────────────────────────────

  /** Values and reasons just worked out for the node at hand, before they are compared with the old ones. */
  private readonly fresh: number[] = [];
  /** How many numbers of `fresh` count. */
  private freshCount = 0;
  private freshAt = 0;
  private scratch = new Float64Array(64);

  /** Works a node out; gives whether it changed. Plain cells come here only where they have no value. */
  private readonly recompute = (node: number): boolean => {
    const flags = this.flags[node]!;
    if ((flags & FLAG.SLOW) !== 0) return this.recomputeSlowly(node);
    return (flags & FLAG.EACH) !== 0 ? this.workLanes(node) : this.work(node);
  };

  private workLanes(node: number): boolean {
    const at = this.offsets[node]!;
    const width = this.columns.length;
    if (this.scratch.length < width) this.scratch = new Float64Array(width * 2);
    const { scratch, values, lanesWhy } = this;
    this.machine.lanes(this.code.all, this.code.start(node), values, this.field, true, scratch, 0);
    let changed = false;
    for (let c = 0; c < width; c += 1) {
      const value = scratch[c]!;
      const old = values[at + c]!;
      if (value === old) continue;
      if (Number.isNaN(value)) changed = this.keepLane(at + c, value, this.why(node, c)) || changed;
      else {
        values[at + c] = value;
        if (Number.isNaN(old)) lanesWhy[at + c] = 0;
        changed = true;
      }
    }
    return changed;
  }

  private recomputeSlowly(node: number): boolean {
    this.nodeNow = node;
    if (node === CHOSEN) return this.recomputeChosen();
    if (node === TODAY) return this.keep(TODAY, this.today * MINUTES_A_DAY, 0);
    if (node === this.rewritten && !this.flag(node, FLAG.STALE)) return this.keepNumbers(node);
    this.freshCount = 0;
    let kindChanged = false;
    if (this.flag(node, FLAG.STALE)) {
      kindChanged = this.read(node);
      if (kindChanged || !this.flag(node, FLAG.TYPED)) this.trodden.forget();
      if (kindChanged)
        for (const user of this.graph.dependentsOf(node))
          if (user >= RESERVED) this.flags[user]! |= FLAG.STALE;
    }
    this.pinsNow = this.pinsOf(node);
    const changed = this.freshCount > 0 ? this.keepFresh() : this.work(node);
    this.pinsNow = undefined;
    return changed || kindChanged;
  }

  private recomputeChosen(): boolean {
    const { choice } = this;
    if (this.graph.ring(CHOSEN))
      return this.keep(CHOSEN, Number.NaN, this.reasons.broken(problem('circle', { ring: [] })));
    if (!choice) return this.keep(CHOSEN, Number.NaN, EMPTY);
    if ('column' in choice) {
      const there = choice.column >= 0 && choice.column < this.columns.length;
      return this.keep(CHOSEN, there ? choice.column : Number.NaN, there ? 0 : EMPTY);
    }
    const follow = this.byName.get(choice.follow);
    if (follow === undefined || this.types[follow]?.kind !== 'label' || this.isEach(follow))
      return this.keep(CHOSEN, Number.NaN, EMPTY);
    const lane = this.lane(follow, 0);
    const column = this.columnOf(this.values[lane] as number);
    if (column >= 0) return this.keep(CHOSEN, column, 0);
    const reason = this.lanesWhy[lane] as number;
    return this.keep(CHOSEN, Number.NaN, reason === 0 ? EMPTY : this.passedOn(follow, reason));
  }

  private keep(node: number, value: number, reason: number): boolean {
    const lane = this.offsets[node] as number;
    return this.keepLane(lane, value, reason);
  }

  private keepLane(lane: number, worked: number, why: number): boolean {
    let value = worked;
    let reason = why;
    if (this.pinsNow) {
      const pinned = this.pinsNow.get(
        this.isEach(this.nodeNow) ? lane - (this.offsets[this.nodeNow] as number) : 0,
      );
      if (pinned === undefined) this.wouldBe.delete(lane);
      else {
        this.wouldBe.set(lane, { value, reason });
        value = pinned;
        reason = 0;
      }
    }
    const old = this.values[lane] as number;
    const same =
      old === value || (Number.isNaN(old) && Number.isNaN(value) && this.lanesWhy[lane] === reason);
    this.values[lane] = value;
    this.lanesWhy[lane] = reason;
    return !same;
  }

  /** Takes the next value just worked out, with the reason where there is none. */
  private takeFresh(value: number, reason: number): void {
    this.fresh[this.freshCount++] = value;
    this.fresh[this.freshCount++] = reason;
  }

  private keepFresh(): boolean {
    let changed = false;
    for (let i = 0; i < this.freshCount; i += 2) {
      const lane = this.freshAt + i / 2;
      changed = this.keepLane(lane, this.fresh[i] as number, this.fresh[i + 1] as number) || changed;
    }
    return changed;
  }

  /** Works a formula out in all its lanes and keeps what came of it. */
  private work(node: number): boolean {
    const own = this.own.get(node)?.get(ALL);
    const offset = this.offsets[node] as number;
    const width = this.width(node);
    if (this.flag(node, FLAG.TYPED)) return false;
    if (own) return this.keepBroken(offset, width, this.reasons.broken(own));
    const { field, values, code } = this;
    if (this.scratch.length < width) this.scratch = new Float64Array(width * 2);
    const { scratch } = this;
    this.machine.lanes(code.all, code.start(node), values, field, this.isEach(node), scratch, 0);
    let changed = false;
    for (let c = 0; c < width; c += 1) {
      const value = scratch[c] as number;
      const kept = this.keepLane(offset + c, value, Number.isNaN(value) ? this.why(node, c) : 0);
      changed = kept || changed;
    }
    return changed;
  }

  private keepBroken(offset: number, width: number, reason: number): boolean {
    let changed = false;
    for (let c = 0; c < width; c += 1) changed = this.keepLane(offset + c, Number.NaN, reason) || changed;
    return changed;
  }

  /** Why a lane came out without a value: the first of its cells that has none, or a look at the formula itself. */
  private why(node: number, column: number): number {
    if (!this.flag(node, FLAG.BRANCHES))
      for (let i = 0; i < this.graph.useCount(node); i += 1) {
        const use = this.graph.use(node, i);
        const reason = this.lanesWhy[this.lane(use, column)] as number;
        if (reason !== 0) return this.passedOn(use, reason);
      }
    const tree = this.tree(this.ids[node] as string);
    const { reason } = tree ? evaluate(tree, column, this.surroundings) : { reason: EMPTY };
    return reason;
  }

  /** What a cell that uses `node` waits for, when `node` has no value for this reason. */
  private passedOn(node: number, reason: number): number {
    return this.reasons.waitsFor(reason) >= 0
      ? reason
      : this.reasons.waiting(node, this.reasons.isWrong(reason));
  }

  private readonly surroundings: Surroundings = ((sheet: Sheet): Surroundings => {
    const read = (node: number, column: number) => {
      const lane = sheet.lane(node, column);
      const reason = sheet.lanesWhy[lane] as number;
      return { value: sheet.values[lane] as number, reason: reason === 0 ? 0 : sheet.passedOn(node, reason) };
    };
    return {
      read: (name, column) => {
        const node = sheet.byName.get(name);
        return node === undefined ? { value: Number.NaN, reason: EMPTY } : read(node, column);
      },
      isEach: (name) => sheet.isEach(sheet.byName.get(name) as number),
      isLabel: (node) => sheet.isLabel(node),
      isPercent: (node) => sheet.isPercent(node),
      spec: (name) => sheet.language.spec(name),
      offset: (name) => sheet.offsets[sheet.byName.get(name) as number] as number,
      get store() {
        return sheet.store;
      },
      get reasons() {
        return sheet.reasons;
      },
      get field() {
        return sheet.field;
      },
      get today() {
        return sheet.today * MINUTES_A_DAY;
      },
      get chosen() {
        return read(CHOSEN, 0);
      },
    };
  })(this);

  // ── Values ─────────────────────────────────────────────────────────────────────────────────────────────────────

  private valueAt(node: number, value: number, reason: number): Value {
    return this.valueOf(this.types[node] as Type, value, reason);
  }

  private valueOf(type: Type, value: number, reason: number): Value {
    if (Number.isNaN(value)) return this.noValue(reason);
    switch (type.kind) {
      case 'quantity':
        return { kind: 'quantity', value, type };
      case 'truth':
        return { kind: 'truth', truth: value === 1 };
      case 'label':
        return { kind: 'label', text: this.store.labelText(value) };
      case 'date':
        return { kind: 'date', day: Math.floor(value / MINUTES_A_DAY) };
      case 'plan':
        return { kind: 'plan', plan: this.store.planAt(value) as Plan };
      case 'unknown':
        return { kind: 'empty' };
    }
  }

  private noValue(reason: number): Value {
    const bad = this.reasons.problemOf(reason);
    if (bad) return { kind: 'problem', problem: bad };
    const root = this.reasons.waitsFor(reason);
    return root < 0 ? { kind: 'empty' } : { kind: 'waiting', name: this.names[root] ?? '' };
  }
}

/** The values of a sheet as they were. */
export interface Frozen {
  /** What a cell held in a column; undefined where there was no such cell. */
  value(id: string, column: number): Value | undefined;
}

/**
 * What is known of a node, a bit each: to be read again; one value for each column; typed; which cells matter depends on
 * values; a problem of its own; on the needles; the chosen column or the day. SLOW: whatever is not the plain case.
 */
const FLAG = {
  STALE: 1,
  EACH: 2,
  TYPED: 4,
  BRANCHES: 8,
  OWN: 16,
  PINNED: 32,
  SPECIAL: 64,
  SLOW: 1 | 4 | 16 | 32 | 64,
} as const;

/** What a settling did, put into ids only when asked; `shown` are cells that only show another name. */
class SettledNodes implements Settled {
  constructor(
    private readonly sheet: {
      readonly ids: readonly string[];
      readonly ran: Int32Array;
      readonly settlings: number;
    },
    private readonly count: number,
    private readonly shown: readonly number[],
    private readonly settling: number,
  ) {}

  get changed(): readonly string[] {
    return this.named((one) => (one & 1) === 1, this.shown);
  }

  get ran(): readonly string[] {
    return this.named(() => true, NOTHING);
  }

  private named(counts: (one: number) => boolean, more: readonly number[]): readonly string[] {
    const { ids, ran, settlings } = this.sheet;
    if (settlings !== this.settling) throw new Error('asked what a settling did after the next one');
    const nodes = [...ran.subarray(0, this.count).filter(counts)].map((one) => one >> 1);
    return [...nodes, ...more].filter((node) => node >= RESERVED).map((node) => ids[node] as string);
  }
}

/** Whether which cells matter depends on values: then the reason for no value is found by walking the tree. */
function isBranching(tree: Node, language: Language): boolean {
  let branches = false;
  walk(tree, (node) => {
    if (node.kind === 'if' || (node.kind === 'binary' && (node.op === 'and' || node.op === 'or')))
      branches = true;
    if (node.kind === 'call' && ['given', 'run'].includes(language.spec(node.name)?.kind ?? ''))
      branches = true;
  });
  return branches;
}

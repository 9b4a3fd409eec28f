/*
 * A sheet: named texts, some with one text for each column, kept worked out. Edits are cheap notes; `settle` then
 * does what they ask for: reads and checks what must be read again, works out what may have changed in order, and
 * stops wherever a value came out as it was. It gives what changed and what was worked out.
 *
 * Each part of it has a file: which cell has which name (`names.ts`), what was written (`texts.ts`), which uses which
 * (`graph.ts`), what they hold (`lanes.ts`, `pins.ts`, `chosen.ts`); how texts become kinds, code and typed values
 * (`reading.ts`), code becomes values (`working.ts`), and a wave of it all goes (`settling.ts`). What stands here is what an
 * edit means to each of them, and whom a question is for.
 *
 * The words: a *node* is a cell's number in the graph (0 is the chosen column, 1 is the day); a *stale* node must be read
 * again, because its text, a name in it, or the kind of something it uses has changed.
 *
 * Always true after `settle`:
 * - no node is stale or dirty;
 * - every lane equals what working the whole sheet out from nothing would give;
 * - a lane is NaN exactly when its reason is not 0.
 */

import {
  type Checked,
  checkTree,
  evaluate,
  type FunctionSpec,
  type Language,
  type Node,
  type Parsed,
  type Surroundings,
  type Type,
} from '../formula/index.ts';
import { unitNamed } from '../quantity/index.ts';
import { type Choice, Chosen } from './chosen.ts';
import * as FLAG from './flags.ts';
import { Graph } from './graph.ts';
import { CHOSEN, Lanes, RESERVED, TODAY } from './lanes.ts';
import { Names } from './names.ts';
import { Pins } from './pins.ts';
import { Reading } from './reading.ts';
import { Setting } from './setting.ts';
import { type Settled, Settling } from './settling.ts';
import { type Text, Texts } from './texts.ts';
import { asValue, type Frozen, frozen, type Value } from './value.ts';
import { Working } from './working.ts';
import { WrittenOver } from './written-over.ts';

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

/** What is known of a cell before its numbers. */
export interface Info {
  readonly type: Type;
  readonly each: boolean;
  readonly typed: boolean;
}

/** Named texts, kept worked out. Whatever is told or asked by an id must be of a cell there is. */
export class Sheet {
  private readonly graph = new Graph();
  private readonly names = new Names();
  private readonly lanes = new Lanes();
  private readonly pins = new Pins(this.lanes);
  private readonly texts: Texts;
  private readonly setting: Setting;
  private readonly chosen: Chosen;
  private readonly working: Working;
  private readonly reading: Reading;
  private readonly over: WrittenOver;
  private readonly settling: Settling;

  constructor(options: SheetOptions) {
    for (let node = 0; node < RESERVED; node += 1) this.graph.mark(this.graph.add());
    this.lanes.setColumns(options.columns ?? []);
    this.texts = new Texts(options.language, this.names);
    this.setting = new Setting(options, this.names, this.lanes);
    this.chosen = new Chosen(options.choice, this.graph, this.names, this.lanes);
    this.working = new Working(this.graph, this.lanes, this.pins, this.texts, this.setting);
    this.reading = new Reading(this.graph, this.lanes, this.pins, this.texts, this.setting, this.working);
    this.over = new WrittenOver(this.lanes, this.reading);
    this.settling = new Settling(
      this.graph,
      this.names,
      this.lanes,
      this.setting,
      this.chosen,
      this.working,
      this.reading,
      this.over,
    );
  }

  // ── Edits ──────────────────────────────────────────────────────────────────────────────────────────────────────

  /** Adds a cell. Its id and its name must be new; the session sees to that. */
  add(id: string, name: string, text: Text): void {
    if (this.names.has(id) || this.names.isName(name))
      throw new Error(`there is a cell ${id} or ${name} already`);
    const node = this.graph.add();
    this.lanes.add(node);
    this.take(name, node);
    this.names.add(id, node);
    this.write(node, text);
  }

  /** Replaces a cell's text. */
  setText(id: string, text: Text): void {
    this.write(this.nodeOf(id), text);
  }

  /** Replaces one column's text of a typed cell that has one for each. */
  setColumnText(id: string, column: number, text: string): void {
    const node = this.nodeOf(id);
    const texts = this.texts.of(node);
    if (typeof texts === 'string') throw new Error(`${id} has one text`);
    this.write(
      node,
      texts.map((old, c) => (c === column ? text : old)),
    );
  }

  /** Gives a cell another name. Texts that use the old name are not touched: they now use a cell that is not there. */
  rename(id: string, name: string): void {
    const node = this.nodeOf(id);
    if (this.names.isName(name)) throw new Error(`there is a cell ${name} already`);
    this.leave(node);
    this.take(name, node);
  }

  remove(id: string): void {
    const node = this.nodeOf(id);
    this.leave(node);
    this.names.remove(node);
    this.lanes.release(node);
    this.graph.remove(node);
    this.reading.remove(node);
    this.texts.remove(node);
    this.pins.remove(node);
  }

  /** Replaces the columns: the texts of cells with one for each are rearranged by `from` (old column, or −1 for a new one). */
  setColumns(
    labels: readonly string[],
    from: readonly number[],
    heading: string = this.setting.heading,
  ): void {
    this.setting.heading = heading;
    this.lanes.setColumns(labels);
    for (let node = 0; node < this.graph.size; node += 1) {
      if (!this.graph.isAlive(node)) continue;
      const text = this.texts.of(node);
      if (typeof text !== 'string')
        this.write(
          node,
          from.map((old) => (old < 0 ? '' : (text[old] ?? ''))),
        );
      this.makeStale(node);
    }
  }

  setChoice(choice: Choice): void {
    this.chosen.choice = choice;
    this.chosen.link();
    this.graph.mark(CHOSEN);
  }

  /** Says which lanes hold a value that was knitted, whatever their texts give: texts by cell id and column. */
  setPins(pins: ReadonlyMap<string, ReadonlyMap<number, string>>): void {
    const old = this.pins.nodes;
    for (const node of old) this.pins.remove(node);
    for (const [id, lanes] of pins) {
      const node = this.nodeOf(id);
      for (const [column, text] of lanes) {
        const parsed = this.texts.parse(text);
        if (parsed.kind !== 'tree' || !parsed.typed) continue;
        const { type } = checkTree(text, parsed.tree, this.setting);
        this.pins.set(node, column, evaluate(parsed.tree, 0, this.setting).value, type);
      }
    }
    for (const node of new Set([...old, ...this.pins.nodes])) this.makeStale(node);
  }

  setToday(day: number): void {
    this.setting.day = day;
    this.graph.mark(TODAY);
  }

  setMoney(money: string): void {
    this.setting.money = money;
    for (const node of this.names.nodes) this.makeStale(node);
  }

  /** Does what the edits since the last settling ask for. */
  settle(): Settled {
    if (this.names.changed) this.offerAgain();
    this.names.changed = false;
    const settled = this.settling.settle();
    this.texts.settled();
    this.over.settled();
    return settled;
  }

  /** Whether a text could not be read as the parser was still to come. To be asked of a settled sheet. */
  get hasMissed(): boolean {
    return this.missed().length > 0;
  }

  /** Reads once more what could not be read while the parser was still to come. */
  readMissed(): void {
    this.texts.forget();
    for (const node of this.missed()) this.write(node, this.texts.of(node));
  }

  private missed(): readonly number[] {
    return [...this.texts.unread].filter((node) => this.reading.isMissed(node));
  }

  private write(node: number, text: Text): void {
    this.texts.keep(node, text);
    if (this.over.takes(node, text)) return this.graph.mark(node);
    this.graph.setUses(node, this.texts.read(node));
    this.makeStale(node);
  }

  private readAgain(node: number): void {
    if (this.names.isCell(node)) this.write(node, this.texts.of(node));
  }

  private makeStale(node: number): void {
    this.lanes.set(node, FLAG.STALE, true);
    this.graph.mark(node);
  }

  /** A name now belongs to a cell: texts that used it in vain are read again. */
  private take(name: string, node: number): void {
    this.settling.tookName(node);
    for (const user of this.names.take(name, node)) this.readAgain(user);
    this.yieldUnit(name);
    if (this.chosen.follows === name) this.setChoice(this.chosen.choice);
  }

  /** A cell gives its name up: what used it is read again. */
  private leave(node: number): void {
    const users = this.graph.dependentsOf(node);
    this.names.leave(node);
    for (const user of users) {
      if (user >= RESERVED) this.readAgain(user);
      else this.graph.mark(user);
    }
    this.yieldUnit(this.names.nameOf(node));
    this.chosen.link();
  }

  /** A cell may have the name of a unit that came into the language after it: then texts mean the cell by it. */
  private yieldUnit(name: string): void {
    if (unitNamed(name)) for (const node of this.names.nodes) this.readAgain(node);
  }

  /** What is offered for a text that names nothing, or that could not be read, depends on which names there are. */
  private offerAgain(): void {
    this.texts.forget();
    for (const node of this.names.wanting) this.makeStale(node);
    for (const node of this.texts.unread) this.makeStale(node);
  }

  // ── Questions ──────────────────────────────────────────────────────────────────────────────────────────────────

  has(id: string): boolean {
    return this.names.has(id);
  }

  idOf(name: string): string | undefined {
    const node = this.names.named(name);
    return node === undefined ? undefined : this.names.ids[node];
  }

  nameOf(id: string): string {
    return this.names.nameOf(this.nodeOf(id));
  }

  textOf(id: string): Text {
    return this.texts.of(this.nodeOf(id));
  }

  /** Every id there is. */
  get cells(): readonly string[] {
    return [...this.names.cells];
  }

  info(id: string): Info {
    const node = this.nodeOf(id);
    const { lanes } = this;
    return { type: lanes.types[node] as Type, each: lanes.isEach(node), typed: lanes.has(node, FLAG.TYPED) };
  }

  /** What a cell holds in a column; the column is of no matter where it has one value. */
  value(id: string, column = 0): Value {
    const node = this.nodeOf(id);
    const lane = this.lanes.lane(node, column);
    return this.valueAt(node, this.lanes.values[lane] as number, this.lanes.why[lane] as number);
  }

  /** Whether a lane holds a value that was knitted. */
  isPinned(id: string, column = 0): boolean {
    return this.pins.isPinned(this.nodeOf(id), column);
  }

  /** What a pinned lane would hold if it were not pinned; the value itself for any other. */
  unpinned(id: string, column = 0): Value {
    const node = this.nodeOf(id);
    const kept = this.pins.otherwise(node, column);
    return kept ? this.valueAt(node, kept.value, kept.reason) : this.value(id, column);
  }

  /** The values as they are now, for telling later what moved. */
  freeze(): Frozen {
    return frozen(this.lanes, this.names);
  }

  /** How far off a typed value can be in a column, in base units; 0 where nothing is said. */
  tolerance(id: string, column = 0): number {
    const node = this.nodeOf(id);
    return this.reading.tolerance(node, this.lanes.isEach(node) ? column : 0);
  }

  /** The number of the chosen column, or −1. */
  get chosenColumn(): number {
    return this.chosen.column;
  }

  /** The cell that the chosen column follows; undefined where it follows none. */
  get followed(): string | undefined {
    const node = this.chosen.followed;
    return node === undefined ? undefined : this.names.ids[node];
  }

  /** The ids of the cells that a cell's text names, in the order of the text. */
  uses(id: string): readonly string[] {
    const node = this.nodeOf(id);
    return this.idsOf(Array.from({ length: this.graph.useCount(node) }, (_, i) => this.graph.use(node, i)));
  }

  /** The ids of the cells that name this one. */
  usedBy(id: string): readonly string[] {
    return this.idsOf(this.graph.dependentsOf(this.nodeOf(id)));
  }

  /** Every cell that can change when this one does, nearest first (through the chosen column too). */
  feeds(id: string): readonly string[] {
    return this.idsOf(this.graph.reachedFrom(this.nodeOf(id)));
  }

  /** Every cell that can change when another column is chosen. */
  get ledByChoice(): readonly string[] {
    return this.idsOf(this.graph.reachedFrom(CHOSEN));
  }

  /** The cell and every cell it can hang on (through the chosen column too), each after what it uses. */
  above(id: string): readonly string[] {
    return this.idsOf(this.graph.above(this.nodeOf(id)));
  }

  /** Reads a text against this sheet, without keeping it: its tree or problem, and its kind. */
  look(text: string): { readonly parsed: Parsed; readonly checked: Checked | undefined } {
    const parsed = this.texts.parseOften(text);
    return {
      parsed,
      checked: parsed.kind === 'tree' ? checkTree(text, parsed.tree, this.setting) : undefined,
    };
  }

  /** The tree of a cell's text (of one column, where it has several). */
  tree(id: string, column = 0): Node | undefined {
    return this.texts.tree(this.nodeOf(id), column);
  }

  /** Works a part of a formula out in a column, for "how it's worked out". */
  workOut(tree: Node, column: number): Value {
    const checked = checkTree('', tree, this.setting);
    const { value, reason } = evaluate(tree, column, this.setting);
    return asValue(checked.type, value, reason, this.lanes, this.names);
  }

  /** The surroundings a tree is worked out in, for remarks about ties and left-out columns. */
  get around(): Surroundings {
    return this.setting;
  }

  spec(name: string): FunctionSpec | undefined {
    return this.setting.spec(name);
  }

  /** The labels of the columns and what they are called. */
  get columnLabels(): readonly string[] {
    return this.lanes.columns;
  }

  private nodeOf(id: string): number {
    return this.names.nodeOf(id);
  }

  private idsOf(nodes: readonly number[]): readonly string[] {
    return nodes.filter((node) => node >= RESERVED).map((node) => this.names.ids[node] as string);
  }

  private valueAt(node: number, value: number, reason: number): Value {
    return asValue(this.lanes.types[node] as Type, value, reason, this.lanes, this.names);
  }
}

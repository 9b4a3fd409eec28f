/*
 * A sheet worked out the obvious way: every text read, every kind found and every value walked out of its tree, by
 * recursion, from nothing. No graph, no code, no lanes, no cut-off, and nothing kept from one state to the next. It
 * shares the reading, the checking and the tree walk with the real sheet, and is what that is held against.
 */

import {
  type Checked,
  checkTree,
  createStore,
  EMPTY,
  evaluate,
  type Field,
  isPercent,
  type Known,
  type Language,
  MINUTES_A_DAY,
  type Node,
  type Parsed,
  type Problem,
  problem,
  quantity,
  Reasons,
  type Scope,
  type Surroundings,
  type Type,
  typeInWords,
  UNKNOWN,
  type Worked,
  walk,
} from '../../src/formula/index.ts';
import { isGauge } from '../../src/quantity/index.ts';
import type { Choice, Info, Text, Value } from '../../src/sheet/index.ts';

/** Everything a sheet is made of. */
export interface Whole {
  readonly cells: readonly { readonly id: string; readonly name: string; readonly text: Text }[];
  readonly columns: readonly string[];
  readonly heading: string;
  readonly choice: Choice;
  readonly today: number;
  readonly money: string;
  /** Texts of what was knitted, by cell id and column. */
  readonly pins: ReadonlyMap<string, ReadonlyMap<number, string>>;
}

const CHOSEN = 'the chosen column';

/** What is known of a cell from its text and its surroundings, before its numbers. */
interface Read extends Known {
  readonly typed: boolean;
  readonly parsed: readonly Parsed[];
  /** Problems in the text itself, by column; −1 for all. */
  readonly own: ReadonlyMap<number, Problem>;
}

/** A sheet worked out from nothing. */
export class NaiveSheet {
  private readonly store = createStore();
  private readonly reasons = new Reasons();
  private readonly reads = new Map<string, Read>();
  private readonly lanes = new Map<string, readonly Worked[]>();
  private readonly index: ReadonlyMap<string, number>;
  private readonly values: Float64Array;
  private readonly why: Int32Array;
  private isChoosing = false;

  constructor(
    private readonly language: Language,
    private readonly whole: Whole,
  ) {
    this.index = new Map(whole.cells.map(({ name }, i) => [name, i]));
    const room = whole.cells.length * Math.max(1, whole.columns.length);
    this.values = new Float64Array(room).fill(Number.NaN);
    this.why = new Int32Array(room);
  }

  info(name: string): Info {
    const { type, each, typed } = this.read(name);
    return { type, each, typed };
  }

  value(name: string, column: number): Value {
    const { type, each } = this.read(name);
    const { value, reason } = this.work(name)[each ? column : 0] as Worked;
    return this.valueOf(type, value, reason);
  }

  get chosenColumn(): number {
    const { value } = this.chosen();
    return Number.isNaN(value) ? -1 : value;
  }

  // ── What uses what ─────────────────────────────────────────────────────────────────────────────────────────────

  private textsOf(name: string): readonly string[] {
    const text = this.whole.cells[this.index.get(name) as number]?.text as Text;
    return typeof text === 'string' ? [text] : text;
  }

  private isList(name: string): boolean {
    return typeof this.whole.cells[this.index.get(name) as number]?.text !== 'string';
  }

  private parse(text: string): Parsed {
    return this.language.parse(text, (name) => this.index.has(name));
  }

  /** What a cell, or the chosen column, uses, in the order of the text. */
  private uses(name: string): readonly string[] {
    const used = new Set<string>();
    if (name === CHOSEN) {
      const { choice } = this.whole;
      return choice && 'follow' in choice && this.index.has(choice.follow) ? [choice.follow] : [];
    }
    for (const text of this.textsOf(name)) {
      const parsed = this.parse(text);
      if (parsed.kind !== 'tree') continue;
      walk(parsed.tree, (node) => {
        if (node.kind === 'cell' && this.index.has(node.name)) used.add(node.name);
        const spec = node.kind === 'call' ? this.language.spec(node.name) : undefined;
        if (spec?.kind === 'run' && spec.followsChosen) used.add(CHOSEN);
      });
    }
    return [...used];
  }

  /** The shortest way from a cell through what it uses back to itself. */
  private ring(name: string): readonly string[] | undefined {
    const seen = new Set<string>();
    for (let paths: string[][] = [[name]]; paths.length > 0; ) {
      const longer: string[][] = [];
      for (const path of paths)
        for (const use of this.uses(path.at(-1) as string)) {
          if (use === name) return path;
          if (seen.has(use)) continue;
          seen.add(use);
          longer.push([...path, use]);
        }
      paths = longer;
    }
    return undefined;
  }

  // ── Kinds ──────────────────────────────────────────────────────────────────────────────────────────────────────

  private readonly scope: Scope = {
    cell: (name) => (this.index.has(name) ? this.read(name) : undefined),
    cellNames: () => this.index.keys(),
    spec: (name) => this.language.spec(name),
    specNames: () => this.language.specs.map((spec) => spec.name),
    columns: true,
    heading: '',
    money: '',
  };

  private scopeHere(): Scope {
    const { columns, heading, money } = this.whole;
    return { ...this.scope, columns: columns.length > 0, heading, money };
  }

  private read(name: string): Read {
    const known = this.reads.get(name);
    if (known) return known;
    const texts = this.textsOf(name);
    const parsed = texts.map((text) => this.parse(text));
    const [only] = parsed;
    const formula = !this.isList(name) && only?.kind === 'tree' && !only.typed ? only : undefined;
    const read = formula ? this.readFormula(name, formula) : this.readTyped(name, texts, parsed);
    const pin = [...this.pinsOf(name).values()].at(-1);
    const kept = read.type.kind === 'unknown' && pin ? { ...read, type: this.pinned(pin).type } : read;
    this.reads.set(name, kept);
    return kept;
  }

  private readFormula(name: string, parsed: Parsed & { kind: 'tree' }): Read {
    const ring = this.ring(name);
    const said = ring && [...ring, name].map((n) => (n === CHOSEN ? `the chosen ${this.whole.heading}` : n));
    const broken = (made: Problem, each: boolean): Read => ({
      type: UNKNOWN,
      each,
      typed: false,
      parsed: [parsed],
      own: new Map([[-1, made]]),
    });
    if (said) return broken(problem('circle', { ring: said }), false);
    const { type, each, problems } = checkTree(this.textsOf(name)[0] ?? '', parsed.tree, this.scopeHere());
    const byColumn = each && this.whole.columns.length > 0;
    if (problems[0]) return broken(problems[0], byColumn);
    return { type, each: byColumn, typed: false, parsed: [parsed], own: new Map() };
  }

  private readTyped(name: string, texts: readonly string[], parsed: readonly Parsed[]): Read {
    const own = new Map<number, Problem>();
    const types = parsed.map((one, c): Type | undefined => {
      if (one.kind === 'problem') own.set(c, one.problem);
      if (one.kind !== 'tree') return undefined;
      const checked = one.typed ? checkTree(texts[c] ?? '', one.tree, this.scopeHere()) : undefined;
      const bad = checked ? this.typedProblem(texts[c] ?? '', one, checked) : problem('formula-in-column');
      if (bad) own.set(c, bad);
      return bad ? undefined : checked?.type;
    });
    const first = types.find((type) => type !== undefined) ?? UNKNOWN;
    const kept = types.filter((type, c) => {
      if (!type || typeInWords(type) === typeInWords(first)) return type !== undefined;
      own.set(c, problem('column-kind', { text: texts[c] ?? '' }));
      return false;
    });
    const decided = kept.every((type) => type?.kind !== 'quantity' || type.decided);
    const type = first.kind === 'quantity' ? quantity(first.dimension, decided, first.shown) : first;
    return { type, each: this.isList(name) && this.whole.columns.length > 0, typed: true, parsed, own };
  }

  private typedProblem(
    text: string,
    { tolerance }: Parsed & { kind: 'tree' },
    { type, problems }: Checked,
  ): Problem | undefined {
    if (problems.length > 0 || !tolerance) return problems[0];
    const off = checkTree(text, tolerance, this.scopeHere()).type;
    const both = type.kind === 'quantity' && off.kind === 'quantity';
    if (both && (off.dimension === type.dimension || isPercent(off))) return undefined;
    return problem('tolerance-unlike', { value: typeInWords(type), off: typeInWords(off) }, tolerance.at);
  }

  // ── Values ─────────────────────────────────────────────────────────────────────────────────────────────────────

  private offset(name: string): number {
    return (this.index.get(name) as number) * Math.max(1, this.whole.columns.length);
  }

  /** A cell's value in each of its lanes. */
  private work(name: string): readonly Worked[] {
    const known = this.lanes.get(name);
    if (known) return known;
    const read = this.read(name);
    const width = read.each ? this.whole.columns.length : 1;
    if (read.own.get(-1) === undefined && !read.typed)
      for (const use of this.uses(name)) if (use !== CHOSEN) this.work(use);
    const lanes = Array.from({ length: width }, (_, c) => this.lane(name, read, c));
    lanes.forEach(({ value, reason }, c) => {
      this.values[this.offset(name) + c] = value;
      this.why[this.offset(name) + c] = reason;
    });
    this.lanes.set(name, lanes);
    return lanes;
  }

  private pinsOf(name: string): ReadonlyMap<number, string> {
    const id = this.whole.cells[this.index.get(name) as number]?.id ?? '';
    return this.whole.pins.get(id) ?? new Map();
  }

  /** A text of what was knitted, as its value and kind. */
  private pinned(text: string): { readonly value: number; readonly type: Type } {
    const parsed = this.parse(text);
    if (parsed.kind !== 'tree') throw new Error(`no value: ${text}`);
    const { type } = checkTree(text, parsed.tree, this.scopeHere());
    return { value: evaluate(parsed.tree, 0, this.around).value, type };
  }

  /** What was knitted counts, unless the text has come to give another kind of thing. */
  private lane(name: string, read: Read, column: number): Worked {
    const pins = this.pinsOf(name);
    const text = pins.get(column);
    const last = [...pins.values()].at(-1);
    if (text !== undefined && last && typeInWords(this.pinned(last).type) === typeInWords(read.type))
      return { value: this.pinned(text).value, reason: 0 };
    return this.unpinned(name, read, column);
  }

  private unpinned(name: string, read: Read, column: number): Worked {
    const bad = read.own.get(-1) ?? read.own.get(column);
    if (bad) return { value: Number.NaN, reason: this.reasons.broken(bad) };
    const parsed = read.parsed[read.typed ? column : 0];
    if (parsed?.kind !== 'tree') return { value: Number.NaN, reason: EMPTY };
    const worked = evaluate(parsed.tree, column, this.around);
    if (read.typed && worked.value <= 0 && read.type.kind === 'quantity' && isGauge(read.type.dimension))
      return { value: Number.NaN, reason: this.reasons.broken(problem('gauge-of-nothing')) };
    if (!Number.isNaN(worked.value) || read.typed || this.branches(parsed.tree)) return worked;
    const missing = this.uses(name)
      .map((use) => this.around.read(use, column))
      .find(({ value }) => Number.isNaN(value));
    return missing ?? worked;
  }

  /** Whether which cells matter depends on values; elsewhere the first cell without a value is what is waited for. */
  private branches(tree: Node): boolean {
    let found = false;
    walk(tree, (node) => {
      const kind = node.kind === 'call' ? this.language.spec(node.name)?.kind : undefined;
      const either = node.kind === 'binary' && (node.op === 'and' || node.op === 'or');
      if (node.kind === 'if' || either || kind === 'given' || kind === 'run') found = true;
    });
    return found;
  }

  private passedOn(name: string, { value, reason }: Worked): Worked {
    if (!Number.isNaN(value) || this.reasons.waitsFor(reason) >= 0) return { value, reason };
    const cell = name === CHOSEN ? this.whole.cells.length : (this.index.get(name) as number);
    return { value, reason: this.reasons.waiting(cell, this.reasons.isWrong(reason)) };
  }

  private chosen(): Worked {
    const { choice, columns } = this.whole;
    const none = { value: Number.NaN, reason: EMPTY };
    if (this.ring(CHOSEN)) return { ...none, reason: this.reasons.broken(problem('circle', { ring: [] })) };
    if (!choice) return none;
    if ('column' in choice)
      return choice.column >= 0 && choice.column < columns.length
        ? { value: choice.column, reason: 0 }
        : none;
    if (!this.index.has(choice.follow)) return none;
    const { type, each } = this.read(choice.follow);
    if (type.kind !== 'label' || each) return none;
    const worked = this.work(choice.follow)[0] as Worked;
    if (Number.isNaN(worked.value)) return this.passedOn(choice.follow, worked);
    const column = this.columnOf(worked.value);
    return column < 0 ? none : { value: column, reason: 0 };
  }

  private columnOf(label: number): number {
    const wanted = this.store.labelText(label).toLowerCase();
    return Number.isNaN(label) ? -1 : this.whole.columns.findIndex((other) => other.toLowerCase() === wanted);
  }

  private isLabel(node: Node): boolean {
    return checkTree('', node, this.scopeHere()).type.kind === 'label';
  }

  private get field(): Field {
    const { columns } = this.whole;
    return {
      values: this.values,
      variants: 1,
      columns: columns.length,
      held: false,
      chosenOffset: 0,
      labelOf: (column) => (columns[column] === undefined ? Number.NaN : this.store.label(columns[column])),
      columnOf: (label) => this.columnOf(label),
      isBroken: (offset, each, column) =>
        this.reasons.isWrong(this.why[offset + (each ? column : 0)] as number),
    };
  }

  private readonly around: Surroundings = ((naive: NaiveSheet): Surroundings => ({
    read: (name, column) => {
      const lanes = naive.work(name);
      return naive.passedOn(name, lanes[naive.read(name).each ? column : 0] as Worked);
    },
    isEach: (name) => naive.read(name).each,
    isLabel: (node) => naive.isLabel(node),
    isPercent: (node) => isPercent(checkTree('', node, naive.scopeHere()).type),
    spec: (name) => naive.language.spec(name),
    offset: (name) => naive.offset(name),
    get store() {
      return naive.store;
    },
    get reasons() {
      return naive.reasons;
    },
    get field() {
      return naive.field;
    },
    get today() {
      return naive.whole.today * MINUTES_A_DAY;
    },
    get chosen() {
      // The walk looks at the chosen column for every function over the columns, also those that have no use for it.
      if (naive.isChoosing) return { value: Number.NaN, reason: EMPTY };
      naive.isChoosing = true;
      const chosen = naive.passedOn(CHOSEN, naive.chosen());
      naive.isChoosing = false;
      return chosen;
    },
  }))(this);

  private valueOf(type: Type, value: number, reason: number): Value {
    if (Number.isNaN(value)) {
      const bad = this.reasons.problemOf(reason);
      if (bad) return { kind: 'problem', problem: bad };
      const root = this.reasons.waitsFor(reason);
      return root < 0 ? { kind: 'empty' } : { kind: 'waiting', name: this.whole.cells[root]?.name ?? '' };
    }
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
        return { kind: 'plan', plan: this.store.planAt(value) };
      case 'unknown':
        return { kind: 'empty' };
    }
  }
}

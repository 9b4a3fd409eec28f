/*
 * What a formula stands in. It is checked in a *scope* (which cells there are, and of what kind), compiled by a *linker*
 * (where their values lie), and walked in *surroundings* (what they hold): three faces of one thing, the cells around it
 * and what is said of the sheet as a whole.
 */

import {
  checkTree,
  EMPTY,
  type Field,
  type FunctionSpec,
  isPercent,
  type Known,
  type Language,
  type Linker,
  MINUTES_A_DAY,
  type Node,
  type Reasons,
  type Scope,
  type Store,
  type Surroundings,
  type Type,
  type Worked,
} from '../formula/index.ts';
import { CHOSEN, type Lanes, TODAY } from './lanes.ts';
import type { Names } from './names.ts';
import type { SheetOptions } from './sheet.ts';

/** The cells as formulas see them. Only cells that there are may be asked for, but by `cell` and `read`. */
export class Setting implements Scope, Linker, Surroundings {
  private readonly language: Language;
  heading: string;
  money: string;
  /** The day `today()` gives, as a day number. */
  day: number;

  constructor(
    { language, heading = 'column', money = '', today = 0 }: SheetOptions,
    private readonly names: Names,
    private readonly lanes: Lanes,
  ) {
    this.language = language;
    this.heading = heading;
    this.money = money;
    this.day = today;
  }

  cell(name: string): Known | undefined {
    const node = this.names.named(name);
    if (node === undefined) return undefined;
    return { type: this.lanes.types[node] as Type, each: this.lanes.isEach(node) };
  }
  cellNames(): Iterable<string> {
    return this.names.all;
  }
  isEach(name: string): boolean {
    return this.lanes.isEach(this.names.named(name) as number);
  }
  offset(name: string): number {
    return this.lanes.offsets[this.names.named(name) as number] as number;
  }
  read(name: string, column: number): Worked {
    const node = this.names.named(name);
    return node === undefined ? { value: Number.NaN, reason: EMPTY } : this.held(node, column);
  }

  private held(node: number, column: number): Worked {
    const value = this.lanes.values[this.lanes.lane(node, column)] as number;
    return { value, reason: this.lanes.handedOn(node, column) };
  }

  /** What a node is called in a sentence. */
  nameOf(node: number): string {
    return node === CHOSEN ? `the chosen ${this.heading}` : this.names.nameOf(node);
  }

  spec(name: string): FunctionSpec | undefined {
    return this.language.spec(name);
  }
  specNames(): Iterable<string> {
    return this.language.specs.map((spec) => spec.name);
  }

  isLabel(node: Node): boolean {
    if (node.kind === 'label') return true;
    if (node.kind === 'cell') return this.cell(node.name)?.type.kind === 'label';
    if (node.kind === 'if') return this.isLabel(node.yes) || this.isLabel(node.no);
    if (node.kind !== 'call') return false;
    const spec = this.spec(node.name);
    if (spec?.gives === 'label') return true;
    return spec?.gives === 'first' && node.args[0] !== undefined && this.isLabel(node.args[0]);
  }
  isPercent(node: Node): boolean {
    return isPercent(checkTree('', node, this).type);
  }

  get columns(): boolean {
    return this.lanes.columns.length > 0;
  }
  get chosen(): Worked {
    return this.held(CHOSEN, 0);
  }
  get chosenOffset(): number {
    return this.lanes.offsets[CHOSEN] as number;
  }
  /** The day in minutes, as days are held. */
  get today(): number {
    return this.day * MINUTES_A_DAY;
  }
  get todayOffset(): number {
    return this.lanes.offsets[TODAY] as number;
  }

  constant(value: number): number {
    return this.lanes.constant(value);
  }
  get store(): Store {
    return this.lanes.store;
  }
  get reasons(): Reasons {
    return this.lanes.reasons;
  }
  get field(): Field {
    return this.lanes.field;
  }
}

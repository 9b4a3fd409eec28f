/*
 * The texts of a sheet as they were written, and how they read. What a text says depends on which names there are: who
 * knows of another says so. What was read for an edit is kept until the settling that checks it; what the page asks for
 * again and again, until names come or go.
 */

import { type Language, type Node, type Parsed, walk } from '../formula/index.ts';
import { CHOSEN, TODAY } from './lanes.ts';
import type { Names } from './names.ts';
import { Pending } from './pending.ts';

/** One text, or one for each column. */
export type Text = string | readonly string[];

/** What a text says of a column. */
export function inColumn(text: Text, column: number): string {
  return typeof text === 'string' ? text : (text[column] ?? '');
}

const NOTHING: readonly number[] = [];

/** The text of every node. */
export class Texts {
  private readonly written: Text[] = ['', ''];
  private readonly pending = new Pending();
  /** Nodes with a text that could not be read. */
  readonly unread = new Set<number>();
  private readonly readings = new Map<string, Parsed>();

  constructor(
    private readonly language: Language,
    private readonly names: Names,
  ) {}

  of(node: number): Text {
    return this.written[node] as Text;
  }

  /** Keeps a text, without reading it. */
  keep(node: number, text: Text): void {
    this.written[node] = text;
  }

  remove(node: number): void {
    this.written[node] = '';
    this.pending.delete(node);
    this.unread.delete(node);
  }

  /** Reads a node's text for the next settling; gives what it uses, and says which names it wants. */
  read(node: number): readonly number[] {
    this.names.wantNothing(node);
    const parsed = this.parseAll(this.of(node));
    this.pending.set(node, parsed);
    if (parsed.some((one) => one.kind === 'problem')) this.unread.add(node);
    else if (this.unread.size > 0) this.unread.delete(node);
    return this.usesIn(node, parsed);
  }

  /** What a node's text says. */
  parsed(node: number): readonly Parsed[] {
    return this.pending.get(node) ?? this.parseAll(this.of(node));
  }

  /** Forgets what was read for the settling that is now over. */
  settled(): void {
    this.pending.clear();
  }

  /** Forgets whatever may read otherwise by now, as there are other names or the parser has come. */
  forget(): void {
    this.readings.clear();
    for (const node of this.unread) this.pending.delete(node);
  }

  parse(text: string): Parsed {
    return this.language.parse(text, this.names.isName);
  }

  private parseAll(text: Text): readonly Parsed[] {
    return typeof text === 'string' ? [this.parse(text)] : text.map((one) => this.parse(one));
  }

  /** What a text says, remembered while the names are what they are. */
  parseOften(text: string): Parsed {
    let parsed = this.readings.get(text);
    if (!parsed) {
      if (this.readings.size > 4000) this.readings.clear();
      parsed = this.parse(text);
      this.readings.set(text, parsed);
    }
    return parsed;
  }

  /** The tree of a node's text (of one column, where it has several). */
  tree(node: number, column: number): Node | undefined {
    const parsed = this.parseOften(inColumn(this.of(node), column));
    return parsed.kind === 'tree' ? parsed.tree : undefined;
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
    const used = this.names.named(name);
    if (used === undefined) this.names.want(name, node);
    else uses.add(used);
  }
}

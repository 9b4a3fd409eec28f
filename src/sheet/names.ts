/*
 * The names of a sheet. A cell has an id, which stays, and a name, which formulas use and which may become another. A
 * name that a formula uses and no cell has is *wanted*: when a cell takes it, whoever wants it is read again.
 *
 * Always true:
 * - a cell is found by its id and by its name, and by no other; no two cells share either;
 * - a name is wanted by just the nodes whose texts use it, and by none while a cell has it.
 */

/** Which cell is meant by which name. Nodes below RESERVED have none. */
export class Names {
  /** By node; '' where there is no cell. */
  readonly ids: string[] = ['', ''];
  private readonly names: string[] = ['', ''];
  private readonly byId = new Map<string, number>();
  private readonly byName = new Map<string, number>();
  /** Nodes by the name they want, and names by the node that wants them. */
  private readonly wanted = new Map<string, Set<number>>();
  private readonly wants = new Map<number, readonly string[]>();
  /** Whether names came or went since the last settling: what is offered for unknown ones may be another. */
  changed = false;

  /** Every cell's node, and its id, in the order in which they came. */
  get nodes(): Iterable<number> {
    return this.byId.values();
  }
  get cells(): Iterable<string> {
    return this.byId.keys();
  }
  /** The nodes by id, as they are now. */
  byIds(): ReadonlyMap<string, number> {
    return new Map(this.byId);
  }
  /** Every name. */
  get all(): Iterable<string> {
    return this.byName.keys();
  }
  /** The nodes that want a name. */
  get wanting(): Iterable<number> {
    return this.wants.keys();
  }

  has(id: string): boolean {
    return this.byId.has(id);
  }

  /** Whether a cell has a name. */
  readonly isName = (name: string): boolean => this.byName.has(name);

  nodeOf(id: string): number {
    const node = this.byId.get(id);
    if (node === undefined) throw new Error(`no cell ${id}`);
    return node;
  }

  /** The node of the cell that has a name. */
  named(name: string): number | undefined {
    return this.byName.get(name);
  }

  nameOf(node: number): string {
    return this.names[node] ?? '';
  }

  isCell(node: number): boolean {
    return this.byId.get(this.ids[node] as string) === node;
  }

  add(id: string, node: number): void {
    this.ids[node] = id;
    this.byId.set(id, node);
  }

  /** Forgets a cell that has given its name up. */
  remove(node: number): void {
    this.byId.delete(this.ids[node] as string);
    this.wantNothing(node);
    this.ids[node] = this.names[node] = '';
  }

  /** A name now belongs to a node. Gives the nodes that wanted it. */
  take(name: string, node: number): Iterable<number> {
    this.changed = true;
    this.names[node] = name;
    this.byName.set(name, node);
    const waiting = this.wanted.get(name);
    this.wanted.delete(name);
    return waiting ?? [];
  }

  /** A node gives its name up. */
  leave(node: number): void {
    this.changed = true;
    this.byName.delete(this.nameOf(node));
  }

  /** A node's text uses a name that no cell has. */
  want(name: string, node: number): void {
    const waiting = this.wanted.get(name) ?? new Set<number>();
    this.wanted.set(name, waiting.add(node));
    this.wants.set(node, [...(this.wants.get(node) ?? []), name]);
  }

  /** A node's text is to be another: it wants none of its names any more. */
  wantNothing(node: number): void {
    if (this.wants.size === 0) return;
    for (const name of this.wants.get(node) ?? []) {
      const nodes = this.wanted.get(name);
      if (nodes?.delete(node) && nodes.size === 0) this.wanted.delete(name);
    }
    this.wants.delete(node);
  }
}

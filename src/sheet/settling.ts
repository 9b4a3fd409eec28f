/*
 * Settling: what was marked is worked out in order, and whatever hangs on what changed. Cells of the plain case go by in
 * the wave itself; whatever is not (stale, typed, pinned, broken, the chosen column, the day) is worked out here. Where
 * one cell is edited again and again, the wave goes the way that is remembered (`way.ts`).
 */

import { type Cells, runWave, ways } from '../formula/index.ts';
import type { Chosen } from './chosen.ts';
import * as FLAG from './flags.ts';
import type { Goes, Graph } from './graph.ts';
import { CHOSEN, type Lanes, RESERVED, TODAY } from './lanes.ts';
import type { Names } from './names.ts';
import type { Reading } from './reading.ts';
import type { Setting } from './setting.ts';
import { Trodden } from './way.ts';
import type { Working } from './working.ts';
import type { WrittenOver } from './written-over.ts';

/** What a settling did: cells whose value, kind or reason changed, and cells that were worked out. To be asked before the next one. */
export interface Settled {
  readonly changed: readonly string[];
  readonly ran: readonly string[];
}

const NOTHING: readonly number[] = [];

/** Works out what edits marked. */
export class Settling {
  /** What the last settling worked out: twice the node, plus one where it changed; and how many that are. */
  ran = new Int32Array(64);
  ranCount = 0;
  /** How many settlings there were. */
  count = 0;
  /** Nodes that took a name since the last settling: what waits for one shows it. */
  private readonly named = new Set<number>();
  private readonly cells: Cells;
  private readonly trodden: Trodden;

  constructor(
    private readonly graph: Graph,
    readonly names: Names,
    private readonly lanes: Lanes,
    private readonly setting: Setting,
    private readonly chosen: Chosen,
    private readonly working: Working,
    private readonly reading: Reading,
    private readonly over: WrittenOver,
  ) {
    this.cells = cellsSeen(lanes, working, this);
    this.trodden = new Trodden(graph, this.cells, working.code);
  }

  /** Says that a node took a name. */
  tookName(node: number): void {
    if (this.lanes.reasons.areFor(node)) this.named.add(node);
  }

  settle(): Settled {
    const { graph, lanes } = this;
    for (const node of graph.takeMoved()) if (node >= RESERVED) lanes.flags[node]! |= FLAG.STALE;
    if (this.ran.length < graph.size) this.ran = new Int32Array(Math.ceil(graph.size * 1.25));
    this.ranCount = 0;
    const source = graph.alone;
    this.goAgain(source);
    graph.sweep(this.recompute, this.goes);
    this.trodden.gone(source >= 0 && lanes.has(source, FLAG.TYPED) ? source : -1);
    const shown = this.named.size > 0 ? this.showNames(this.ran.subarray(0, this.ranCount)) : NOTHING;
    this.count += 1;
    return new SettledNodes(this, shown);
  }

  /** Goes a way that is remembered. What is left to do is marked: all that follows where, the first cell read, it holds no more. */
  private goAgain(source: number): void {
    const way = this.trodden.from(source);
    const along = ways();
    if (!way || !along) return;
    this.graph.unmark();
    const changed = this.recompute(source);
    this.ran[this.ranCount++] = changed ? 2 * source + 1 : 2 * source;
    if (!changed) return;
    if (this.trodden.from(source) !== way) return this.graph.markBeyond(source, source);
    const { nodes } = way;
    const done = along.runWay(way, this.cells, this.working.machine, this.recompute, this.ranCount);
    this.ranCount += Math.min(done + 1, nodes.length);
    if (done === nodes.length) return;
    const last = nodes[done]!;
    this.graph.markBeyond(source, last);
    for (let step = 0; step < done; step += 1) this.graph.markBeyond(nodes[step]!, last);
  }

  private readonly goes: Goes = (wave, recompute) => {
    this.ranCount = runWave(wave, this.cells, this.working.machine, recompute, this.ranCount);
  };

  /** Works a node out; gives whether it changed. Of plain ones, only what the wave leaves over comes here. */
  private readonly recompute = (node: number): boolean => {
    const flags = this.lanes.flags[node]!;
    return (flags & FLAG.SLOW) !== 0 ? this.recomputeSlowly(node, flags) : this.working.work(node);
  };

  private recomputeSlowly(node: number, flags: number): boolean {
    if (node === CHOSEN) return this.chosen.work();
    if (node === TODAY) return this.lanes.keep(this.setting.todayOffset, this.setting.today, 0);
    if ((flags & FLAG.STALE) !== 0) return this.readAndWork(node);
    if (node === this.over.node) return this.over.keep();
    return this.working.hasCode(node) && this.working.work(node);
  }

  private readAndWork(node: number): boolean {
    const kindChanged = this.reading.read(node);
    if (kindChanged || !this.lanes.has(node, FLAG.TYPED)) this.trodden.forget();
    if (kindChanged)
      for (const user of this.graph.dependentsOf(node))
        if (user >= RESERVED) this.lanes.flags[user]! |= FLAG.STALE;
    const changed = this.working.hasCode(node) ? this.working.work(node) : this.reading.changed;
    return changed || kindChanged;
  }

  /** Whatever waits for a cell that took another name shows something else, though its value stayed. */
  private showNames(ran: Int32Array): readonly number[] {
    const changed = new Set(ran.filter((one) => (one & 1) === 1).map((one) => one >> 1));
    const shown = [...this.names.nodes].filter((node) => !changed.has(node) && this.waitsForNamed(node));
    this.named.clear();
    return shown;
  }

  private waitsForNamed(node: number): boolean {
    const { lanes } = this;
    const from = lanes.offsets[node]!;
    const reasons = lanes.why.subarray(from, from + lanes.width(node));
    return reasons.some((reason) => this.named.has(lanes.reasons.waitsFor(reason)));
  }
}

/** The cells as a wave sees them: by getters, as a larger array may stand in the place of each. */
function cellsSeen(lanes: Lanes, { code }: Working, settling: Settling): Cells {
  return {
    slow: FLAG.SLOW,
    each: FLAG.EACH,
    get values() {
      return lanes.values;
    },
    get why() {
      return lanes.why;
    },
    get places() {
      return lanes.offsets;
    },
    get code() {
      return code.all;
    },
    get starts() {
      return code.starts;
    },
    get flags() {
      return lanes.flags;
    },
    get field() {
      return lanes.field;
    },
    get ran() {
      return settling.ran;
    },
  };
}

/** What a settling did, put into ids only when asked; `shown` are cells that only show another name. */
class SettledNodes implements Settled {
  private readonly count: number;

  constructor(
    private readonly settling: Settling,
    private readonly shown: readonly number[],
  ) {
    this.count = settling.count;
  }

  get changed(): readonly string[] {
    return this.idsOf((one) => (one & 1) === 1, this.shown);
  }

  get ran(): readonly string[] {
    return this.idsOf(() => true, NOTHING);
  }

  private idsOf(counts: (one: number) => boolean, more: readonly number[]): readonly string[] {
    const { names, ran, ranCount, count } = this.settling;
    if (count !== this.count) throw new Error('asked what a settling did after the next one');
    const nodes = [...ran.subarray(0, ranCount).filter(counts)].map((one) => one >> 1);
    return [...nodes, ...more].filter((node) => node >= RESERVED).map((node) => names.ids[node] as string);
  }
}

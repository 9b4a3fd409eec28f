/*
 * Rows of a long section in blocks, which the browser draws, or leaves undrawn out of sight, as one. A frame then looks
 * at some sixty blocks and not at a thousand rows. A row stays in its block while others come and go, so that what is
 * being written in it, and the keyboard, stay where they are.
 */

import { type Accessor, createMemo, createSignal } from 'solid-js';
import { isSameList } from '../same-list.ts';

/** So many rows a block is filled with, and so many it may grow to as rows are put in between. */
export const ROWS_IN_BLOCK = 12;
const MOST_ROWS = 2 * ROWS_IN_BLOCK;

/** Rows that follow one another. */
export interface Block {
  readonly ids: Accessor<readonly string[]>;
}

interface Filled extends Block {
  fill(ids: readonly string[]): void;
}

/** The rows of a section in blocks. A block is the same object as long as one of its rows is left in it. */
export function createBlocks(ids: Accessor<readonly string[]>): Accessor<readonly Block[]> {
  return createMemo((old: readonly Filled[]) => {
    const before = old.map((block) => block.ids());
    const groups = regrouped(before, ids());
    return groups.map(({ ids: now, was }) => {
      const block = (was === undefined ? undefined : old[was]) ?? makeBlock();
      block.fill(now);
      return block;
    });
  }, []);
}

function makeBlock(): Filled {
  const [ids, setIds] = createSignal<readonly string[]>([], { equals: isSameList });
  return { ids, fill: (now) => setIds(now) };
}

/** A group of names, and which of the old groups it goes on from. */
export interface Group {
  readonly ids: readonly string[];
  readonly was: number | undefined;
}

/** A group that is being filled. */
interface Open {
  readonly ids: string[];
  readonly was: number | undefined;
  /** How many names of the old group are still to come. */
  left: number;
}

/**
 * Groups names in their order. A name stays in its old group where its neighbours do; a new one joins the group before
 * it while there is room.
 */
export function regrouped(old: readonly (readonly string[])[], ids: readonly string[]): readonly Group[] {
  const home = new Map<string, number>();
  old.forEach((group, at) => {
    for (const id of group) home.set(id, at);
  });
  const used = new Set<number>();
  const groups: Open[] = [];
  const begin = (was: number | undefined) => {
    if (was !== undefined) used.add(was);
    const group: Open = { ids: [], was, left: was === undefined ? 0 : (old[was]?.length ?? 0) };
    groups.push(group);
    return group;
  };
  for (const id of ids) {
    const last = groups.at(-1);
    const was = home.get(id);
    const goesOn = was !== undefined && was === last?.was;
    if (was !== undefined && (goesOn || !used.has(was))) {
      const group = goesOn ? last : begin(was);
      group.left -= 1;
      group.ids.push(id);
    } else (last && hasRoom(last) ? last : begin(undefined)).ids.push(id);
  }
  return groups;
}

const hasRoom = ({ ids, left }: Open): boolean => ids.length < (left > 0 ? MOST_ROWS : ROWS_IN_BLOCK);

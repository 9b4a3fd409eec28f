/** A section moves among the others. */
import { refuse } from '../remark.ts';
import { readId, readIndex } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { moveTo } from './places.ts';

export interface MoveSection extends AnyChange {
  readonly kind: 'move_section';
  readonly section: string;
  /** Index among the sections, counted without it. */
  readonly at: number;
}

export const moveSection: ChangeKind<MoveSection> = {
  kind: 'move_section',
  title: ({ section: id }, old) =>
    `move section ${old.sections.find((section) => section.id === id)?.title ?? ''}`.trim(),

  apply(old, { section, at }) {
    const sections = moveTo(old.sections, section, at);
    return sections ? { ...old, sections } : refuse('no_such_section');
  },

  invert: (old, change) => ({
    ...change,
    at: Math.max(
      0,
      old.sections.findIndex(({ id }) => id === change.section),
    ),
  }),
  toJSON: (change) => change,

  fromJSON(shape) {
    const section = readId(shape, 'section');
    const at = readIndex(shape, 'at');
    return section === undefined || at === undefined ? undefined : { kind: 'move_section', section, at };
  },
};

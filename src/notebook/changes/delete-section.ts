/** A section goes, and its cells with it. */
import { refuse } from '../remark.ts';
import type { AddSection } from './add-section.ts';
import { readId } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { removeAt } from './places.ts';

export interface DeleteSection extends AnyChange {
  readonly kind: 'delete_section';
  readonly section: string;
}

export const deleteSection: ChangeKind<DeleteSection, AddSection | DeleteSection> = {
  kind: 'delete_section',
  title: ({ section: id }, old) =>
    `delete section ${old.sections.find((section) => section.id === id)?.title ?? ''}`.trim(),

  apply(old, { section: id }) {
    const index = old.sections.findIndex((section) => section.id === id);
    return index < 0 ? refuse('no_such_section') : { ...old, sections: removeAt(old.sections, index) };
  },

  invert(old, change) {
    const at = old.sections.findIndex(({ id }) => id === change.section);
    const section = old.sections[at];
    return section ? { kind: 'add_section', at, section } : change;
  },

  toJSON: (change) => change,

  fromJSON(shape) {
    const section = readId(shape, 'section');
    return section === undefined ? undefined : { kind: 'delete_section', section };
  },
};

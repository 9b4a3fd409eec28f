/** A section comes in, with the cells it holds. */
import type { Section } from '../document.ts';
import { limits } from '../limits.ts';
import { isId } from '../names.ts';
import { refuse } from '../remark.ts';
import { readLoneSection } from '../validate.ts';
import { sectionToJSON } from '../write.ts';
import { fitCell, mayAdd } from './add-cell.ts';
import type { DeleteSection } from './delete-section.ts';
import { readIndex } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { insertAt } from './places.ts';

export interface AddSection extends AnyChange {
  readonly kind: 'add_section';
  readonly at: number;
  readonly section: Section;
}

export const addSection: ChangeKind<AddSection, DeleteSection> = {
  kind: 'add_section',
  title: ({ section }) => `add section ${section.title}`,

  apply(old, { at, section }) {
    if (!isId(section.id)) return refuse('not_an_id', { id: section.id });
    if (old.sections.some(({ id }) => id === section.id)) return refuse('id_taken', { id: section.id });
    if (old.sections.length >= limits.sections) return refuse('too_many', { limit: limits.sections });
    const fitted = { ...section, cells: section.cells.map((cell) => fitCell(old, cell)) };
    return mayAdd(old, section.cells) ?? { ...old, sections: insertAt(old.sections, at, fitted) };
  },

  invert: (_old, { section }) => ({ kind: 'delete_section', section: section.id }),
  toJSON: (change) => ({ ...change, section: sectionToJSON(change.section) }),

  fromJSON(shape) {
    const at = readIndex(shape, 'at');
    const section = readLoneSection(shape.value('section'), shape.remarks);
    return at === undefined || section === undefined ? undefined : { kind: 'add_section', at, section };
  },
};

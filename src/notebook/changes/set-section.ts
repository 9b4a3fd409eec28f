/** A section's title, or what it says about itself, is changed. */
import type { Section } from '../document.ts';
import { limits } from '../limits.ts';
import { refuse } from '../remark.ts';
import { present } from '../shape.ts';
import { type Fields, oldFields, withFields } from './fields.ts';
import { readId, readTextOrNull } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';
import { mapSections } from './places.ts';

/** The fields of a section; a title cannot be taken away, only emptied. */
export type SectionFields = { readonly title?: string } & Fields<Pick<Section, 'about'>>;

export interface SetSection extends AnyChange {
  readonly kind: 'set_section';
  readonly section: string;
  readonly fields: SectionFields;
}

export const setSection: ChangeKind<SetSection> = {
  kind: 'set_section',
  title: ({ section: id }, old) =>
    `change section ${old.sections.find((section) => section.id === id)?.title ?? ''}`.trim(),

  apply(old, { section: id, fields }) {
    if (!old.sections.some((section) => section.id === id)) return refuse('no_such_section');
    return mapSections(old, (section) =>
      section.id === id ? withFields<Section>(section, fields) : section,
    );
  },

  invert: (old, { kind, section: id, fields }) => ({
    kind,
    section: id,
    fields: oldFields(
      old.sections.find((section) => section.id === id),
      fields,
    ),
  }),

  toJSON: (change) => change,

  fromJSON(shape) {
    const section = readId(shape, 'section');
    const group = shape.group('fields');
    if (section === undefined || group === undefined) return undefined;
    const title = group.text('title', limits.title);
    const about = readTextOrNull(group, 'about', limits.page);
    return { kind: 'set_section', section, fields: present<SectionFields>({ title, about }) };
  },
};

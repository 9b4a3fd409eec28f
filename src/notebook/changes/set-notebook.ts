/** What stands about the whole notebook is changed: its title, units, money, day, how it is worked out, its sources. */
import type { Caution, Notebook, Source } from '../document.ts';
import { limits } from '../limits.ts';
import { refuse } from '../remark.ts';
import { present, type Shape } from '../shape.ts';
import { readCaution, readDay, readSource } from '../validate.ts';
import { cautionToJSON, sourceToJSON } from '../write.ts';
import { type Fields, oldFields, withFields } from './fields.ts';
import { readTextOrNull } from './keys.ts';
import type { AnyChange, ChangeKind } from './kind.ts';

/** The fields; null takes away those that may be missing. `heading` is that of the columns. */
export type NotebookFields = Fields<Pick<Notebook, 'about' | 'money' | 'today' | 'how'>> & {
  readonly title?: string;
  readonly units?: 'in' | 'cm';
  readonly heading?: string;
  readonly sources?: readonly Source[];
  readonly cautions?: readonly Caution[];
};

export interface SetNotebook extends AnyChange {
  readonly kind: 'set_notebook';
  readonly fields: NotebookFields;
}

export const setNotebook: ChangeKind<SetNotebook> = {
  kind: 'set_notebook',

  title({ fields }) {
    if (fields.title !== undefined) return `call the notebook ${fields.title}`;
    if (fields.units !== undefined) return fields.units === 'in' ? 'show inches' : 'show centimetres';
    return `change the notebook's ${Object.keys(fields)[0] ?? 'page'}`;
  },

  apply(old, { fields: { heading, ...fields } }) {
    const changed = withFields<Notebook>(old, fields);
    if (heading === undefined) return changed;
    return old.columns ? { ...changed, columns: { ...old.columns, heading } } : refuse('no_columns');
  },

  invert(old, { kind, fields: { heading, ...fields } }) {
    const back = oldFields<Notebook, NotebookFields>(old, fields);
    return { kind, fields: heading === undefined ? back : { ...back, heading: old.columns?.heading ?? '' } };
  },

  toJSON({ kind, fields: { sources, cautions, ...fields } }) {
    const lists = {
      ...(sources && { sources: sources.map(sourceToJSON) }),
      ...(cautions && { cautions: cautions.map(cautionToJSON) }),
    };
    return { kind, fields: { ...fields, ...lists } };
  },

  fromJSON(shape) {
    const group = shape.group('fields');
    return group && { kind: 'set_notebook', fields: readFields(group) };
  },
};

function readFields(group: Shape): NotebookFields {
  return present<NotebookFields>({
    title: group.text('title', limits.title),
    about: readTextOrNull(group, 'about', limits.page),
    units: group.word('units', ['in', 'cm']),
    money: readTextOrNull(group, 'money', limits.money),
    today: group.value('today') === null ? null : readDay(group),
    how: readTextOrNull(group, 'how', limits.page),
    heading: group.text('heading', limits.word),
    sources: group.has('sources') ? group.groups('sources', limits.sources, readSource) : undefined,
    cautions: group.has('cautions') ? group.groups('cautions', limits.cautions, readCaution) : undefined,
  });
}

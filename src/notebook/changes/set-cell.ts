/** What stands about a cell is changed: its note, how it is shown, what it says, its choices, the range it is searched in. */
import type { Cell } from '../document.ts';
import { limits } from '../limits.ts';
import { refuse } from '../remark.ts';
import type { Shape } from '../shape.ts';
import { present } from '../shape.ts';
import { readChoices, readRange, readSays } from '../validate.ts';
import { type Fields, oldFields, withFields } from './fields.ts';
import { readId, readTextOrNull } from './keys.ts';
import { type AnyChange, type ChangeKind, spoken } from './kind.ts';
import { cellTitle, findCell, withCell } from './places.ts';

/** The fields of a cell that no formula reads. */
export type CellFields = Fields<Pick<Cell, 'note' | 'shown' | 'step' | 'range' | 'choices' | 'says'>>;

export interface SetCell extends AnyChange {
  readonly kind: 'set_cell';
  readonly cell: string;
  readonly fields: CellFields;
}

export const setCell: ChangeKind<SetCell> = {
  kind: 'set_cell',
  title({ cell, fields }, old) {
    const name = spoken(cellTitle(old, cell));
    const only = Object.keys(fields);
    return only.length === 1 && only[0] === 'note'
      ? `change the note on ${name}`
      : `change how ${name} is shown`;
  },

  apply(old, { cell: id, fields }) {
    const cell = findCell(old, id)?.cell;
    return cell === undefined ? refuse('no_such_cell') : withCell(old, withFields<Cell>(cell, fields));
  },

  invert: (old, { kind, cell, fields }) => ({
    kind,
    cell,
    fields: oldFields(findCell(old, cell)?.cell, fields),
  }),

  toJSON({ kind, cell, fields }) {
    if (!fields.says) return { kind, cell, fields };
    const { extra, ...says } = fields.says;
    return { kind, cell, fields: { ...fields, says: { ...says, ...extra } } };
  },

  fromJSON(shape) {
    const cell = readId(shape, 'cell');
    const group = shape.group('fields');
    return cell === undefined || group === undefined
      ? undefined
      : { kind: 'set_cell', cell, fields: readFields(group) };
  },
};

function readFields(group: Shape): CellFields {
  return present<CellFields>({
    note: readTextOrNull(group, 'note', limits.sentence),
    shown: readTextOrNull(group, 'shown', limits.word),
    step: readTextOrNull(group, 'step', limits.word),
    range: group.value('range') === null ? null : readRange(group),
    choices: group.value('choices') === null ? null : readChoices(group),
    says: group.value('says') === null ? null : readSays(group),
  });
}

import type { Edit } from './edits.ts';

/** Sequences of edits after which the sheet once was not what it should have been, as short as they could be made. */
export const FOUND: readonly (readonly Edit[])[] = [
  // Columns taken away before the texts in them were ever read.
  [
    { do: 'add', name: 0, text: 'multiple((chest + chest) * chest, 4, 2)' },
    { do: 'list', cell: 0, texts: ['198 st', '198 st', '198 st', '198 st'] },
    { do: 'columns', from: [], labels: 0 },
  ],
  // A cell renamed to a name that its own text uses, which till then was a unit.
  [
    { do: 'add', name: 0, text: 'whole_up(stitches / 3)' },
    { do: 'rename', cell: 0, name: 4 },
  ],
  // A cell that came out of a ring between two settlings, found out while another gave its name up.
  [
    { do: 'add', name: 0, text: 'chest +' },
    { do: 'add', name: 1, text: 'total(chest * gauge)' },
    { do: 'add', name: 3, text: 'at(chest, "M")' },
    { do: 'remove', cell: 0 },
    { do: 'add', name: 2, text: 'chosen(stitches) * 2' },
    { do: 'add', name: 0, text: '-chest' },
    { do: 'set', cell: 3, text: 'gauge' },
    { do: 'rename', cell: 0, name: 7 },
    { do: 'settle' },
    { do: 'set', cell: 0, text: 'given(size_to_follow) or fits' },
    { do: 'rename', cell: 1, name: 1 },
  ],
  // A cell renamed together with the texts that wait for it.
  [
    { do: 'add', name: 0, text: '' },
    { do: 'add', name: 1, text: '-chest' },
    { do: 'add', name: 2, text: '-ease' },
    { do: 'settle' },
    { do: 'rename', cell: 0, name: 3 },
    { do: 'set', cell: 1, text: '-finished_chest' },
  ],
];

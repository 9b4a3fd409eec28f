// What each step of every prebuilt notebook says there should be on the needles when it is done, by the cells that hold
// it, in every column; a step that is not here asks for no other count. Each was gone through as it is knitted (common
// practice): what is set aside, bound off, grafted or told of a part of the work is not what is on the needles.
import { describe, expect, test } from 'vitest';
import type { Column, Notebook } from '../../src/notebook/index.ts';
import { createSession, type Session } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY, type WorkedNotebook, workOut } from '../support/notebook.ts';

/** By notebook and step: a cell, or cells that are added. `none`: an edging has taken every live stitch. */
const AFTER: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'adapt-length': {
    t1: 'edge_stitches',
    t2: 'underarm_stitches',
    t3: 'underarm_stitches',
    t4: 'underarm_stitches',
    t5: 'underarm_stitches',
    t6: 'edge_stitches',
  },
  'baby-set': {
    t1: 'hat_stitches',
    t2: 'crown_sections',
    t4: 'mitten_stitches',
    t5: 'mitten_end',
    t8: 'foot_row',
    t9: 'across',
  },
  'catch-floats': { t3: 'stitches + ladder_stitches' },
  'compare-swatches': { t1: 'swatch_stitches' },
  'edge-shawl': { t5: 'none', t6: 'none' },
  'fit-sock': {
    t1: 'cast_on',
    t2: 'calf_stitches',
    t3: 'sock_stitches',
    t4: 'calf_stitches',
    t5: 'sock_stitches',
    t6: 'sock_stitches',
    t7: 'heel_stitches',
    t8: 'turn_stitches',
    t9: 'square_centre',
    t10: 'turn_stitches',
    t11: 'turn_stitches + pick_up + pick_up + instep_stitches',
    t12: 'gusset_stitches',
    t13: 'gusset_after_straight',
    t14: 'foot_stitches',
    t15: 'foot_stitches',
    t17: 'toe_begins_with',
    t18: 'toe_begins_with',
    t19: 'left_to_graft',
  },
  'grow-shawl': {
    t1: 'cast_on + edges',
    t9: 'cast_on_in_all',
    t2: 'stitches_at_stop',
    t8: 'stitches_at_stop',
    t3: 'cast_on_in_all + 38 × increase', // to row 76, where the yarn of the half circle ends
    t4: 'crescent_stitches',
    t6: 'none',
  },
  raglan: {
    t1: 'hem_stitches',
    t2: 'body_stitches',
    t3: 'body_stitches',
    t5: 'cuff_stitches',
    t6: 'sleeve_stitches',
    t7: 'sleeve_part',
    t8: 'front_part + back_part + sleeve_part + sleeve_part',
    t10: 'raglan_end',
    t11: 'neck_stitches',
    t26: 'neck_stitches',
    t27: 'body_stitches',
  },
  'resize-sweater': {
    t1: 'cast_on',
    t12: 'neck_stitches_of_your_size',
    t6: 'joined_yoke_stitches',
    t3: 'body_after_joining',
    t5: 'pattern_cuff_stitches',
  },
  'round-yoke': {
    t1: 'hem_stitches',
    t2: 'body_stitches',
    t3: 'body_stitches',
    t5: 'cuff_stitches',
    t6: 'sleeve_stitches',
    t8: 'joined',
    t9: 'yoke_stitches',
    t10: 'after_first',
    t11: 'after_second',
    t12: 'after_third',
    t14: 'neck_stitches',
    t24: 'yoke_stitches',
    t25: 'neck_stitches',
    t26: 'body_stitches',
  },
  'shape-sleeve': {
    t1: 'cuff_stitches',
    t2: 'top_stitches',
    t4: 'top_stitches',
    t5: 'top_stitches',
    t7: 'top_stitches',
  },
};

/** Further than any plan goes. */
const PAST_THE_END = 10_000;

/** A notebook opened with a column chosen. */
function openedIn(notebook: Notebook, column: Column | undefined): Session {
  const chosen = column ? { ...notebook, chosen: { column: column.id } } : notebook;
  return createSession({ notebook: chosen, today: TEST_DAY, random: () => 0.5 });
}

/** What a step says there should be at its end; undefined where it is not asked. */
function expectedAfter(session: Session, step: string): number | undefined {
  const said = session.recount(step, PAST_THE_END, 1)?.sentence;
  const [, count] = /(?:should be|plan has) (\d+)/.exec(said ?? '') ?? [];
  if (said !== undefined && count === undefined) expect(said).toMatch(/^1 st: just as it should be/);
  return said === undefined ? undefined : Number(count ?? 1);
}

/** The sum of some cells of a notebook: "cast_on + 38 × increase". */
function summed(worked: WorkedNotebook, cells: string, column: string | undefined): number {
  if (cells === 'none') return 0;
  return cells
    .split(' + ')
    .map((term) => /^(?:(\d+) × )?(\w+)$/.exec(term) ?? [])
    .reduce((sum, [, times = '1', cell = '']) => sum + Number(times) * worked.number(cell, column), 0);
}

test('every notebook here is there', () => {
  expect(Object.keys(AFTER).filter((name) => !notebookNames.includes(name))).toEqual([]);
});

describe.each(notebookNames)('%s', (name) => {
  const notebook = openNotebook(name);
  const columns = notebook.columns?.list ?? [undefined];

  test.each(columns.map((column) => [column?.label ?? 'no column', column] as const))('%s', (_, column) => {
    const session = openedIn(notebook, column);
    const worked = workOut(name, {}, column ? { column: column.label } : {});
    const steps = notebook.steps.filter(({ kind }) => kind !== 'advice');
    const said = steps.map(({ id }) => [id, expectedAfter(session, id)]);
    const wanted = steps.map(({ id }) => {
      const cells = AFTER[name]?.[id];
      return [id, cells === undefined ? undefined : summed(worked, cells, column?.label)];
    });
    expect(said).toEqual(wanted);
  });
});

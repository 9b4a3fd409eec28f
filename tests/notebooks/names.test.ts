// The names other notebooks, links and papers know a notebook's cells by: they stay, whatever else is added.
import { expect, test } from 'vitest';
import { allCells } from '../../src/notebook/index.ts';
import { openNotebook } from '../support/notebook.ts';

const KEPT: Readonly<Record<string, string>> = {
  'resize-sweater': `pattern_stitch_gauge pattern_row_gauge stitch_gauge row_gauge chest ease_wanted repeat repeat_plus
    body_length plain_yoke_rows row_gauge_on_needles head upper_arm wrist pattern_body_stitches pattern_yoke_rows
    pattern_neck_stitches pattern_upper_arm_stitches pattern_cuff_stitches underarm_stitches pattern_finished_chest
    finished_chest ease size_to_follow size_for_lengths body_stitches body_finished_chest pattern_yoke_depth
    yoke_depth_if_followed yoke_depth_wanted yoke_rows yoke_rows_to_add`,
  'fit-sock': `foot_girth foot_length heel_girth ankle_girth calf_girth leg_length stitch_gauge row_gauge negative_ease
    rib_multiple stretched_gauge girth_at_cuff comfortable_stretch length_ease flap_row_gauge pick_up_extra toe_end
    sock_stitches finished_girth heel_stretch opens_to heel_passes cuff_stretch cuff_is_comfortable instep_stitches
    heel_stitches heel_rows edge_loops turn_first turn turn_stitches pick_up gusset_stitches foot_stitches
    gusset_decrease_rounds toe toe_length foot_rounds leg_rounds calf_stitches calf_shaping`,
  'edge-shawl': `live_stitches edging_rows joins_per_repeat edging repeats left_over double_joins idle_joins
    rows_to_knit fewer_live more_live fullness repeats_done joins_done_in_this_repeat live_left rescue`,
  'shape-sleeve': `edge_width plain_before plain_after cuff_stitches top_stitches shaping_rows shape_every
    sleeve_shaping`,
};

test.each(Object.entries(KEPT))('%s', (notebook, names) => {
  const there = new Set(allCells(openNotebook(notebook)).map(({ name }) => name));
  expect(names.split(/\s+/).filter((name) => !there.has(name))).toEqual([]);
});

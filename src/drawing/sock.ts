/* A sock from the side: its parts, its labels and its words; `sock-shape.ts` knows its lines. */

import { callout, dimension } from './lines.ts';
import type { Reader } from './parts.ts';
import { emptyPicture, readParts, unitShown } from './parts.ts';
import type { DrawingKind, Label, Measures, PartSpec, Parts, Picture } from './picture.ts';
import { BEHIND, measured, reachOf, type Sock, shapesOf } from './sock-shape.ts';

const title = 'The sock from the side';

const part = (name: string, measures: Measures, help: string, needed = false): PartSpec => ({
  name,
  measures,
  needed,
  help,
});

const specs: readonly PartSpec[] = [
  part('girth', 'length', 'Finished girth of the foot and ankle.', true),
  part('foot_length', 'length', 'Finished length, heel to toe.', true),
  part('leg_length', 'length', 'Cast-on edge to the top of the heel flap, the cuff with it.'),
  part('cuff_length', 'length', 'Ribbing at the top.'),
  part('calf_girth', 'length', 'Finished girth at the fullest calf, for long socks.'),
  part('calf_height', 'length', 'Floor to the fullest calf.'),
  part('top_girth', 'length', 'Finished girth at the cuff, where it is not the girth of the foot.'),
  part('flap_length', 'length', 'Length of the heel flap.'),
  part('gusset_length', 'length', 'Length of the gusset along the foot.'),
  part('toe_length', 'length', 'Length of the toe.'),
  part('row_gauge', 'gauge', 'Rounds per cm; makes lengths of rounds where no length is bound.'),
  part('flap_row_gauge', 'gauge', 'Rows per cm of the heel flap.'),
  part('cast_on', 'count', 'Stitches cast on.'),
  part('cuff_rounds', 'count', 'Rounds of the ribbing at the top.'),
  part('calf_stitches', 'count', 'Stitches at the calf.'),
  part('leg_stitches', 'count', 'Stitches at the ankle, where they are not those cast on.'),
  part('leg_rounds', 'count', 'Rounds of the leg.'),
  part('heel_stitches', 'count', 'Stitches of the heel flap.'),
  part('heel_rows', 'count', 'Rows of the heel flap.'),
  part('turn_stitches', 'count', 'Stitches left after the turn.'),
  part('turn_rows', 'count', 'Rows of the turn.'),
  part('pick_up', 'count', 'Stitches picked up along each edge of the flap.'),
  part('instep_stitches', 'count', 'Stitches of the instep.'),
  part('gusset_stitches', 'count', 'Stitches all round where the gusset begins.'),
  part('gusset_rounds', 'count', 'Rounds of the gusset.'),
  part('foot_stitches', 'count', 'Stitches of the foot.'),
  part('foot_rounds', 'count', 'Rounds of the foot, from picking up to the toe.'),
  part('foot_rounds_length', 'length', 'What these rounds measure.'),
  part('toe_rounds', 'count', 'Rounds of the toe.'),
  part('toe_end', 'count', 'Stitches left to graft, in all.'),
  part('own_foot_length', 'length', 'The wearer’s foot, drawn in dashes.'),
  part('own_foot_girth', 'length', 'Around the wearer’s foot.'),
  part('own_heel_girth', 'length', 'Around the wearer’s heel and ankle.'),
  part('own_calf', 'length', 'Around the wearer’s calf, or the leg at the cuff.'),
];

/** A sock in profile with its parts, its counts, and the wearer's foot in dashes. */
export const sock: DrawingKind = {
  kind: 'sock',
  title,
  help: 'A sock from the side and to scale, with its counts at each change and the wearer’s foot in dashes.',
  parts: specs,
  draw,
};

function draw(parts: Parts): Picture {
  const read = readParts(parts, specs);
  const girth = read.value('girth');
  const foot = read.value('foot_length') ?? read.value('own_foot_length');
  if (girth === undefined || foot === undefined) {
    read.leave('A sock is drawn from its girth and the length of its foot.');
    return emptyPicture('sock', title, read.leftOut());
  }
  const sock = measured(read, girth / 2, foot);
  return {
    kind: 'sock',
    title,
    block: {
      kind: 'scene',
      ruler: unitShown(parts),
      shapes: shapesOf(read, sock),
      labels: labelsOf(read, sock),
    },
    describe: inWords(read, sock),
    leftOut: read.leftOut(),
  };
}

function labelsOf(read: Reader, sock: Sock): readonly Label[] {
  const { wide, topWide, leg, flap, turn, sole, foot, toe, rounds, gussetEnd, ankle } = sock;
  const half = wide / 2;
  const topLeft = -(topWide - wide) * BEHIND;
  const { left, floor, besideCuff } = reachOf(read, sock);
  const across = Math.max(gussetEnd, wide * 1.5) + 1;
  return [
    ...dimension('below', [0, floor], [foot, floor], read.runs('foot_length', { before: 'foot' })),
    ...dimension('below', [foot - toe - rounds, floor], [foot - toe, floor], roundsRuns(read)),
    ...dimension('above', [topLeft, 0], [topLeft + topWide, 0], read.runs('cast_on', { before: 'cast on' })),
    ...dimension(
      'left',
      [left, 0],
      [left, leg],
      read.runs('leg_length', { before: 'leg' }),
      read.runs('leg_rounds'),
    ),
    ...dimension(
      'left',
      [left, leg],
      [left, leg + flap],
      read.runs('heel_stitches', { before: 'heel' }),
      read.runs('heel_rows'),
    ),
    ...dimension(
      'on',
      [across, sole - wide],
      [across, sole],
      read.runs('girth', { before: 'around' }),
      read.runs('foot_stitches'),
    ),
    ...dimension('above', [foot - toe, sole - wide], [foot, sole - wide], toeRuns(read)),
    ...callout(
      [half * 0.8 + gussetEnd * 0.2, leg + flap * 0.3],
      ['above', 'right'],
      read.runs('gusset_stitches', { before: 'gusset from' }),
    ),
    ...callout([half, leg + flap * 0.75], ['right', 'above'], read.runs('pick_up', { before: 'pick up' })),
    ...callout(
      [wide * 0.3, sole - turn * 0.4],
      ['below', 'left'],
      read.runs('turn_stitches', { before: 'turn, leaves' }),
    ),
    ...callout([foot, sole - wide * 0.4], ['right', 'below'], read.runs('toe_end', { after: 'to graft' })),
    ...dimension('right', [besideCuff, 0], [besideCuff, sock.cuff], cuffRuns(read)),
    ...callout([wide, ankle], ['right'], read.runs('leg_stitches', { before: 'ankle' })),
    ...calfLabels(read, sock),
    ...wearerLabels(read, sock),
  ];
}

function cuffRuns(read: Reader): ReturnType<Reader['runs']> {
  const long = read.runs('cuff_length', { before: 'cuff' });
  return [...long, ...read.runs('cuff_rounds', long.length > 0 ? {} : { before: 'cuff' })];
}

function toeRuns(read: Reader): ReturnType<Reader['runs']> {
  const long = read.runs('toe_length', { before: 'toe' });
  return [...long, ...read.runs('toe_rounds', long.length > 0 ? {} : { before: 'toe' })];
}

/** The rounds of the foot with what they measure: less than the foot, whose heel and toe are not among them. */
function roundsRuns(read: Reader): ReturnType<Reader['runs']> {
  const long = read.runs('foot_rounds_length', { before: 'to the toe' });
  return [...long, ...read.runs('foot_rounds', long.length > 0 ? {} : { after: 'to the toe' })];
}

/** The calf, where the sock reaches it. */
function calfLabels(read: Reader, { wide, calfWide, calfAt, reachesCalf }: Sock): readonly Label[] {
  if (!reachesCalf) return [];
  return callout(
    [wide + (calfWide - wide) * (1 - BEHIND), calfAt],
    ['right'],
    read.runs('calf_girth', { before: 'calf', after: 'around' }),
    read.runs('calf_stitches'),
  );
}

function wearerLabels(read: Reader, sock: Sock): readonly Label[] {
  const length = read.value('own_foot_length');
  if (length === undefined || read.value('own_foot_girth') === undefined) return [];
  return callout(
    [length * 0.9, sock.sole + 0.2],
    ['below', 'right'],
    read.runs('own_foot_length', { before: 'your foot' }),
    read.runs('own_foot_girth', { after: 'around' }),
  );
}

function inWords(read: Reader, { reachesCalf }: Sock): readonly string[] {
  return [
    ...read.tell('Cast on {cast_on}.'),
    ...read.tell(
      'The leg is {leg_length} long, {leg_rounds}.',
      'The leg is {leg_length} long.',
      'The leg has {leg_rounds}.',
    ),
    ...(reachesCalf ? calfInWords(read) : belowCalf(read)),
    ...read.tell('At the ankle there are {leg_stitches}.'),
    ...read.tell('The heel flap has {heel_stitches} and {heel_rows}.', 'The heel flap has {heel_stitches}.'),
    ...read.tell('The turn leaves {turn_stitches} after {turn_rows}.', 'The turn leaves {turn_stitches}.'),
    ...read.tell('Pick up {pick_up} along each edge of the flap.'),
    ...read.tell('The instep has {instep_stitches}.'),
    ...read.tell(
      'The gusset begins with {gusset_stitches} and takes {gusset_rounds}.',
      'The gusset begins with {gusset_stitches}.',
    ),
    ...read.tell('The foot is {girth} around, on {foot_stitches}.', 'The foot is {girth} around.'),
    ...read.tell('It is {foot_length} long from heel to toe.'),
    ...read.tell(
      'From picking up to the toe there are {foot_rounds}, {foot_rounds_length}.',
      'From picking up to the toe there are {foot_rounds}.',
    ),
    ...read.tell(
      'The toe takes {toe_rounds} and leaves {toe_end} to graft.',
      'The toe leaves {toe_end} to graft.',
    ),
    ...read.tell('In dashes: your own foot, {own_foot_length} long and {own_foot_girth} around.'),
    ...read.tell('Around your heel and ankle it is {own_heel_girth}.'),
    ...read.tell('Around your leg it is {own_calf}.'),
    ...read.tellRest(),
  ];
}

function calfInWords(read: Reader): readonly string[] {
  return read.tell(
    'At the calf it is {calf_girth} around, on {calf_stitches}.',
    'At the calf it is {calf_girth} around.',
  );
}

function belowCalf(read: Reader): readonly string[] {
  read.passOver('calf_girth', 'calf_stitches');
  return read.tell('It ends below the calf, which is at {calf_height}.');
}

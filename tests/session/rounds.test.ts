// Rounds in the round and rows flat: on the page, in the steps, on the drawing and on paper, by one yes or no.
import { describe, expect, test } from 'vitest';
import { createSession, type Session } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const opened = (name: string): Session =>
  createSession({ notebook: openNotebook(name), today: TEST_DAY, random: () => 0.5 });

const idOf = (session: Session, name: string): string => session.live.sheet.idOf(name) ?? '';

/** A cell's value in each column as the page prints it, its unit once beside the name where that is so. */
function printed(session: Session, name: string): readonly string[] {
  const row = session.row(idOf(session, name));
  return row.values.map(({ text, unit }) => `${text} ${unit}`.trim());
}

const stepTexts = (session: Session): string =>
  session
    .steps()
    .steps.filter(({ applies }) => applies)
    .map(({ text }) => text)
    .join('\n');

function paperValue(session: Session, name: string): string {
  const rows = session.paper().sections.flatMap((section) => section.rows);
  return rows.find((row) => row.name === name)?.value ?? '';
}

const ROWS = /\brows?\b/;
const ROUNDS = /\b(rnds?|rounds?)\b/;

describe('rounds in the round, rows flat', () => {
  test('a sleeve says so everywhere, and all of it turns with one answer', () => {
    const session = opened('shape-sleeve');
    const heard = new Set<string>();
    session.listen(({ rows }) => {
      for (const id of rows) heard.add(id);
    });
    expect(printed(session, 'edge_rows')).toEqual(['11 rnds']);
    expect(printed(session, 'plain_after')).toEqual(['7 rnds']);
    expect(printed(session, 'sleeve_shaping').join()).toMatch(ROUNDS);
    expect(printed(session, 'sleeve_shaping').join()).not.toMatch(ROWS);
    expect(stepTexts(session)).not.toMatch(ROWS);
    expect(stepTexts(session)).toContain('work 11 rnds of ribbing');
    expect(paperValue(session, 'plain after')).toBe('7 rnds');

    session.type({ cell: idOf(session, 'worked_in_the_round'), column: null }, 'no');
    for (const name of ['edge_rows', 'plain_after', 'sleeve_shaping'])
      expect(heard).toContain(idOf(session, name));
    expect(printed(session, 'edge_rows')).toEqual(['11 rows']);
    expect(printed(session, 'plain_after')).toEqual(['7 rows']);
    expect(paperValue(session, 'plain after')).toBe('7 rows');
    expect(printed(session, 'sleeve_shaping').join()).not.toMatch(ROUNDS);
    expect(stepTexts(session)).toContain('work 11 rows of ribbing');
    expect(stepTexts(session)).not.toMatch(ROUNDS);
    // What was typed is left as it was typed.
    expect(session.text({ cell: idOf(session, 'plain_after'), column: null })).toBe('7 row');
  });

  test('a cardigan flat in the body and round in the sleeve says each of its own column', () => {
    const session = opened('adapt-length');
    expect(printed(session, 'edging_rows')).toEqual(['16 rows', '16 rnds']);
    expect(stepTexts(session)).toContain('Work the edging as the pattern has it, 16 rnds');
    const [edging, shaping, rest] = stepTexts(session).split('\n');
    for (const text of [edging, shaping, rest]) expect(text).not.toMatch(ROWS);
    const garment = session.drawings().find(({ kind }) => kind === 'set-in');
    expect(garment?.parts['body_rows']).toMatchObject({ text: '96 rows' });
    expect(garment?.parts['sleeve_rows']).toMatchObject({ text: '141 rnds' });
    session.choose('c1');
    expect(stepTexts(session)).toContain('Work the edging as the pattern has it, 16 rows');
  });

  test('a length by a gauge that was typed in rounds is rounds', () => {
    const cells = {
      row_gauge: '30 rnd / 10 cm',
      brim: '5 cm',
      brim_rounds: 'whole(brim * row_gauge)',
      above: 'brim_rounds + 2 row',
      brim_height: 'brim_rounds / row_gauge',
    };
    const notebook = notebookOf(cells, { units: 'cm' });
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    expect(printed(session, 'brim_rounds')).toEqual(['15 rnds']);
    expect(printed(session, 'above')).toEqual(['17 rnds']);
    expect(printed(session, 'brim_height')).toEqual(['5 cm']);
    session.type({ cell: idOf(session, 'row_gauge'), column: null }, '30 row / 10 cm');
    expect(printed(session, 'brim_rounds')).toEqual(['15 rows']);
  });

  test('a plan over rounds that were typed as rounds is told in rounds: on the page, in the step, for all sizes', () => {
    const cells = { rounds: '40 rnd', crown: 'shape(80 st, 8 st, rounds, 8, 1)' };
    const columns = { heading: 'size', list: ['small', 'large'].map((label) => ({ id: label, label })) };
    const step = { id: 's1', text: 'Work the crown: {crown}.' };
    const notebook = notebookOf({ ...cells, rounds: ['40 rnd', '44 rnd'] }, { columns, steps: [step] });
    const session = createSession({ notebook, today: TEST_DAY, random: () => 0.5 });
    const heard = new Set<string>();
    session.listen(({ rows }) => {
      for (const id of rows) heard.add(id);
    });
    session.choose('small');
    expect(printed(session, 'crown')[0]).toBe('80 to 8 sts, 40 rnds');
    expect(session.steps().steps[0]?.text).not.toMatch(ROWS);
    expect(session.steps().steps[0]?.counter?.noun).toBe('rnd');
    expect(JSON.stringify(session.steps({ allSizes: true }).steps[0]?.lines)).not.toMatch(ROWS);
    const crown = idOf(session, 'crown');
    expect(session.workings(crown, 'small').lines.at(-1)?.text).not.toMatch(ROWS);
    // The same number in rows: nothing but the word is another.
    for (const column of ['small', 'large'])
      session.type({ cell: idOf(session, 'rounds'), column }, column === 'small' ? '40 row' : '44 row');
    expect(heard).toContain(crown);
    expect(printed(session, 'crown')[0]).toBe('80 to 8 sts, 40 rows');
    expect(session.steps().steps[0]?.text).not.toMatch(ROUNDS);
    session.type({ cell: crown, column: null }, 'shape(80 st, 8 st, 40 rnd, 8, 1)');
    expect(printed(session, 'crown').join()).toMatch(ROUNDS);
  });

  test('the body of a pullover is in rounds on its drawing until it is worked flat', () => {
    const session = opened('resize-sweater');
    const body = () => session.drawings().find(({ kind }) => kind === 'pullover')?.parts['body_rows'];
    expect(body()).toMatchObject({ text: '94 rnds' });
    session.type({ cell: idOf(session, 'worked'), column: null }, '"flat"');
    expect(body()).toMatchObject({ text: '94 rows' });
    expect(stepTexts(session)).toContain('94 rows straight');
  });

  test('a plan of the sock that its step knits in rounds is in rounds on the page, too', () => {
    const session = opened('fit-sock');
    for (const name of ['calf_shaping', 'gusset', 'toe'])
      expect(printed(session, name).join(), name).not.toMatch(ROWS);
  });

  test.each(notebookNames)('no cell of %s is told otherwise than the step in use that prints it', (name) => {
    const session = opened(name);
    const noun = (text: string) => (ROWS.test(text) ? 'row' : ROUNDS.test(text) ? 'rnd' : '');
    const { columns } = session.page();
    for (const column of columns.length > 0 ? columns : [undefined]) {
      if (column) session.choose(column.id);
      for (const step of session.steps().steps) {
        if (!step.applies || step.counter === undefined || step.lines.length === 0) continue;
        const words = session.live.notebook.steps.find(({ id }) => id === step.id)?.text ?? '';
        for (const cell of session.live.sheet.cells) {
          if (!words.includes(`{${session.live.sheet.nameOf(cell)}}`)) continue;
          const { each, values } = session.row(cell);
          const value = values[each ? Math.max(0, session.live.sheet.chosenColumn) : 0];
          if (value?.kind === 'plan' && noun(value.text) !== '')
            expect(noun(value.text), `${step.text}: ${value.text}`).toBe(step.counter.noun);
        }
      }
    }
  });

  test('renaming the yes or no renames it there, and taking that back brings the old name back', () => {
    const session = opened('shape-sleeve');
    const shown = () => session.live.cell(idOf(session, 'edge_rows'))?.shown;
    session.renameCell(idOf(session, 'worked_in_the_round'), 'round and round');
    expect(shown()).toBe('rnd when round_and_round');
    expect(printed(session, 'edge_rows')).toEqual(['11 rnds']);
    session.undo();
    expect(shown()).toBe('rnd when worked_in_the_round');
  });
});

describe('a plan in a column', () => {
  test('is told in few words, its moves too, and whole in its workings', () => {
    const session = opened('fit-sock');
    const { sheet } = session.live;
    const turn = idOf(session, 'turn');
    const brief = () => session.row(turn).values.map(({ text }) => text);
    const before = brief();
    for (const text of before) expect(text).toMatch(/^\d+ to \d+ sts, \d+ rows$/);
    session.nudge({ cell: idOf(session, 'stitch_gauge'), column: null }, -10);
    expect(session.row(turn).values.map(({ old }) => old?.text)).toEqual(before);
    expect(session.workings(turn, 'c1').lines.at(-1)?.text).toMatch(/^Row 1 \(RS\) sl1/);
    const value = sheet.value(turn, 0);
    const { start, stitches_after: left } = value.kind === 'plan' ? value.plan.totals : {};
    expect(brief()[0]).toBe(
      `${start} to ${left} sts, ${value.kind === 'plan' ? value.plan.totals['rows'] : 0} rows`,
    );
    expect(session.row(idOf(session, 'calf_shaping')).values[0]?.text).toMatch(/^\d+ sts, \d+ rnds$/);
  });
});

// The steps of all columns at once: they tell every column what it is told alone, whichever is chosen.
import { describe, expect, test } from 'vitest';
import type { Notebook } from '../../src/notebook/index.ts';
import { createSession, type Session, type StepView } from '../../src/session/index.ts';
import { askedBy, cellsNamed } from '../../src/session/step-text.ts';
import { liveNotebook, notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';

const LATE = TEST_DAY + 340;

/** A notebook with a column picked. */
const picked = (notebook: Notebook, column: string, today: number): Session =>
  createSession({ notebook: { ...notebook, chosen: { column } }, today, random: () => 0.5 });

const toldOf = (session: Session, allSizes: boolean): readonly StepView[] =>
  session.steps({ allSizes }).steps.filter(({ applies }) => applies);

/** What is read of a step, whatever is on the needles. */
const readOf = ({ id, advice, text, lines, sums, remarks, problems }: StepView) => ({
  id,
  advice,
  text,
  lines,
  sums,
  remarks,
  problems,
});

const columnsOf = (notebook: Notebook) => notebook.columns?.list ?? [];

/** The steps that hang on no cell with one value that is worked out from the chosen column. */
function keptSteps(name: string): ReadonlySet<string> {
  const { sheet, notebook } = liveNotebook(name);
  const led = new Set(sheet.ledByChoice);
  const isLed = (cell: string) => led.has(sheet.idOf(cell) ?? '');
  const steps = notebook.steps.filter(
    ({ text, when = '' }) => ![...cellsNamed(text), askedBy(when).name].some(isLed),
  );
  return new Set(steps.map(({ id }) => id));
}

/** Whom a step says it is for; all where it says nothing of it. */
function whom({ runs: [lead] }: StepView, labels: readonly string[]): readonly string[] {
  const named = /^(?:Only|For) (.*): $/.exec(lead?.text ?? '')?.[1]?.split(', ') ?? [];
  return named.length > 0 && named.every((one) => labels.includes(one)) ? named : labels;
}

describe.each(notebookNames.flatMap((name) => [TEST_DAY, LATE].map((day) => [name, day] as const)))(
  '%s on day %i, all columns at once',
  (name, day) => {
    const notebook = openNotebook(name);
    const columns = columnsOf(notebook);
    const labels = columns.map(({ label }) => label);
    const kept = keptSteps(name);

    test('the steps are the same whichever column is chosen', () => {
      const told = columns.map(({ id }) =>
        toldOf(picked(notebook, id, day), true)
          .filter((step) => kept.has(step.id))
          .map(readOf),
      );
      for (const one of told) expect(one).toEqual(told[0]);
    });

    test('a step is told for just those columns it is told for alone', () => {
      for (const { id, label } of columns) {
        const session = picked(notebook, id, day);
        const alone = toldOf(session, false).map((step) => step.id);
        const atOnce = toldOf(session, true).filter((step) => whom(step, labels).includes(label));
        expect(atOnce.map((step) => step.id)).toEqual(alone);
      }
    });
  },
);

describe('a step that is not for all', () => {
  const at = (name: string, column: string, id: string, day = TEST_DAY) => {
    const step = picked(openNotebook(name), column, day)
      .steps({ allSizes: true })
      .steps.find((one) => one.id === id);
    if (!step?.applies) throw new Error(`step ${id} is not told`);
    return step;
  };

  test('says for whom it is, and has the numbers of those alone', () => {
    expect(at('fit-sock', 'c1', 't4').text).toBe(
      'Only Imke: Leg: knit 37 rnds straight, to the fullest calf (92 sts).',
    );
    const calf = at('fit-sock', 'c1', 't5');
    expect(calf.runs.map(({ text }) => text).join('')).toMatch(/^Only Imke: Calf: .* counted from here:$/);
    expect(calf.lines.map(({ label }) => label)).toEqual(['Rnds 1–48', 'Rnds 49–90']);
    expect(at('plan-gifts', 'c1', 't3', LATE).text).toBe(
      'Only Hat for Oona: Wash and dry it, then post it by 24 Dec 2026.',
    );
  });

  test('of several it leaves a dash in the place of the others', () => {
    expect(at('fit-sock', 'c3', 't3').text).toMatch(
      /^For Runa, Tobias: Leg: knit 43 \(52, —\) rnds straight, .* \(64 \(72, —\) sts\)\.$/,
    );
    expect(at('plan-gifts', 'c3', 't6', LATE).text).toMatch(
      /^For Mitts for Ines, Socks for Tam, Cowl for Bram: .*, 28 \(24, —, 4\) days late\.$/,
    );
  });

  test('on paper it is the same', () => {
    const session = picked(openNotebook('fit-sock'), 'c1', TEST_DAY);
    expect(session.paper({ allSizes: true }).steps).toEqual(session.steps({ allSizes: true }));
  });

  test('for others than the chosen column there is nothing to tick or to count', () => {
    const { forOthers, counter, counts, recounts, ticked } = at('fit-sock', 'c1', 't5');
    expect({ forOthers, counter, counts, recounts, ticked }).toEqual({
      forOthers: true,
      counter: undefined,
      counts: [],
      recounts: false,
      ticked: false,
    });
    expect(at('fit-sock', 'c3', 't5')).toMatchObject({ forOthers: false, recounts: true });
    expect(at('fit-sock', 'c3', 't3')).toMatchObject({ forOthers: true });
  });
});

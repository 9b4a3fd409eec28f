/*
 * Questions asked of the resizing notebook: working back from every worked-out number of your size by every typed one
 * that leads to it, and how far off each can be. How often the sheet is worked out for an answer, and how long one
 * takes against working it out once.
 */

import notebookText from '../../notebooks/resize-sweater.ellwand.json?raw';
import { domainOf, doubtOf, type Lane, laneOf, lanesTo, workBack } from '../../src/doubt/index.ts';
import { isRefused, readNotebook } from '../../src/notebook/index.ts';
import { Live } from '../../src/session/index.ts';
import { explore, type Sheet } from '../../src/sheet/index.ts';
import { type Figure, median, ratioOf } from './figure.ts';

function milliseconds(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function resizing(): Sheet {
  const read = readNotebook(notebookText);
  if (isRefused(read)) throw new Error(`the resizing notebook cannot be read: ${read.refused.code}`);
  return new Live(read.notebook, 20_460).sheet;
}

/** The worked-out numbers of your size. */
function lanesOf(sheet: Sheet): readonly Lane[] {
  return sheet.cells
    .filter((id) => !sheet.info(id).typed && sheet.value(id).kind === 'quantity')
    .map((id) => laneOf(sheet, id, Math.max(0, sheet.chosenColumn)));
}

function numberAt(sheet: Sheet, { id, column }: Lane): number {
  const value = sheet.value(id, column);
  return value.kind === 'quantity' ? value.value : Number.NaN;
}

/** One evaluation of what leads to a lane: what every answer is held against. */
const once = (sheet: Sheet, lane: Lane) => milliseconds(() => explore(sheet, [], false, lane.id));

function workingBack(sheet: Sheet, quick: boolean): readonly Figure[] {
  const [evaluations, asked, single] = [[] as number[], [] as number[], [] as number[]];
  for (const lane of lanesOf(sheet))
    for (const giving of lanesTo(sheet, lane, false)) {
      const domain = sheet.info(giving.id).typed ? domainOf(sheet, giving) : undefined;
      if (!domain || (quick && evaluations.length > 40)) continue;
      const wanted = { kind: 'number', value: numberAt(sheet, lane) * 1.03 } as const;
      let answer: ReturnType<typeof workBack> | undefined;
      asked.push(
        milliseconds(() => {
          answer = workBack(sheet, lane, giving, domain, wanted);
        }),
      );
      single.push(once(sheet, lane));
      evaluations.push(answer?.evaluations ?? Number.NaN);
    }
  const most = Math.max(...evaluations);
  const name = `working back, ${quick ? 'some' : 'every'} question of the resizing notebook`;
  return [
    {
      name: `${name}: evaluations for one`,
      ratio: median(evaluations),
      spread: 0,
      better: 'less',
      unit: 'evaluations',
      note: `${evaluations.length} questions, the hardest ${most.toLocaleString('en-GB')}`,
    },
    {
      name: `${name}: time, against one evaluation`,
      ...ratioOf(asked, single),
      better: 'less',
      note: `median ${median(asked).toFixed(1)} ms, the slowest ${Math.max(...asked).toFixed(0)} ms`,
    },
  ];
}

function howFarOff(sheet: Sheet): Figure {
  const [asked, single] = [[] as number[], [] as number[]];
  for (const lane of lanesOf(sheet)) {
    asked.push(milliseconds(() => doubtOf(sheet, lane)));
    single.push(once(sheet, lane));
  }
  return {
    name: 'how far off each number of the resizing notebook can be: time, against one evaluation',
    ...ratioOf(asked, single),
    better: 'less',
    note: `median ${median(asked).toFixed(2)} ms, the slowest ${Math.max(...asked).toFixed(0)} ms`,
  };
}

/** The figures of questions; `quick` asks only some. */
export function askingFigures(quick: boolean): readonly Figure[] {
  const sheet = resizing();
  howFarOff(sheet); // Once for nothing, so that the machine knows the way.
  return [howFarOff(sheet), ...workingBack(sheet, quick)];
}

// What is said in the prebuilt notebooks, in every column and at values of every plausible size: proper plurals, no
// doubled spaces, nothing of the machine's. And whatever is typed, no count is below nothing unless a check says so.
import { describe, expect, test } from 'vitest';
import { isDecided } from '../../src/formula/index.ts';
import { createSession, type Session } from '../../src/session/index.ts';
import { notebookNames, openNotebook, TEST_DAY } from '../support/notebook.ts';

/** What no sentence may have in it, with what is wrong about it. */
const WRONG: readonly (readonly [RegExp, string])[] = [
  [
    /(?<![\d.,⁄½¼¾⅓⅔⅛⅜⅝⅞])(?<!\d )1 (sts|rows|rnds|times|repeats|joins|skeins|days|hours|pieces|mends)\b/u,
    'one of many',
  ],
  [/(?<![\d.,½¼¾⅛⅜⅝⅞])([02-9]|[1-9]\d+) (st|row|rnd|repeat|join|skein|day)\b(?! \/)/u, 'many of one'],
  [/ {2}/u, 'two spaces'],
  [/NaN|Infinity|∞|undefined|null\b|\[object/u, 'of the machine'],
  [/[a-z]_[a-z]/u, 'a bare name'],
  [/\{|\}/u, 'a brace'],
  [/\s[.,;]/u, 'a space before a stop'],
  [/[.,;:]{2}/u, 'two stops'],
  [/…/u, 'a gap'],
];

function faultsOf(place: string, text: string): readonly string[] {
  return WRONG.flatMap(([wrong, words]) => (wrong.test(text) ? [`${place}: ${words}: ${text}`] : []));
}

/** Everything a notebook says with that column chosen: rows, remarks, steps with their lines. */
function said(name: string, column: string | undefined): readonly (readonly [string, string])[] {
  const session = createSession({ notebook: openNotebook(name), today: TEST_DAY, random: Math.random });
  if (column !== undefined) session.choose(column);
  const rows = session.page().sections.flatMap(({ title, about, cells, cautions }) => [
    [`section ${title}`, [title, about, ...cautions].filter(Boolean).join(' | ')] as const,
    ...cells.flatMap((id) => {
      const row = session.row(id);
      const values = row.values.map((value) => value.says);
      return [row.note, ...row.cautions, ...values].map((text) => [row.name, text] as const);
    }),
  ]);
  const steps = session
    .steps()
    .steps.filter((step) => step.applies)
    .flatMap((step) => [
      [`step ${step.id}`, step.runs.map((run) => run.text).join('')] as const,
      ...step.lines.map(
        (line) =>
          [`step ${step.id}`, [line.label, line.text, line.after].filter(Boolean).join(' | ')] as const,
      ),
      ...step.problems.map((text) => [`step ${step.id}, a problem`, `${text} …`] as const),
    ]);
  return [...rows, ...steps];
}

describe.each(notebookNames)('%s', (name) => {
  const notebook = openNotebook(name);
  const columns = notebook.columns?.list.map((column) => column.id) ?? [undefined];

  test('says all in proper words, in every column', { timeout: 60_000 }, () => {
    const faults = new Set(
      columns.flatMap((column) => said(name, column).flatMap(([place, text]) => faultsOf(place, text))),
    );
    expect([...faults]).toEqual([]);
  });

  test('where a number is nothing, or four times smaller or larger, no count falls below nothing unheard', {
    timeout: 120_000,
  }, () => {
    const session = opened(name);
    const before = findings(session);
    expect(below(session)).toEqual([]);
    const silent = typedNumbers(session).flatMap(([id, texts]) =>
      [0, 0.25, 4].flatMap((factor) => {
        for (const [column, text] of texts) session.type({ cell: id, column }, scaled(text, factor));
        const told = [...findings(session)].filter((one) => !before.has(one));
        const found = told.length > 0 ? [] : below(session);
        const bad = absurd(session);
        while (session.page().undo !== '') session.undo();
        return [...found, ...bad].map((one) => `${nameOf(session, id)} × ${factor}: ${one}`);
      }),
    );
    expect(silent).toEqual([]);
  });
});

const opened = (name: string): Session =>
  createSession({ notebook: openNotebook(name), today: TEST_DAY, random: Math.random });
const nameOf = (session: Session, id: string): string => session.live.sheet.nameOf(id);
const columnsOf = (session: Session): readonly number[] => session.live.columns.map((_, i) => i);

/** A typed number's text with its number so much larger, its unit and its doubt kept. */
function scaled(text: string, factor: number): string {
  return text.replace(/^\s*-?[\d.]+( \d+\/\d+)?/u, (number) => {
    const [whole = '0', part = '0/1'] = number.trim().split(' ');
    const [up = '0', down = '1'] = part.split('/');
    return String(Math.round((Number(whole) + Number(up) / Number(down)) * factor * 1000) / 1000);
  });
}

/** The typed cells that hold numbers, each with its texts by column. */
function typedNumbers(
  session: Session,
): readonly (readonly [string, readonly (readonly [string | null, string])[]])[] {
  return session.notebook.sections.flatMap(({ cells }) =>
    cells.flatMap((cell) => {
      if (!session.live.sheet.info(cell.id).typed) return [];
      const texts = cell.each ? Object.entries(cell.each) : [[null, cell.text ?? ''] as const];
      return texts.some(([, text]) => /^\s*\d/u.test(text)) ? [[cell.id, texts] as const] : [];
    }),
  );
}

function everyValue(session: Session) {
  const { sheet } = session.live;
  return sheet.cells.flatMap((id) =>
    (sheet.info(id).each ? columnsOf(session) : [0]).map((column) => ({
      id,
      column,
      name: sheet.nameOf(id),
      value: sheet.value(id, column),
    })),
  );
}

/** Every problem, every cell that waits for one, and every check that says no. */
function findings(session: Session): ReadonlySet<string> {
  return new Set(
    everyValue(session).flatMap(({ name, column, value }) => {
      const isFinding = value.kind === 'problem' || (value.kind === 'truth' && !value.truth);
      return isFinding ? [`${name} ${column}`] : [];
    }),
  );
}

/** Cells whose very meaning is a difference, which has a sign. */
const SIGNED =
  /to_add|to_change|changed|saved|to_fit|over$|left_over|stitches_to|rows_to|difference|ease|balance|to_spare|free$/u;

/** Decided counts that are below nothing, though they are no differences. */
function below(session: Session): readonly string[] {
  return everyValue(session).flatMap(({ id, name, value }) => {
    if (value.kind !== 'quantity' || value.value >= 0 || SIGNED.test(name)) return [];
    const { typed, type } = session.live.sheet.info(id);
    return !typed && type && isDecided(type) ? [`${name} is ${value.value}`] : [];
  });
}

function absurd(session: Session): readonly string[] {
  return everyValue(session).flatMap(({ name, value }) =>
    value.kind === 'quantity' && !Number.isFinite(value.value) ? [`${name} is ${value.value}`] : [],
  );
}

// A page is read in inches or in centimetres, as one likes: by common practice patterns print both.
test.each(notebookNames)(
  '%s: a length in a note, which is in one unit whatever the page is in, is given in both',
  (name) => {
    const notes = openNotebook(name)
      .sections.flatMap(({ cells }) => cells)
      .flatMap(({ note, says }) => [note, says?.text, says?.yes, says?.no])
      .filter((text) => text !== undefined);
    const inOne = notes.filter(
      (text) =>
        /\d in(?! (the|either)\b)|\d cm\b/.test(text) &&
        !/\d in \([\d.]+ (to \d+ )?cm\)|\d cm \(.+ in\)/.test(text),
    );
    expect(inOne).toEqual([]);
  },
);

import type { ColumnView, RowView, Tone } from '../../session/index.ts';

/** One list for all rows that have nothing to say, so that nothing is drawn anew for them. */
const none: readonly RowSentence[] = [];

/** A sentence under a row, and how it is to be looked at. */
export interface RowSentence {
  readonly text: string;
  readonly tone: Tone;
}

/**
 * What a row with a value for each column says under its values: every problem, once, naming its columns when it is
 * not in all of them, and else what the chosen column has to say. A row with one value says it beside the value.
 */
export function sentencesOf(
  row: RowView,
  columns: readonly ColumnView[],
  chosenIndex: number,
): readonly RowSentence[] {
  if (!row.each || row.plain) return none;
  const problems = new Map<string, string[]>();
  row.values.forEach((value, i) => {
    if (value.tone !== 'problem' || value.says === '') return;
    const labels = problems.get(value.says) ?? [];
    problems.set(value.says, [...labels, columns[i]?.label ?? '']);
  });
  const told = [...problems].map(([text, labels]): RowSentence => {
    return { text: labels.length < columns.length ? `${labels.join(', ')}: ${text}` : text, tone: 'problem' };
  });
  const chosen = row.values[chosenIndex];
  const says = chosen && chosen.tone !== 'problem' ? chosen.says : '';
  if (told.length === 0 && says === '') return none;
  return says === '' || !chosen ? told : [...told, { text: says, tone: chosen.tone }];
}

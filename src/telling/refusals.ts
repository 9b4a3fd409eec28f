/*
 * What a file, a link or a change cannot be, and what was mended in one, as one sentence each. A refusal says why
 * nothing came of it and what to try; a remark, which carries the path of its place, says what was done about it.
 */

/** A refusal or remark, by its code and parts; a remark has its place in the file among them, as `path`. */
export interface Refusal {
  readonly code: string;
  readonly parts: Readonly<Record<string, string | number | readonly string[]>>;
}

type Parts = Refusal['parts'];
type Sentence = (parts: Parts) => string;

const part = (parts: Parts, name: string): string => String(parts[name] ?? '');
const has = (parts: Parts, name: string): boolean => part(parts, name) !== '';
/** Whether it tells what was done about a file, not why something could not be done. */
const isRemark = (parts: Parts): boolean => Object.hasOwn(parts, 'path');
const spaced = (parts: Parts, name: string): string => part(parts, name).replaceAll('_', ' ').trim();
const number = (parts: Parts, name: string): string => Number(parts[name] ?? 0).toLocaleString('en-GB');
const counted = (parts: Parts, one: string, many: string): string =>
  `${number(parts, 'count')} ${Number(parts['count']) === 1 ? one : many}`;
const wereOr = (parts: Parts): string => (Number(parts['count']) === 1 ? 'was' : 'were');
const megabytes = (parts: Parts, name: string): string =>
  `${(Number(parts[name] ?? 0) / 1_048_576).toLocaleString('en-GB', { maximumFractionDigits: 1 })} MB`;

/** What the lists of a file hold, one of them. */
const MEMBERS: Readonly<Record<string, string>> = {
  sections: 'section',
  cells: 'cell',
  columns: 'columns',
  list: 'column',
  drawings: 'drawing',
  steps: 'step',
  sources: 'source',
  cautions: 'caution',
  choices: 'choice',
};

/** "section 2, cell 4, note": a place in a file in words; numbers are counted from 1. */
function placeInWords(path: string): string {
  const words: string[] = [];
  for (const key of path.split('.')) {
    const last = words.at(-1);
    if (!/^\d+$/.test(key)) words.push(key.replaceAll('_', ' '));
    else if (last !== undefined) words[words.length - 1] = `${MEMBERS[last] ?? last} ${Number(key) + 1}`;
  }
  return words.filter((word) => word !== '').join(', ');
}

/** " (section 2, cell 4)", or nothing where the place is the whole file. */
function at(parts: Parts): string {
  const place = placeInWords(part(parts, 'path'));
  return place === '' ? '' : ` (${place})`;
}

const KINDS: Readonly<Record<string, string>> = {
  zip: 'a packed file: unpack it first',
  picture: 'a picture',
  film: 'a film',
  pdf: 'a PDF',
  office: 'an office document',
  database: 'a database',
  web_page: 'a web page',
};

const files: Record<string, Sentence> = {
  another_kind: (p) =>
    `This is ${KINDS[part(p, 'kind')] ?? 'a file of another kind'}${part(p, 'kind') === 'zip' ? '' : ', not a notebook: choose a file that ends in .ellwand.json'}.`,
  empty_file: () => 'This file is empty: save it again where it came from.',
  not_text: () => 'This file is not text, so it is no notebook: choose a file that ends in .ellwand.json.',
  not_json: (p) =>
    `This is not a notebook: nothing could be read at line ${part(p, 'line')}, letter ${part(p, 'column')}.`,
  not_a_notebook: () => 'This file can be read, but there is no notebook in it.',
  not_a_shelf: () => 'This file does not hold a shelf of notebooks: to open one notebook, use Open.',
  too_big: (p) => `This file has ${megabytes(p, 'size')}, and ${megabytes(p, 'limit')} is the most.`,
  too_deep: (p) => `This file is nested too deep to be a notebook, at line ${part(p, 'line')}.`,
  unreadable_file: () => 'The browser could not read this file: it may have been moved. Choose it again.',
  later_version: (p) =>
    has(p, 'known')
      ? 'This notebook was made by a newer Ellwand: it can be read here, not changed.'
      : 'This notebook was made by a newer Ellwand: reload the page to get the new version, then try again.',
  read_only: () => 'This notebook was made by a newer Ellwand: it can be read here, not changed.',
};

const links: Record<string, Sentence> = {
  link_cut: () => 'This link was cut short on its way: ask for it again, or for the file.',
  link_damaged: () =>
    'This link was changed on its way and cannot be trusted: ask for it again, or for the file.',
  link_letters: () => 'There are letters in this link that no link has: copy the whole of it again.',
  link_too_big: () => 'This link holds more than a notebook can: ask for the file instead.',
  link_too_long: (p) =>
    `As a link this notebook has ${number(p, 'length')} letters, and ${number(p, 'limit')} is what most apps pass on: send the file.`,
  local_page: () => 'This page is open from your own machine, where a link leads nobody else: send the file.',
  prebuilt_changed: (p) =>
    `This link grows from “${part(p, 'notebook')}” as another Ellwand has it, older or newer than this one, so it cannot be opened here without mistakes: ask for the file.`,
  no_such_prebuilt: (p) =>
    `This link grows from the notebook “${part(p, 'notebook')}”, version ${part(p, 'version')}, which is not here: ask for the file.`,
};

const kept: Record<string, Sentence> = {
  no_such_notebook: () => 'That notebook is not on this device: it was deleted, or made in another browser.',
  no_such_version: () => 'That version is no longer kept.',
  log_stopped: () =>
    'The last changes could not be read again: the notebook stands as it was just before them.',
  refused: () => 'Another tab could not take this change: look whether it is still wanted.',
};

const changes: Record<string, Sentence> = {
  nothing_to_undo: () => 'There is nothing to undo.',
  nothing_to_redo: () => 'There is nothing to do again.',
  no_such_cell: () => 'That cell is gone: it was deleted.',
  no_such_section: () => 'That section is gone: it was deleted.',
  no_such_item: (p) => `That ${MEMBERS[part(p, 'list')] ?? 'entry'} is gone: it was deleted.`,
  no_such_change: () => 'This change comes from a newer Ellwand and is not known here: reload the page.',
  no_columns: () => 'This notebook has no columns yet: add one first.',
  not_by_column: (p) => `“${spaced(p, 'name')}” has one value for all columns: make it one for each first.`,
  not_an_id: () => 'This could not be added, because its mark is not one that Ellwand gives: add it afresh.',
  id_taken: () => 'This is here already: there is no need to add it twice.',
};

/** Codes that a change is refused with and a file is mended with; a remark has a path. */
const both: Record<string, Sentence> = {
  name_taken: (p) => {
    if (has(p, 'was'))
      return `Two cells were called “${spaced(p, 'was')}”: the second is now “${spaced(p, 'name')}”${at(p)}.`;
    return has(p, 'taken')
      ? `There is a cell called “${spaced(p, 'taken')}” already: choose another name.`
      : 'Two of these cells have the same name: give one of them another.';
  },
  not_a_name: (p) =>
    has(p, 'was')
      ? `“${part(p, 'was')}” cannot be a name, so this cell is now “${spaced(p, 'name')}”${at(p)}.`
      : `“${part(p, 'name')}” cannot be a name: begin with a letter and use only letters, digits and spaces.`,
  label_taken: (p) =>
    has(p, 'was')
      ? `Two columns were called “${part(p, 'was')}”: the second is now “${part(p, 'label')}”.`
      : `There is a column called “${part(p, 'taken')}” already: choose another label.`,
  not_a_label: (p) =>
    isRemark(p)
      ? `“${part(p, 'was')}” cannot be a column’s label, so this column is now “${part(p, 'label')}”.`
      : 'A column’s label has 1 to 24 letters and no quote marks: choose another.',
  no_such_column: (p) => {
    if (has(p, 'text'))
      return `“${part(p, 'text')}” in “${spaced(p, 'name')}” belonged to a column that is not there, and was left out.`;
    return has(p, 'column')
      ? 'The column that was chosen is not there: choose one.'
      : 'That column is gone: it was deleted.';
  },
  too_long: (p) =>
    isRemark(p)
      ? `A text of ${number(p, 'length')} letters was cut at ${number(p, 'limit')}, which is the most${at(p)}.`
      : `This has ${number(p, 'length')} letters, and ${number(p, 'limit')} is the most: shorten it.`,
  formula_too_long: (p) =>
    isRemark(p)
      ? `A formula of ${number(p, 'length')} letters was left out, as ${number(p, 'limit')} is the most: “${part(p, 'start')}…”${at(p)}.`
      : `This has ${number(p, 'length')} letters, and ${number(p, 'limit')} is the most: split it into several cells.`,
  wrong_kind: (p) => {
    const found = `${part(p, 'found')}${has(p, 'value') ? ` (“${part(p, 'value')}”)` : ''}`;
    return isRemark(p)
      ? `There should be ${part(p, 'expected')} here, and there was ${found}: it was left out${at(p)}.`
      : `There should be ${part(p, 'expected')} here, and this is ${found}.`;
  },
  too_many: (p) =>
    isRemark(p)
      ? `There were ${number(p, 'count')} here, and only the first ${number(p, 'limit')} were read${at(p)}.`
      : `There are ${number(p, 'limit')} already, which is the most: delete some first.`,
  no_such_day: (p) =>
    `“${part(p, 'text')}” is not a day of the calendar${isRemark(p) ? ', so today is used' : ': write it as 2026-12-24'}.`,
};

const mended: Record<string, Sentence> = {
  cut_off: (p) => `The file breaks off at line ${part(p, 'line')}: all before that was read.`,
  broken: (p) => `The file could not be read past line ${part(p, 'line')}: all before that was read.`,
  slips: (p) => `In the file ${counted(p, 'slip', 'slips')} of comma or bracket ${wereOr(p)} put right.`,
  repeated_key: (p) => `“${part(p, 'key')}” stood twice in one place of the file: the last was read.`,
  text_after_end: () => 'What followed the notebook’s end in the file was left out.',
  damaged_letters: (p) => `On the way ${counted(p, 'letter', 'letters')} ${wereOr(p)} damaged: look for �.`,
  no_version: () => 'The file does not say its version: it was read as a new one.',
  no_title: () => 'The notebook had no title: it is called “Untitled” now.',
  no_units: (p) => `The notebook did not say inches or centimetres: it shows ${part(p, 'units')} now.`,
  no_sections: () => 'There were no sections in this notebook.',
  no_id: (p) => `Something in the file had no mark to know it by, and was given one${at(p)}.`,
  id_made_new: (p) => `Two things in the file had the same mark, and the second was given a new one${at(p)}.`,
  no_name: (p) => `A cell without a name is called “${spaced(p, 'name')}” now${at(p)}.`,
  columns_made: (p) =>
    `The columns were missing: ${counted(p, 'column', 'columns')} ${wereOr(p)} made from the values.`,
  text_and_each: (p) =>
    `A cell had one value and one for each column: “${part(p, 'text')}” was left out${at(p)}.`,
  half_a_range: (p) => `A range to search had only one end, and was left out${at(p)}.`,
  read_as_text: (p) =>
    `“${part(p, 'text')}” stood in the file without quote marks, and was read as text${at(p)}.`,
  more_remarks: (p) => `And ${counted(p, 'more thing', 'more things')} ${wereOr(p)} mended.`,
};

const SENTENCES: Readonly<Record<string, Sentence>> = {
  ...files,
  ...links,
  ...kept,
  ...changes,
  ...both,
  ...mended,
};

/** Every code there is a sentence for. */
export const refusalCodes: readonly string[] = Object.keys(SENTENCES);

/** A refusal or remark as one sentence. */
export function refusalSentence({ code, parts }: Refusal): string {
  const sentence = Object.hasOwn(SENTENCES, code) ? SENTENCES[code] : undefined;
  return sentence ? sentence(parts) : `This could not be done (${code.replaceAll('_', ' ')}${at(parts)}).`;
}

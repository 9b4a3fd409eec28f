/*
 * A file, read: bytes to text (`decode.ts`), text to values (`parse.ts`), old versions to the newest (`migrations/`), values
 * to a notebook (`validate.ts`). Whatever the file holds, the result is a notebook with remarks on what was mended, or one
 * named reason why there is none. Nothing here throws; the time is linear in the file, and its size is limited.
 */
import { decode } from './decode.ts';
import { FORMAT, type Notebook } from './document.ts';
import { idFromText } from './ids.ts';
import { migrations as allMigrations } from './migrations/index.ts';
import { type Migration, migrate, type Raw } from './migrations/migrate.ts';
import { type Parsed, parse } from './parse.ts';
import { isRecord } from './record.ts';
import { isRefused, type Refused, type Remark, Remarks, refuse } from './remark.ts';
import { validate } from './validate.ts';

/** What a file gave. */
export interface Read {
  readonly notebook: Notebook;
  /** What was mended or left out; empty for a good file. */
  readonly remarks: readonly Remark[];
  /** A file of a later version: it may be shown, and is never written. */
  readonly readOnly: boolean;
  /** The migrations that ran, by the version they took. */
  readonly migrated: readonly number[];
}

/** Reads a notebook file. Refusals: `too_big`, `empty_file`, `another_kind`, `not_text`, `not_json`, `not_a_notebook`, `too_deep`. */
export function readNotebook(
  input: string | Uint8Array,
  migrations: readonly Migration[] = allMigrations,
): Read | Refused {
  const decoded = decode(input);
  if (isRefused(decoded)) return decoded;
  const parsed = parse(decoded.text);
  if (!isRecord(parsed.value) || !looksLikeOne(parsed.value)) return whyNot(decoded.text, parsed);
  const remarks = new Remarks();
  if (decoded.damaged > 0) remarks.add('damaged_letters', '', { count: decoded.damaged });
  remarkOn(parsed, remarks);
  return fromRaw(parsed.value, decoded.text, remarks, migrations);
}

/** Reads a notebook from values already parsed, as a database keeps them. */
export function readNotebookValue(value: unknown): Read | Refused {
  if (!isRecord(value) || !looksLikeOne(value)) return refuse('not_a_notebook');
  return fromRaw(value, '', new Remarks(), allMigrations);
}

function fromRaw(raw: Raw, text: string, remarks: Remarks, migrations: readonly Migration[]): Read {
  const { file, ran } = migrate(raw, versionOf(raw), migrations);
  const checked = validate(file, remarks);
  const notebook = checked.id === '' ? { ...checked, id: idFromText(text || checked.title, 'n') } : checked;
  if (checked.id === '') remarks.add('no_id', 'id', { id: notebook.id });
  const readOnly = notebook.ellwand > FORMAT;
  if (readOnly) remarks.add('later_version', 'ellwand', { version: notebook.ellwand, known: FORMAT });
  return { notebook, remarks: remarks.list(), readOnly, migrated: ran };
}

/** Whether a group is meant for a notebook: it says so, or has sections. */
const looksLikeOne = (value: Raw): boolean =>
  Object.hasOwn(value, 'ellwand') || Array.isArray(value['sections']);

/** The version a file says it is of; one that says nothing sensible is taken for the newest, so that nothing is migrated. */
function versionOf(file: Raw): number {
  const version = file['ellwand'];
  return typeof version === 'number' && Number.isInteger(version) && version >= 1 ? version : FORMAT;
}

function remarkOn(parsed: Parsed, remarks: Remarks): void {
  const { stopped, slips, repeated, tail } = parsed;
  const codes = { cut: 'cut_off', broken: 'broken', too_deep: 'too_deep' } as const;
  if (stopped) remarks.add(codes[stopped.why], '', { line: stopped.line, column: stopped.column });
  if (slips > 0) remarks.add('slips', '', { count: slips });
  for (const key of repeated) remarks.add('repeated_key', '', { key: key.slice(0, 40) });
  if (tail) remarks.add('text_after_end', '');
}

function whyNot(text: string, parsed: Parsed): Refused {
  if (/^\s*</.test(text)) return refuse('another_kind', { kind: 'web_page' });
  const { stopped } = parsed;
  if (stopped?.why === 'too_deep') return refuse('too_deep', { line: stopped.line, column: stopped.column });
  if (stopped) return refuse('not_json', { line: stopped.line, column: stopped.column });
  return refuse('not_a_notebook');
}

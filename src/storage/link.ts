/*
 * A notebook in an address, after `#`, where it reaches no server. A notebook grown from a prebuilt one travels as that one's
 * name and version and the changes since, so that most fit into a message; whichever is shorter is taken.
 *
 *   #n=LETTERS      LETTERS: squeezed text
 *   n{…}            a whole notebook, as its file without spaces
 *   c{"from": {…}, "id": "…", "sum": "…", "changes": […]}
 *
 * `sum` is the checksum of the whole notebook that was sent. Whoever opens the link may have the prebuilt notebook in
 * another state (mended since, under the same version): what grows from it is then another notebook, the sum does not fit,
 * and the link says that it cannot be opened, rather than show other numbers.
 */
import {
  applyChange,
  type Change,
  changeFromJSON,
  changesBetween,
  changeToJSON,
  FORMAT,
  isRecord,
  isRefused,
  type Knitted,
  limits,
  type Notebook,
  type Progress,
  parseJson,
  type Read,
  type Refused,
  readNotebook,
  refuse,
  type SetProgress,
  writeNotebook,
} from '../notebook/index.ts';
import { crc32 } from './checksum.ts';
import { squeeze, unsqueeze } from './squeeze.ts';

/** An address that holds a notebook. */
export interface Link {
  readonly address: string;
  /** Short enough for a picture code. */
  readonly fitsPicture: boolean;
}

/** Finds a prebuilt notebook by name and version; undefined when there is none. */
export type FindPrebuilt = (name: string, version: number) => Promise<Notebook | undefined>;

/** What a link is to hold, and for which page. */
export interface Sharing {
  /** The page's own address. */
  readonly page: string;
  readonly findPrebuilt: FindPrebuilt;
  /** Whether what has been knitted goes with it. */
  readonly withProgress?: boolean;
}

/** The link. Refused with `local_page` (nobody else can open it), `link_too_long` or `later_version`: then give the file. */
export async function linkTo(notebook: Notebook, sharing: Sharing): Promise<Link | Refused> {
  if (notebook.ellwand > FORMAT) return refuse('later_version', { version: notebook.ellwand });
  const page = new URL(sharing.page);
  if (page.protocol === 'file:' || isLocal(page.hostname))
    return refuse('local_page', { host: page.hostname });
  const { progress, ...bare } = notebook;
  const shared = sharing.withProgress && progress ? { ...bare, progress } : bare;
  const texts = [`n${packedFile(shared)}`, ...(await grownFrom(shared, sharing.findPrebuilt))];
  const letters = (await Promise.all(texts.map((text) => squeeze(text)))).reduce((a, b) =>
    b.length < a.length ? b : a,
  );
  page.hash = `n=${letters}`;
  const address = page.href;
  if (address.length > limits.link)
    return refuse('link_too_long', { length: address.length, limit: limits.link });
  return { address, fitsPicture: address.length <= limits.picture };
}

/** Whether an address's part after `#` means to hold a notebook. */
export const isLink = (fragment: string): boolean => /^#?n=/.test(fragment);

/**
 * The notebook in the part after `#`. Refused with `link_letters`, `link_cut`, `link_damaged`, `link_too_big`,
 * `no_such_prebuilt`, `prebuilt_changed`, or as `readNotebook` refuses.
 */
export async function readLink(fragment: string, findPrebuilt: FindPrebuilt): Promise<Read | Refused> {
  const text = await unsqueeze(fragment.replace(/^#?n=/, ''));
  if (typeof text !== 'string') return text;
  if (text.startsWith('n')) return readNotebook(text.slice(1));
  return text.startsWith('c') ? regrown(text.slice(1), findPrebuilt) : refuse('link_damaged');
}

const isLocal = (host: string): boolean => /^(localhost|127\..*|\[::1\]|.*\.localhost)$/.test(host);

const packedFile = (notebook: Notebook): string => JSON.stringify(JSON.parse(writeNotebook(notebook)));

/** The notebook as what has changed since the prebuilt one it comes from; nothing where that is not known. */
async function grownFrom(notebook: Notebook, findPrebuilt: FindPrebuilt): Promise<readonly string[]> {
  const { from, id, progress } = notebook;
  const prebuilt = from && (await findPrebuilt(from.notebook, from.version));
  if (from === undefined || prebuilt === undefined) return [];
  const changes = changesBetween(unknitted(prebuilt), notebook).map(changeToJSON);
  if (progress) changes.push(...knitted(progress).map(changeToJSON));
  return [`c${JSON.stringify({ from, id, sum: sumOf(notebook), changes })}`];
}

/** The checksum of a notebook as its file. */
const sumOf = (notebook: Notebook): string =>
  crc32(new TextEncoder().encode(packedFile(notebook))).toString(36);

/** The notebook as it was made, before anything was knitted from it. */
function unknitted({ progress: _progress, ...notebook }: Notebook): Notebook {
  return notebook;
}

/** What has been knitted, as changes: of each of the other columns, then of the first, or of none. */
const knitted = ({ of, others = {}, ...first }: Progress): readonly Change[] => [
  ...Object.entries(others).map(([column, other]) => ({ ...knit(other), column })),
  of === undefined ? knit(first) : { ...knit(first), column: of, names: true },
];

const knit = ({ ticked, pinned, rows }: Knitted): SetProgress => ({
  kind: 'set_progress',
  ticked,
  pinned,
  rows,
});

async function regrown(text: string, findPrebuilt: FindPrebuilt): Promise<Read | Refused> {
  const { value } = parseJson(text);
  const { from, id, sum, changes } = isRecord(value) ? value : {};
  if (!isRecord(from) || typeof id !== 'string' || !Array.isArray(changes)) return refuse('link_damaged');
  const { notebook: name, version } = from;
  if (typeof name !== 'string' || typeof version !== 'number') return refuse('link_damaged');
  const prebuilt = await findPrebuilt(name, version);
  if (prebuilt === undefined) return refuse('no_such_prebuilt', { notebook: name, version });
  const grown = withChanges({ ...unknitted(prebuilt), id, from: { notebook: name, version } }, changes);
  // The letters came whole, so it is the prebuilt notebook that is not the one they were made from.
  if (isRefused(grown) || sumOf(grown) !== sum)
    return refuse('prebuilt_changed', { notebook: prebuilt.title });
  // Through the file, so that the result has been checked as any file's is.
  return readNotebook(writeNotebook(grown));
}

function withChanges(prebuilt: Notebook, changes: readonly unknown[]): Notebook | Refused {
  let notebook = prebuilt;
  for (const json of changes) {
    const change = changeFromJSON(json);
    const next = change && applyChange(notebook, change);
    if (next === undefined || isRefused(next)) return refuse('link_damaged');
    notebook = next;
  }
  return notebook;
}

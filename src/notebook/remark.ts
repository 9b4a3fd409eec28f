/** What reading a file has to tell: refusals and remarks, as codes and parts; `telling/problems.ts` makes the sentences. */
import { limits } from './limits.ts';

/** What a sentence names. */
export type Parts = Readonly<Record<string, string | number | readonly string[]>>;

/** Why something could not be done at all. */
export interface Refusal {
  readonly code: string;
  readonly parts: Parts;
}

/** A result that did not come about. */
export interface Refused {
  readonly refused: Refusal;
}

/** What was rescued, mended or left out while reading, and where: "sections.0.cells.3.text". */
export interface Remark {
  readonly code: string;
  readonly path: string;
  readonly parts: Parts;
}

/** A refusal in one line. */
export const refuse = (code: string, parts: Parts = {}): Refused => ({ refused: { code, parts } });

/** Whether a result is a refusal. */
export const isRefused = (result: object): result is Refused => Object.hasOwn(result, 'refused');

/** Collects remarks, up to the limit; the rest are counted in one last remark. */
export class Remarks {
  readonly #list: Remark[] = [];
  #more = 0;

  add(code: string, path: string, parts: Parts = {}): void {
    if (this.#list.length < limits.remarks) this.#list.push({ code, path, parts });
    else this.#more++;
  }

  list(): readonly Remark[] {
    if (this.#more === 0) return this.#list;
    return [...this.#list, { code: 'more_remarks', path: '', parts: { count: this.#more } }];
  }
}

/** A value named for a sentence: "a list", "text", "nothing". */
export function kindOf(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  const kinds: Record<string, string> = { string: 'text', number: 'a number', boolean: 'yes or no' };
  return kinds[typeof value] ?? 'a group';
}

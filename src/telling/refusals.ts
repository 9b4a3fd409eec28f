/*
 * What a file or a change cannot be, as one sentence: the code and parts of a refusal or a remark, put into words.
 */

/** A refusal or remark, by its code and parts. */
export interface Refusal {
  readonly code: string;
  readonly parts: Readonly<Record<string, string | number | readonly string[]>>;
}

type Sentence = (parts: Refusal['parts']) => string;
const part = (parts: Refusal['parts'], name: string): string => String(parts[name] ?? '');

const SENTENCES: Readonly<Record<string, Sentence>> = {
  nothing_to_undo: () => 'There is nothing to undo.',
  nothing_to_redo: () => 'There is nothing to do again.',
};

/** A refusal or remark as one sentence. */
export function refusalSentence({ code, parts }: Refusal): string {
  const sentence = Object.hasOwn(SENTENCES, code) ? SENTENCES[code] : undefined;
  return sentence
    ? sentence(parts)
    : `This could not be done (${code.replace(/_/g, ' ')}${part(parts, 'path') && ` at ${part(parts, 'path')}`}).`;
}

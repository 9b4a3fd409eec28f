/** Values, plans and problems as text. */
export { problemCodes, problemSentence } from './problems.ts';
export { type Refusal, refusalCodes, refusalSentence } from './refusals.ts';

/** Values, plans and problems as text. */
export { problemCodes, problemSentence } from './problems.ts';

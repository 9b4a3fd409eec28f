/** Values, plans, steps, tables, problems and refusals as text. */
export { type Abbreviation, abbreviationsIn } from './abbreviations.ts';
export {
  inRounds,
  isAlongRow,
  nounOf,
  type PlanLine,
  planInShort,
  planSays,
  planText,
  type ToldPlan,
  tellPlan,
} from './plan-lines.ts';
export { problemCodes } from './problems.ts';
export { type Refusal, refusalCodes } from './refusals.ts';
export { fetchSentences, problemSentence, refusalSentence, whenSentences } from './sentences.ts';
export { type Filled, isRound, sizeLine, type ToldRun, type ToldStep, tellStep } from './steps.ts';
export {
  type Table,
  type TableRow,
  type TableSection,
  type TableStep,
  toCSV,
  toMarkdown,
  toTabs,
} from './table.ts';

/*
 * The terminal door: a notebook file worked out and printed, with some of its cells set.
 */

import { readFileSync } from 'node:fs';
import { type Asked, ask } from '../session/index.ts';
import { printTable } from './print.ts';

const HELP = `Works a notebook out and prints it.

  sheet FILE [--set 'name=formula']… [--column LABEL] [--today 2026-12-24] [--json]

  --set     gives a cell another text; a size line fills the columns
  --column  chooses a column
  --today   the day it is
  --json    prints JSON instead of a table

Exit code: 0 when it was worked out; 1 when a cell has a problem; 2 when something could not be read.
`;

interface Words {
  file: string | undefined;
  readonly sets: string[];
  column: string | undefined;
  today: string | undefined;
  json: boolean;
}

function stop(line: string): number {
  process.stderr.write(`${line}\n`);
  return 2;
}

function wordAfter(list: readonly string[], i: number, word: string): string {
  const value = list[i];
  if (value === undefined) throw new Wrong(`${word} needs something after it`);
  return value;
}

/** What was asked for cannot be read. */
class Wrong extends Error {}

function readWords(list: readonly string[]): Words {
  const words: Words = { file: undefined, sets: [], column: undefined, today: undefined, json: false };
  for (let i = 0; i < list.length; i += 1) {
    const [word = '', joined] = splitWord(list[i] ?? '');
    const value = () => joined ?? wordAfter(list, ++i, word);
    if (word === '--json') words.json = true;
    else if (word === '--set') words.sets.push(value());
    else if (word === '--column') words.column = value();
    else if (word === '--today') words.today = value();
    else if (word.startsWith('--')) throw new Wrong(`there is no option ${word}; see --help`);
    else if (words.file === undefined) words.file = list[i];
    else throw new Wrong(`one file at a time: ${words.file} or ${list[i]}?`);
  }
  return words;
}

/** `--set=name=formula` is the same as `--set name=formula`. */
function splitWord(word: string): readonly [string, string?] {
  const at = word.indexOf('=');
  return word.startsWith('--') && at > 0 ? [word.slice(0, at), word.slice(at + 1)] : [word];
}

function read(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    const { code } = error as { code?: string };
    throw new Wrong(
      code === 'ENOENT' ? `there is no file ${file}` : `${file} cannot be opened (${code ?? 'unknown'})`,
    );
  }
}

const dayHere = (): number => {
  const now = new Date();
  return Math.floor(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86_400_000);
};

function answer(asked: Asked, json: boolean): number {
  process.stdout.write(json ? `${JSON.stringify(asked.json, null, 2)}\n` : printTable(asked));
  return asked.hasProblem ? 1 : 0;
}

/** Runs the door with the words after the command; gives the exit code. */
export function main(list: readonly string[]): number {
  if (list.length === 0 || list.includes('--help')) {
    process.stdout.write(HELP);
    return 0;
  }
  try {
    const words = readWords(list);
    if (words.file === undefined) return stop('name a notebook file; see --help');
    const { sets, column, today } = words;
    const asking = {
      sets,
      day: dayHere(),
      ...(column === undefined ? {} : { column }),
      ...(today === undefined ? {} : { today }),
    };
    const asked = ask(read(words.file), asking);
    if ('stop' in asked) return stop(`${words.file}: ${asked.stop}`);
    for (const remark of asked.remarks)
      process.stderr.write(`${words.file}: ${remark.code.replace(/_/g, ' ')} ${remark.path}\n`);
    return answer(asked, words.json);
  } catch (error) {
    if (error instanceof Wrong) return stop(error.message);
    throw error;
  }
}

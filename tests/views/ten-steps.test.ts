// The developers' guide prints the ten steps as the app says them. `GOLDEN=1` writes them there.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { piecesOf, tenSteps, tenStepsAsMarkdown } from '../../src/views/reference/ten-steps-text.ts';

const path = join(import.meta.dirname, '../../DEVELOPERS.md');

/** Where the steps stand in the guide: after the line that ends in this, up to the next blank line. */
const before = 'to the letter:\n\n';

test('DEVELOPERS.md has the ten steps word for word', () => {
  const guide = readFileSync(path, 'utf8');
  const from = guide.indexOf(before) + before.length;
  expect(from).toBeGreaterThan(before.length);
  const to = guide.indexOf('\n\n', from);
  if (process.env['GOLDEN']) {
    writeFileSync(path, guide.slice(0, from) + tenStepsAsMarkdown() + guide.slice(to));
    return;
  }
  expect(guide.slice(from, to)).toBe(tenStepsAsMarkdown());
});

test('each of the ten steps says what to do and what is to be seen, or what it is for', () => {
  expect(tenSteps).toHaveLength(10);
  for (const { text } of tenSteps) {
    const pieces = piecesOf(text);
    expect(pieces.map((piece) => piece.text).join('')).not.toMatch(/[*`<>]{2}|<\/?kbd>/);
    expect(pieces.filter((piece) => piece.kind === 'touch').length).toBeGreaterThan(0);
  }
});

test('the marks of a step are read as what they mean', () => {
  expect(piecesOf('Touch **+**, write `a_b * c_d`, press <kbd>Enter</kbd>: _a: 1 2_.')).toEqual([
    { kind: 'words', text: 'Touch ' },
    { kind: 'touch', text: '+' },
    { kind: 'words', text: ', write ' },
    { kind: 'write', text: 'a_b * c_d' },
    { kind: 'words', text: ', press ' },
    { kind: 'press', text: 'Enter' },
    { kind: 'words', text: ': ' },
    { kind: 'see', text: 'a: 1 2' },
    { kind: 'words', text: '.' },
  ]);
});

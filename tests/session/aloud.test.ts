// What a screen reader is given: numbers with their units in words; names and labels as they are.
import { describe, expect, test } from 'vitest';
import { createSession } from '../../src/session/index.ts';
import { TEST_DAY } from '../support/notebook.ts';
import { notebookOf } from '../telling/sentences.ts';

const opened = (cells: Readonly<Record<string, string>>) =>
  createSession({ notebook: notebookOf(cells), today: TEST_DAY, random: () => 0.5 });

const spoken = (text: string) => opened({ tested: text }).row('k1').values[0]?.spoken;

describe('aloud', () => {
  test.each([
    ['42 3/4 in', '42¾ inches'],
    ['18 st / 4 in', '18 stitches to 4 inches'],
    ['420 m / 100 g', '420 metres to 100 grams'],
    ['14 hours / week', '14 hours a week'],
    ['1100 st / hour', '1100 stitches an hour'],
    ['50 g / skein', '50 grams a skein'],
    ['"in the round"', 'in the round'],
    ['"4 mm, in st st"', '4 mm, in st st'],
  ])('%s is said “%s”', (text, words) => {
    expect(spoken(text)).toBe(words);
  });

  test('a name keeps its words, whatever units are called', () => {
    const session = opened({
      yarn_in_all: '109 g',
      held_back: '9 g',
      yarn_in_use: 'yarn_in_all - held_back',
      made: '"in the round"',
    });
    const news: string[] = [];
    session.listen((one) => news.push(one.aloud));
    session.nudge({ cell: 'k1', column: null }, 1);
    expect(news).toContain('yarn in all 110 grams; yarn in use: 101 grams, up 1');
    session.type({ cell: 'k4', column: null }, '"in m or in g"');
    expect(news.at(-1)).toBe('made in m or in g');
  });
});

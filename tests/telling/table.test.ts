// A notebook as CSV after RFC 4180 (Y. Shafranovich, 2005) and as Markdown tables.
import { describe, expect, test } from 'vitest';
import { type Table, toCSV, toMarkdown, toTabs } from '../../src/telling/index.ts';

const TABLE: Table = {
  title: 'Kelp jumper',
  heading: 'size',
  columns: ['S', 'M'],
  sections: [
    {
      title: 'Gauge',
      rows: [
        { name: 'stitch gauge', values: ['20 sts / 4 in ± ½'], says: [] },
        { name: 'body, flat', values: ['198 sts', ''], says: ['Said “so”, and "more"'] },
      ],
    },
  ],
};

/** Reads CSV by the grammar of RFC 4180, section 2. */
function readCSV(text: string): readonly (readonly string[])[] {
  const records: string[][] = [];
  const pattern = /("(?:[^"]|"")*"|[^",\r\n]*)(,|\r\n)/g;
  let current: string[] = [];
  for (const [, raw = '', end] of text.matchAll(pattern)) {
    current.push(raw.startsWith('"') ? raw.slice(1, -1).replaceAll('""', '"') : raw);
    if (end === ',') continue;
    records.push(current);
    current = [];
  }
  return records;
}

describe('CSV', () => {
  test('has a heading line, the units, and is read back as it was', () => {
    expect(readCSV(toCSV(TABLE))).toEqual([
      ['section', 'name', 'S', 'M', 'says'],
      ['Gauge', 'stitch gauge', '20 sts / 4 in ± ½', '', ''],
      ['Gauge', 'body, flat', '198 sts', '', 'Said “so”, and "more"'],
    ]);
  });

  test('quotes what RFC 4180 asks to be quoted, doubles quote marks, ends lines with CR LF', () => {
    const lines = toCSV(TABLE).split('\r\n');
    expect(lines[2]).toBe('Gauge,"body, flat",198 sts,,"Said “so”, and ""more"""');
    expect(lines.at(-1)).toBe('');
  });

  test('a notebook without columns has one value', () => {
    const one: Table = {
      ...TABLE,
      columns: [],
      sections: [{ title: 'A', rows: [{ name: 'b', values: ['2 in'], says: [] }] }],
    };
    expect(toCSV(one)).toBe('section,name,value,says\r\nA,b,2 in,\r\n');
  });

  test('a note that a spreadsheet would work out stays a text', () => {
    const sly: Table = {
      ...TABLE,
      columns: [],
      sections: [
        {
          title: '=1+1',
          rows: [{ name: '@sum', values: ['-2 in'], says: ['+cmd', 'two\nlines'] }],
        },
      ],
    };
    expect(readCSV(toCSV(sly))[1]).toEqual(["'=1+1", "'@sum", '-2 in', "'+cmd; two\nlines"]);
  });
});

describe('Markdown', () => {
  test('a table for each section, one column where the values are single', () => {
    const single: Table = {
      ...TABLE,
      sections: [{ title: 'Gauge', rows: [{ name: 'chest', values: ['42 in'], says: ['as wanted'] }] }],
    };
    expect(toMarkdown(single)).toBe(
      '# Kelp jumper\n\n## Gauge\n\n|  |  |  |\n| --- | --: | --- |\n| chest | 42 in | as wanted |\n',
    );
    expect(toMarkdown(TABLE)).toContain('| size | S | M |  |');
  });

  test('a note stands after what is said, and what to knit follows with its lines', () => {
    const whole: Table = {
      ...TABLE,
      columns: [],
      sections: [
        { title: 'Hat', rows: [{ name: 'head', values: ['56 cm'], says: ['as wanted'], note: 'my own' }] },
      ],
      steps: [
        { number: '', words: 'Wash the swatch.', lines: [] },
        { number: '1', words: 'Crown:', lines: ['Rnds 1–34 decrease 6 sts every 2nd rnd (6 sts)'] },
      ],
    };
    const text = toMarkdown(whole);
    expect(text).toContain('| head | 56 cm | as wanted; my own |');
    expect(text.split('## What to knit')[1]).toBe(
      '\n\n- Wash the swatch.\n1. Crown:\n   - Rnds 1–34 decrease 6 sts every 2nd rnd (6 sts)\n',
    );
  });

  test('marks and line ends in names do nothing', () => {
    const sly: Table = {
      ...TABLE,
      title: '# <b>Bold</b> | [link](x)',
      sections: [{ title: 'a\nb', rows: [{ name: '*x*', values: ['`1`', '2'], says: [] }] }],
    };
    const text = toMarkdown(sly);
    expect(text).toContain('# \\# \\<b\\>Bold\\</b\\> \\| \\[link\\](x)');
    expect(text).toContain('## a b');
    expect(text).toContain('| \\*x\\* | \\`1\\` | 2 |  |');
  });
});

test('for pasting, fields stand apart by tabs, one line a cell, and nothing in a text makes another field', () => {
  const [section] = TABLE.sections;
  const rows = [...(section?.rows ?? []), { name: 'odd', values: ['=1+1', 'a\tb\nc'], says: [] }];
  expect(toTabs({ ...TABLE, sections: [{ title: 'Gauge', rows }] }).split('\n')).toEqual([
    'section\tname\tS\tM\tsays',
    'Gauge\tstitch gauge\t20 sts / 4 in ± ½\t\t',
    'Gauge\tbody, flat\t198 sts\t\tSaid “so”, and "more"',
    "Gauge\todd\t'=1+1\ta b c\t",
    '',
  ]);
});

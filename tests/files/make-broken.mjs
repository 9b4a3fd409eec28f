/*
 * Makes the broken files of `tests/files/broken`, one for each way of breaking, and `tests/files/broken.json`, the table of what
 * must come of each: `refused` with a code, or the codes of the remarks and how many cells are left. The files are kept; run
 * `node tests/files/make-broken.mjs` after adding a way. Never change a way that is there: add another.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const good = `{ "ellwand": 1, "id": "nmitten7", "title": "Harbour mittens",
  "units": "cm",
  "columns": {"heading": "size", "list": [{"id": "c1", "label": "S"}, {"id": "c2", "label": "M"}]},
  "sections": [
    {"id": "s1", "title": "Gauge", "cells": [
      {"id": "k1", "name": "gauge", "text": "26 st / 10 cm"},
      {"id": "k2", "name": "hand", "each": {"c1": "18 cm", "c2": "20,5 cm"}} ]},
    {"id": "s2", "title": "Counts", "cells": [
      {"id": "k3", "name": "stitches", "text": "multiple(hand * gauge, 4)"},
      {"id": "k4", "name": "größe_ok", "text": "stitches >= 40 st", "says": {"yes": "fits", "no": "too small"}} ]} ],
  "steps": [{"id": "t1", "text": "Cast on {stitches}."}] }
`;
const upTo = (mark, after = 0) => good.slice(0, good.indexOf(mark) + after);
const swap = (from, to) => good.replace(from, to);
const bytes = (...list) => Buffer.from(list);
const join2 = (...parts) => Buffer.concat(parts.map((part) => Buffer.from(part)));
const utf16 = (text) => join2(bytes(0xff, 0xfe), Buffer.from(text, 'utf16le'));
const utf16be = (text) => join2(bytes(0xfe, 0xff), Buffer.from(text, 'utf16le').swap16());
const refused = (code) => ({ refused: code });
const rescued = (cells, ...remarks) => ({ cells, remarks });
const nested = (open, close, times) => open.repeat(times) + close.repeat(times);

const ways = {
  // Not text, or not a file of ours.
  'empty.json': ['', refused('empty_file')],
  'only-spaces.json': ['   \n ', refused('not_json')],
  'zip.json': [join2(bytes(0x50, 0x4b, 3, 4, 20, 0), 'rest'), refused('another_kind')],
  'png.json': [join2(bytes(0x89), 'PNG\r\n', bytes(0x1a, 10, 0, 0)), refused('another_kind')],
  'jpeg.json': [bytes(0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70), refused('another_kind')],
  'gif.json': ['GIF89a\x01', refused('another_kind')],
  'webp.json': ['RIFF\x24\x00\x00\x00WEBP', refused('another_kind')],
  'heic.json': [join2(bytes(0, 0, 0, 24), 'ftypheic'), refused('another_kind')],
  'film.json': [join2(bytes(0, 0, 0, 24), 'ftypisom'), refused('another_kind')],
  'pdf.json': ['%PDF-1.7\n', refused('another_kind')],
  'gzip.json': [bytes(0x1f, 0x8b, 8, 0, 0), refused('another_kind')],
  'old-office.json': [bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1), refused('another_kind')],
  'web-page.json': ['<!doctype html><title>Sign in</title>', refused('another_kind')],
  'noise.json': [Buffer.from(Array.from({ length: 400 }, (_, i) => (i * 137 + 91) % 256)), refused('not_text')],
  'zeros.json': [Buffer.alloc(300), refused('not_text')],
  'plain-words.json': ['Dear Ada, here are the mittens.', refused('not_json')],
  'csv.json': ['size,chest\nS,91\n', refused('not_json')],
  'a-number.json': ['42', refused('not_a_notebook')],
  'a-text.json': ['"mittens"', refused('not_a_notebook')],
  'a-list.json': ['[{"ellwand": 1}]', refused('not_a_notebook')],
  'null.json': ['null', refused('not_a_notebook')],
  'other-program.json': ['{"version": 3, "layers": []}', refused('not_a_notebook')],
  'empty-group.json': ['{}', refused('not_a_notebook')],
  'deep-lists.json': [nested('[', ']', 5000), refused('too_deep')],
  'deep-groups.json': [nested('{"a":', '}', 3000).replace(':}', ':1}'), refused('too_deep')],
  'deep-open.json': ['['.repeat(100_000), refused('too_deep')],

  // Cut off, or broken in the middle.
  'cut-at-start.json': ['{', refused('not_json')],
  'cut-in-title.json': [upTo('Harbour', 3), rescued(0, 'cut_off', 'no_title', 'no_units', 'no_sections')],
  'cut-after-key.json': [upTo('"sections"', 10), rescued(0, 'cut_off', 'no_sections')],
  'cut-in-cell.json': [upTo('multiple(', 5), rescued(2, 'cut_off')],
  'cut-after-cell.json': [upTo('20,5 cm"}}', 10), rescued(2, 'cut_off')],
  'cut-in-escape.json': [`${upTo('26 st')}\\u00`, rescued(0, 'cut_off')],
  'cut-in-word.json': [`${upTo('"text": "26')}"mood": tr`, rescued(0, 'cut_off')],
  'cut-in-letter.json': [Buffer.from(good).subarray(0, Buffer.from(upTo('ö')).length + 1), rescued(3, 'damaged_letters', 'cut_off')],
  'cut-in-number.json': ['{ "title": "x", "units": "cm", "sections": [], "ellwand": 1', rescued(0, 'cut_off', 'no_version', 'no_id')],
  'cut-before-end.json': [good.trimEnd().slice(0, -1), rescued(4, 'cut_off')],
  'cut-in-columns.json': [upTo('{"id": "c2"', 6), rescued(0, 'cut_off', 'no_sections')],
  'broken-in-cell.json': [swap('"multiple(hand * gauge, 4)"', 'multiple(hand'), rescued(2, 'broken')],
  'smart-quotes.json': [swap('"title": "Harbour mittens"', '“title”: “Harbour mittens”'), rescued(0, 'broken', 'no_title', 'no_units', 'no_sections')],
  'deep-inside.json': [swap('"text": "26 st / 10 cm"', `"text": "1", "x": ${nested('[', ']', 60)}`), rescued(0, 'too_deep')],
  'not-a-number.json': [swap('"units": "cm"', '"units": NaN'), rescued(0, 'broken', 'no_units', 'no_sections')],

  // Slips of a file edited by hand.
  'comma-too-many.json': [swap('40 st", ', '40 st",, '), rescued(4, 'slips')],
  'comma-at-end.json': [swap('20,5 cm"}} ]', '20,5 cm"}}, ]'), rescued(4, 'slips')],
  'comma-missing.json': [swap('10 cm"},', '10 cm"}'), rescued(4, 'slips')],
  'line-break-in-text.json': [swap('Harbour mittens', 'Harbour\nmittens'), rescued(4, 'slips')],
  'unknown-escape.json': [swap('Harbour mittens', 'Harbour \\m'), rescued(4, 'slips')],
  'text-after-end.json': [`${good}\nSent from my phone`, rescued(4, 'text_after_end')],
  'twice-over.json': [good + good, rescued(4, 'text_after_end')],
  'key-twice.json': [swap('"units": "cm"', '"units": "in", "units": "cm"'), rescued(4, 'repeated_key')],

  // Letters.
  'byte-order-mark.json': [`\ufeff${good}`, rescued(4)],
  'utf-16.json': [utf16(good), rescued(4)],
  'utf-16-be.json': [utf16be(good), rescued(4)],
  'latin-1.json': [Buffer.from(good, 'latin1'), rescued(4, 'damaged_letters', 'not_a_name')],
  'windows-lines.json': [good.replaceAll('\n', '\r\n'), rescued(4)],
  'decomposed.json': [good.normalize('NFD'), rescued(4)],
  'half-a-pair.json': [swap('Harbour', '\\ud83e Harbour'), rescued(4)],
  'nul-in-name.json': [swap('"gauge"', '"gau\\u0000ge"'), rescued(4, 'not_a_name')],

  // Wrong kinds.
  'no-version.json': [swap('"ellwand": 1, ', ''), rescued(4, 'no_version')],
  'version-text.json': [swap('"ellwand": 1', '"ellwand": "one"'), rescued(4, 'wrong_kind', 'no_version')],
  'version-zero.json': [swap('"ellwand": 1', '"ellwand": 0'), rescued(4, 'wrong_kind', 'no_version')],
  'version-later.json': [swap('"ellwand": 1', '"ellwand": 2, "loom": {"warp": 3}'), { ...rescued(4, 'later_version'), readOnly: true }],
  'version-huge.json': [swap('"ellwand": 1', '"ellwand": 1e300'), rescued(4, 'wrong_kind', 'no_version')],
  'no-id.json': [swap('"id": "nmitten7", ', ''), rescued(4, 'no_id')],
  'no-title.json': [swap('"title": "Harbour mittens",\n', '\n'), rescued(4, 'no_title')],
  'title-number.json': [swap('"Harbour mittens"', '1918'), rescued(4, 'read_as_text')],
  'title-list.json': [swap('"Harbour mittens"', '["Harbour"]'), rescued(4, 'wrong_kind', 'no_title')],
  'units-unknown.json': [swap('"units": "cm"', '"units": "furlong"'), rescued(4, 'wrong_kind', 'no_units')],
  'no-sections.json': ['{"ellwand": 1, "id": "n1", "title": "x", "units": "cm"}', rescued(0, 'no_sections')],
  'sections-text.json': ['{"ellwand": 1, "id": "n1", "title": "x", "units": "cm", "sections": "none"}', rescued(0, 'wrong_kind')],
  'section-text.json': [swap('{"id": "s1"', '"Gauge", {"id": "s1"'), rescued(4, 'wrong_kind')],
  'cells-group.json': [swap(/"cells": \[\n {6}\{"id": "k1".*\n.*\]\}/, '"cells": {"k1": 1}}'), rescued(2, 'wrong_kind')],
  'cell-text.json': [swap('{"id": "k3"', '"26 st", {"id": "k3"'), rescued(4, 'wrong_kind')],
  'cell-null.json': [swap('{"id": "k3"', 'null, {"id": "k3"'), rescued(4, 'wrong_kind')],
  'text-number.json': [swap('"26 st / 10 cm"', '26'), rescued(4, 'read_as_text')],
  'text-list.json': [swap('"26 st / 10 cm"', '["26 st"]'), rescued(4, 'wrong_kind')],
  'text-and-each.json': [swap('"name": "hand"', '"name": "hand", "text": "19 cm"'), rescued(4, 'text_and_each')],
  'says-text.json': [swap('{"yes": "fits", "no": "too small"}', '"fits"'), rescued(4)],
  'says-list.json': [swap('{"yes": "fits", "no": "too small"}', '["fits"]'), rescued(4, 'wrong_kind')],
  'half-a-range.json': [swap('"26 st / 10 cm"', '"26 st / 10 cm", "range": ["20 st / 10 cm"]'), rescued(4, 'half_a_range')],
  'no-such-day.json': [swap('"units": "cm"', '"units": "cm", "today": "2026-02-30"'), rescued(4, 'no_such_day')],
  'rows-negative.json': [swap('"steps"', '"progress": {"rows": {"t1": -3, "t2": 5}}, "steps"'), rescued(4, 'wrong_kind')],
  'binds-list.json': [swap('"steps"', '"drawings": [{"id": "d1", "kind": "mitten", "binds": ["hand"]}], "steps"'), rescued(4, 'wrong_kind')],

  // Ids, names and columns.
  'name-twice.json': [swap('"stitches"', '"gauge"'), rescued(4, 'name_taken')],
  'name-in-capitals.json': [swap('"stitches"', '"GAUGE"'), rescued(4, 'name_taken')],
  'name-spaced.json': [swap('"stitches"', '"cast on"'), rescued(4, 'not_a_name')],
  'name-markup.json': [swap('"stitches"', '"<img src=x onerror=alert(1)>"'), rescued(4, 'not_a_name')],
  'name-number.json': [swap('"stitches"', '"2nd"'), rescued(4, 'not_a_name')],
  'name-missing.json': [swap('"name": "stitches", ', ''), rescued(4, 'no_name')],
  'name-proto.json': [swap('"stitches"', '"__proto__"'), rescued(4, 'not_a_name')],
  'name-constructor.json': [swap('"stitches"', '"constructor"'), rescued(4)],
  'name-endless.json': [swap('"stitches"', `"${'a'.repeat(3000)}"`), rescued(4, 'too_long', 'not_a_name')],
  'id-twice.json': [swap('"id": "k3"', '"id": "k1"'), rescued(4, 'id_made_new')],
  'id-missing.json': [swap('"id": "k3", ', ''), rescued(4, 'no_id')],
  'id-proto.json': [swap('"id": "k3"', '"id": "__proto__"'), rescued(4, 'id_made_new')],
  'id-number.json': [swap('"id": "k3"', '"id": 3'), rescued(4, 'read_as_text')],
  'key-proto.json': [swap('"units": "cm"', '"units": "cm", "__proto__": {"polluted": true}'), rescued(4)],
  'each-proto.json': [swap('"c2": "20,5 cm"', '"__proto__": "20,5 cm"'), rescued(4, 'no_such_column')],
  'each-unknown.json': [swap('"c2": "20,5 cm"', '"c7": "20,5 cm"'), rescued(4, 'no_such_column')],
  'columns-lost.json': [swap(/ {2}"columns".*\n/, ''), rescued(4, 'columns_made')],
  'column-label-twice.json': [swap('"label": "M"', '"label": "s"'), rescued(4, 'label_taken')],
  'column-label-quoted.json': [swap('"label": "M"', '"label": "7\\" hand"'), rescued(4, 'not_a_label')],
  'column-label-endless.json': [swap('"label": "M"', `"label": "${'M'.repeat(60)}"`), rescued(4, 'not_a_label')],
  'chosen-unknown.json': [swap('"units": "cm"', '"units": "cm", "chosen": {"column": "c9"}'), rescued(4, 'no_such_column')],

  // Too much.
  'formula-endless.json': [swap('26 st / 10 cm', '1+'.repeat(5000)), rescued(4, 'formula_too_long')],
  'formula-brackets.json': [swap('26 st / 10 cm', '('.repeat(3000)), rescued(4)],
  'note-endless.json': [swap('"26 st / 10 cm"', `"26 st / 10 cm", "note": "${'wash '.repeat(2000)}"`), rescued(4, 'too_long')],
  'columns-too-many.json': [
    swap('{"id": "c1", "label": "S"}', Array.from({ length: 70 }, (_, i) => `{"id": "x${i}", "label": "${i}"}`).join(', ')),
    rescued(4, 'too_many', 'no_such_column', 'no_such_column'),
  ],
  'remarks-endless.json': [
    swap('{"id": "k3"', `${Array.from({ length: 400 }, () => '7').join(', ')}, {"id": "k3"`),
    rescued(4, ...Array.from({ length: 200 }, () => 'wrong_kind'), 'more_remarks'),
  ],
  'markup-everywhere.json': [
    swap('Harbour mittens', '<script>alert(1)</script>').replace('fits', '<b onclick=x>fits</b>').replace('26 st', '<svg/onload=x>'),
    rescued(4),
  ],
};

mkdirSync(join(here, 'broken'), { recursive: true });
const table = {};
for (const [file, [content, expected]] of Object.entries(ways)) {
  writeFileSync(join(here, 'broken', file), content);
  table[file] = expected;
}
const lines = Object.entries(table).map(([file, expected]) => `  ${JSON.stringify(file)}: ${JSON.stringify(expected)}`);
writeFileSync(join(here, 'broken.json'), `{\n${lines.join(',\n')}\n}\n`);

/*
 * What an open notebook answers about its doubts, working back and trials side by side. It is fetched when something is
 * first asked, since the sheet does not need it. Asking changes nothing.
 */

import { asideView, trialTitle } from './aside.ts';
import type { AskedOf, Questions } from './asked-page.ts';
import { backInTurn, backStart } from './back.ts';
import { type Beside, besideView } from './beside.ts';
import { carriedText } from './carried.ts';
import { columnTitle } from './column-title.ts';
import { decisionsInTurn } from './decisions.ts';
import { doubtView } from './doubt.ts';
import type { Live } from './live.ts';
import { columnFor } from './show.ts';
import type { Trial } from './trial.ts';

/** Answers about a notebook, always as it is at the moment of asking. */
export function answersFor(asked: AskedOf): Questions {
  const { live } = asked;
  const columnIndex = (column: string | null) => {
    const at = column === null ? -1 : live.columns.indexOf(column);
    return at < 0 ? columnFor(live, undefined) : at;
  };
  return {
    doubt: (id, column, reach) =>
      live.sheet.has(id) ? doubtView(live, id, columnIndex(column), reach) : undefined,
    decisions: () => decisionsInTurn(live),
    backStart: (id, column) => (live.sheet.has(id) ? backStart(live, id, columnIndex(column)) : undefined),
    workBack: (id, column, giving, text) => backInTurn(live, id, columnIndex(column), giving, text),
    carried: (name) => carriedText(live, name),
    besideChoices: () => besidesOf(asked).map(({ key, title, changes }) => ({ key, title, changes })),
    beside: (keys) =>
      besideView(
        live,
        besidesOf(asked).filter(({ key }) => keys.includes(key)),
      ),
  };
}

/** Everything that can stand side by side: as it stands, what is tried, what is aside, and every size. */
function besidesOf(asked: AskedOf): readonly Beside[] {
  const { live } = asked;
  const now = asked.trial();
  const heading = live.notebook.columns?.heading ?? 'size';
  const columns = live.notebook.columns?.list ?? [];
  return [
    { key: 'now', title: 'as it stands', changes: '', trial: undefined },
    ...(now ? [{ key: 'trial', ...trialWords(live, now), trial: now }] : []),
    ...asked.aside().map((trial) => {
      const { id, title, changes } = asideView(live, trial);
      return { key: `aside ${id}`, title, changes: changes === title ? '' : changes, trial };
    }),
    ...columns.map(({ id, label }) => ({
      key: `column ${id}`,
      title: columnTitle(heading, label),
      changes: '',
      trial: now,
      column: id,
    })),
  ];
}

function trialWords(live: Live, { name, ...trial }: Trial): Pick<Beside, 'title' | 'changes'> {
  const changes = trialTitle(live, trial);
  return name === undefined ? { title: changes, changes: '' } : { title: name, changes };
}

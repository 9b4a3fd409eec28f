/* Which columns go on paper: asked beside Print, where there are several, in the words of the page. */

import { columnTitle } from '../../session/index.ts';
import type { Desk, MenuItem } from '../desk.ts';

/** Prints; where there are several columns, it is asked first whether one of them or all. */
export function askToPrint(desk: Desk): void {
  const { columns, heading } = desk.notebook.view();
  const one = columns.find(({ chosen }) => chosen);
  if (columns.length < 2) return print();
  const alone = one ? [printing(desk, `print ${columnTitle(heading, one.label)}`, false)] : [];
  const all = printing(desk, `print every ${heading} at once`, true);
  const allFirst = desk.allSizes() || desk.notebook.page.paper().isOnePlan;
  const anchor = button().getBoundingClientRect();
  desk.openMenu({ label: 'what to print', anchor, items: allFirst ? [all, ...alone] : [...alone, all] });
}

/** Print itself; where the head has no room for it, the list it stood in. */
function button(): Element {
  const all = [...document.querySelectorAll('.header .nav-button, .header .action')];
  return all.findLast((one) => one.getClientRects().length > 0) ?? document.body;
}

function printing(desk: Desk, label: string, printsAll: boolean): MenuItem {
  return {
    label,
    choose: () => {
      desk.printsAll = printsAll;
      addEventListener('afterprint', () => delete desk.printsAll, { once: true });
      print();
    },
  };
}

/* Titles of notebooks that would be alike have a number behind them, from 2 on. */

/** A title without the number behind it: "Socks 2" is "Socks". A size or a year that ends one goes, too. */
export const bareTitle = (title: string): string => title.replace(/ \d+$/, '');

/**
 * A title that none of those taken is, of at most so many letters: "Socks", or "Socks 2". Where "Socks" is taken, too, "Socks 2"
 * becomes "Socks 3"; else its number is a size or the like, and stays.
 */
export function freeTitle(title: string, taken: ReadonlySet<string>, most: number): string {
  const bare = bareTitle(title);
  const stem = (taken.has(bare) ? bare : title).slice(0, most - 6);
  let free = title;
  for (let number = 2; free !== '' && taken.has(free); number++) free = `${stem} ${number}`;
  return free;
}

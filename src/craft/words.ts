/* How plans are written: plurals, ordinals and lists, as patterns print them. */

const counted = (one: string, many: string) => (n: number) => `${n} ${n === 1 ? one : many}`;

/** "1 st", "62 sts". */
export const sts = counted('st', 'sts');
/** "1 row", "40 rows". */
export const rows = counted('row', 'rows');
/** "1 rnd", "20 rnds". */
export const rnds = counted('rnd', 'rnds');
/** "1 join", "5 joins". */
export const joinsInWords = counted('join', 'joins');
/** "1 repeat", "69 repeats". */
export const repeatsInWords = counted('repeat', 'repeats');

/** "once", "2 times". */
export function times(n: number): string {
  return n === 1 ? 'once' : `${n} times`;
}

/** "1st", "2nd", "3rd", "11th", "22nd". */
export function ordinal(n: number): string {
  const teen = n % 100 >= 11 && n % 100 <= 13;
  const ending = teen ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
}

/** "every row", "every 2nd rnd". */
export function everyNth(n: number, noun: string): string {
  return n === 1 ? `every ${noun}` : `every ${ordinal(n)} ${noun}`;
}

/** "87", "87 and 259", "59, 176 and 292". */
export function listed(items: readonly string[]): string {
  const last = items.at(-1) ?? '';
  return items.length < 2 ? last : `${items.slice(0, -1).join(', ')} and ${last}`;
}

/** A parameter's name as it is read: "seconds until". */
export function spaced(name: string): string {
  return name.replaceAll('_', ' ');
}

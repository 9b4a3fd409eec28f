/** How long ago something was, as one would say it. */

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'} ago`;

/** "just now", "5 minutes ago", "yesterday", "3 days ago", then the day itself. Both in milliseconds since 1970. */
export function ago(at: number, now: number): string {
  const age = Math.max(0, now - at);
  if (age < MINUTE) return 'just now';
  if (age < HOUR) return counted(Math.floor(age / MINUTE), 'minute');
  const days = dayNumber(now) - dayNumber(at);
  if (days === 0) return counted(Math.floor(age / HOUR), 'hour');
  if (days === 1) return 'yesterday';
  return days < 14 ? counted(days, 'day') : dayWords(at);
}

/** "12 May 2026", with the time where that is asked for: "12 May 2026, 14:03". */
export function dayWords(at: number, withTime = false): string {
  const time = withTime ? ({ hour: '2-digit', minute: '2-digit' } as const) : {};
  return new Date(at).toLocaleString('en-GB', { day: 'numeric', month: 'long', year: 'numeric', ...time });
}

function dayNumber(at: number): number {
  const day = new Date(at);
  return Math.floor(Date.UTC(day.getFullYear(), day.getMonth(), day.getDate()) / DAY);
}

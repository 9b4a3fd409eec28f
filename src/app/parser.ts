/* The parser of formulas comes after the first sheet: here it is fetched, and waited for where a notebook needs it. */

import { fetchReader } from '../formula/index.ts';
import type { Session } from '../session/index.ts';

/** Milliseconds after which it is tried again, where it could not be fetched. */
const AGAIN = 5_000;

/** Fetches the parser, trying until it has come. What waits for it reads itself again then. */
export function fetchParser(): void {
  fetchReader().catch(() => setTimeout(fetchParser, AGAIN));
}

/** The session, once all its formulas are read; at once where the parser cannot be fetched just now. */
export async function wholeOf(session: Session): Promise<Session> {
  if (session.isPartlyRead) await fetchReader().catch(() => undefined);
  return session;
}

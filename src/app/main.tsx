import { render } from 'solid-js/web';
import { fetchSession } from '../session/index.ts';
import { fetchSentences } from '../telling/index.ts';
import { afterFirstPaint } from '../views/index.ts';
import { App } from './app.tsx';
import { beginEarly, isFirstVisit } from './early.ts';
import { pause } from './pause.ts';
import type { Rest } from './rest.ts';

const place = document.getElementById('app');
if (!place) throw new Error('The page has no element with the id "app".');

/** Milliseconds after which it is tried again, where the rest of the app could not be fetched. */
const AGAIN = 5_000;

/** The rest of the app, tried for until it has come. */
async function fetchRest(): Promise<Rest> {
  for (;;) {
    const come = await Promise.all([import('./rest.ts'), fetchSentences(), fetchSession()]).catch(
      () => undefined,
    );
    if (come) return come[0].openRest();
    await pause(AGAIN);
  }
}

/** Shows the app. No file waits here while it is imported: the rest imports what stands in the same file as this. */
async function start(into: HTMLElement): Promise<void> {
  const early = isFirstVisit() ? await beginEarly().catch(() => undefined) : undefined;
  const rest = early ? new Promise<void>(afterFirstPaint).then(fetchRest) : fetchRest();
  if (!early) await rest;
  render(() => <App early={early} rest={rest} />, into);
}

/** A name or a note that is being written is kept as the page goes, as it is when she goes elsewhere on it. */
function leaveField(): void {
  const { activeElement } = document;
  if (activeElement instanceof HTMLInputElement) activeElement.blur();
}

addEventListener('pagehide', leaveField, true);
void start(place);

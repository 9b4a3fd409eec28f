/*
 * The screen stays on while one knits from the steps, where the browser can: from the first tick or row until the
 * panel is out of sight, or nothing was touched for a while. A page that was away and comes back asks again.
 */
import { onCleanup, onMount } from 'solid-js';

/** How long after the last touch the screen is let go, in milliseconds: long enough for a slow row. */
const REST_MS = 30 * 60_000;

interface Lock {
  release(): Promise<void>;
}

/** Keeps the screen on for an element that is in use; `touch` is to be called whenever something is done in it. */
export function createScreenLock(element: () => Element | undefined): { readonly touch: () => void } {
  let lock: Lock | undefined;
  let isInUse = false;
  let isAsking = false;
  let rest: ReturnType<typeof setTimeout> | undefined;

  const letGo = () => {
    clearTimeout(rest);
    isInUse = false;
    void lock?.release().catch(() => undefined);
    lock = undefined;
  };
  const ask = async () => {
    if (!isInUse || isAsking || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    isAsking = true;
    const given = await navigator.wakeLock.request('screen').catch(() => undefined);
    isAsking = false;
    if (isInUse) lock = given;
    else void given?.release().catch(() => undefined);
  };
  const touch = () => {
    clearTimeout(rest);
    rest = setTimeout(letGo, REST_MS);
    if (isInUse) return;
    isInUse = true;
    void ask();
  };
  onMount(() => {
    const watched = element();
    const sight = new IntersectionObserver((entries) => {
      if (entries.at(-1)?.isIntersecting === false) letGo();
    });
    if (watched) sight.observe(watched);
    const back = () => void ask();
    document.addEventListener('visibilitychange', back);
    onCleanup(() => {
      sight.disconnect();
      document.removeEventListener('visibilitychange', back);
      letGo();
    });
  });
  return { touch };
}

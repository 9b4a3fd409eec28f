import { Show } from 'solid-js';
import type { Tone } from '../session/index.ts';

/** The mark of a count that will be knit: one stitch, as it looks on the right side. */
export function StitchMark() {
  return (
    <svg class="stitch" viewBox="0 0 10 10" role="img" aria-label="stitches to knit">
      <path d="M1.5 1.5 5 8.5 8.5 1.5" />
    </svg>
  );
}

/** What the mark means, where a sheet has room to say it. A reader hears it with every count. */
export function StitchKey() {
  return (
    <span class="key" aria-hidden="true">
      <StitchMark />a count you knit
    </span>
  );
}

/** The app's mark: a measuring rod with its notches. Decoration. */
export function RodMark() {
  return (
    <svg class="rod" viewBox="0 0 74 16" aria-hidden="true">
      <path class="rod-edge" d="M.75 1v14h72.5V1" />
      <path class="rod-notches" d="M9.8 1v5M18.9 1v5M27.9 1v5M37 1v8M46.1 1v5M55.1 1v5M64.2 1v5" />
    </svg>
  );
}

/** A tick before a sentence that says yes, a cross before one that says no; the sentence itself says which. */
export function ToneMark(props: { readonly tone: Tone }) {
  return (
    <Show when={props.tone === 'yes' || props.tone === 'no'}>
      <svg class="tone-mark" viewBox="0 0 12 12" aria-hidden="true">
        <path d={props.tone === 'yes' ? 'M1.5 6.5 4.7 10 10.5 2' : 'M2 2l8 8M10 2 2 10'} />
      </svg>
    </Show>
  );
}

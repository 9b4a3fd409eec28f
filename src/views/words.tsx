import { Index } from 'solid-js';

/** A sentence of the session. Its arrows are drawn, as few letterforms have them, and read aloud as "to". */
export function Words(props: { readonly text: string }) {
  return (
    <Index each={props.text.split('→')}>
      {(piece, index) => (
        <>
          {index > 0 && <Arrow />}
          {piece()}
        </>
      )}
    </Index>
  );
}

function Arrow() {
  return (
    <svg class="arrow" viewBox="0 0 16 10" role="img" aria-label="to">
      <path d="M1 5h13M10 1.2 14 5l-4 3.8" />
    </svg>
  );
}

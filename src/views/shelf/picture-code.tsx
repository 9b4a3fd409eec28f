import { createMemo } from 'solid-js';
import { encode } from 'uqr';

/** An address as a picture that another phone's camera reads. Dark on light in every theme, as cameras want it. */
export function PictureCode(props: { readonly address: string }) {
  // The lowest correction keeps the squares large, which matters more from screen to camera.
  const code = createMemo(() => encode(props.address, { ecc: 'L', border: 4 }));
  const path = createMemo(() =>
    code()
      .data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])))
      .join(''),
  );
  return (
    <svg
      class="picture-code"
      viewBox={`0 0 ${code().size} ${code().size}`}
      role="img"
      aria-label="the link as a picture, for the camera of another phone"
      shape-rendering="crispEdges"
    >
      <path class="light" d={`M0 0h${code().size}v${code().size}h-${code().size}z`} />
      <path class="dark" d={path()} />
    </svg>
  );
}

/**
 * Calls `step` with +1 or −1 each time a finger or pen has moved `stepPx` further right or left on an element. A drag
 * begins only once it is clearly sideways, so that the page still scrolls. Gives the function that ends it.
 */
export function makeDrag(element: HTMLElement, stepPx: number, step: (steps: number) => void): () => void {
  let finger: { readonly id: number; readonly y: number; x: number; moved: boolean } | undefined;
  const down = (event: PointerEvent) => {
    if (event.pointerType === 'mouse' || !event.isPrimary) return;
    finger = { id: event.pointerId, x: event.clientX, y: event.clientY, moved: false };
  };
  const move = (event: PointerEvent) => {
    if (!finger || event.pointerId !== finger.id) return;
    const steps = Math.trunc((event.clientX - finger.x) / stepPx);
    if (steps === 0) return;
    if (!finger.moved) element.setPointerCapture(event.pointerId);
    finger.moved = true;
    finger.x += steps * stepPx;
    step(steps);
  };
  const up = (event: PointerEvent) => {
    if (finger?.moved) event.preventDefault();
    finger = undefined;
  };
  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', up);
  return () => {
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', up);
  };
}

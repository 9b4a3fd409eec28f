/** Calls once the first frame has been shown and the page has a moment. */
export function afterFirstPaint(call: () => void): void {
  requestAnimationFrame(() => setTimeout(call, 0));
}

/** A typed value as it is kept: with a decimal point. */
export function stored(text: string): string {
  return /[A-Za-z(]\w*\(/.test(text)
    ? text
    : text
        .replace(/^(\s*[-−]?\s*\d+),(\d{1,2})(?!\d)/u, '$1.$2')
        .replace(/±\s*(\d+),(\d{1,2})(?!\d)/u, '± $1.$2');
}

/** The texts of a size line by column, as they are kept: one for each column, in order. */
export function storedEach(columns: readonly string[], sizes: readonly string[]): Record<string, string> {
  return Object.fromEntries(columns.map((column, i) => [column, stored(sizes[i] ?? '')]));
}

/** A typed value as it is kept: with a decimal point. */
export function stored(text: string): string {
  return /[A-Za-z(]\w*\(/.test(text)
    ? text
    : text
        .replace(/^(\s*[-−]?\s*\d+),(\d{1,2})(?!\d)/u, '$1.$2')
        .replace(/±\s*(\d+),(\d{1,2})(?!\d)/u, '± $1.$2');
}

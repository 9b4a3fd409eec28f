/**
 * The terminal door. Takes the words after the command, writes its answer on standard output, and gives the
 * exit code: 0 when all went well, 2 when it was asked for something it does not know.
 */
export function main(words: readonly string[]): number {
  if (words.length === 0 || words[0] === '--help') {
    process.stdout.write('Ellwand, a notebook for hand knitters.\n');
    return 0;
  }
  process.stderr.write(`"${words[0] ?? ''}" is not something this door knows.\n`);
  return 2;
}

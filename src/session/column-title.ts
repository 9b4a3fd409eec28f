/** "size S": a column by what the columns are and its label; a label that says what they are says it alone: "size 1". */
export function columnTitle(heading: string, label: string): string {
  return label.startsWith(heading) ? label : `${heading} ${label}`;
}

/** A count with its word: `1 board`, `2 boards`; a plural other than with s is stated. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Some of many names, so that none fill the screen: `a, b and 7 more`. */
export function firstFew(names: readonly (string | number)[], most: number): string {
  const more = names.length > most ? ` and ${names.length - most} more` : '';
  return `${names.slice(0, most).join(', ')}${more}`;
}

/** A count with its word: `1 board`, `2 boards`; a plural other than with s is stated. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

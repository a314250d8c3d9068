/** Asks whether another unit was meant by a number that was written without one, such as `"7 in"`. */
export function ifMeant(what: string): string {
  return `A plain number is in millimetres: if ${what} was meant, write that.`;
}

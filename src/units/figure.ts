/** A number for workings: enough figures that the cents come out the same when they are worked out again. */
export function figure(value: number): string {
  return String(Number(value.toPrecision(9)));
}

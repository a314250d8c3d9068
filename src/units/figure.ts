/**
 * A number, whatever its unit, with so many significant figures, without needless zeros: `5.522`, `12`.
 *
 * @param digits nine by default, for workings: enough that the cents come out the same when they are worked out again
 */
export function figure(value: number, digits = 9): string {
  return String(Number(value.toPrecision(digits)));
}

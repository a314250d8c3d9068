/** The part of polylabel 2.1.0 that fretlay calls; the package ships no types. */
declare module 'polylabel' {
  /** Pole of inaccessibility of [outline, ...holes]; `distance` is the radius of the largest circle found. */
  export default function polylabel(
    polygon: ReadonlyArray<ReadonlyArray<readonly [number, number]>>,
    precision?: number,
  ): [number, number] & { distance: number };
}

/**
 * Sine and cosine that are the same to the last bit wherever fretlay runs. Those of the language are as exact, but their
 * last bit is left to each browser and each version of Node; a search in which copies turn comes to another layout from
 * another last bit. Here is nothing but the four operations, which the standard of floating-point numbers (IEEE 754)
 * settles.
 */

/** Power of x up to which the series are summed: half a right angle asks for no more digits. */
const LAST_POWER = 17;

/** Cosine and sine of an angle in degrees; those of quarter turns are 0, 1 and -1. */
export function cosineAndSine(degrees: number): readonly [cosine: number, sine: number] {
  const within = degrees % 360;
  const quarters = Math.round(within / 90);
  const x = ((within - 90 * quarters) * Math.PI) / 180;
  const cosine = series(x * x, LAST_POWER - 2);
  const sine = x * series(x * x, LAST_POWER - 1);
  switch ((quarters + 4) % 4) {
    case 0:
      return [cosine, sine];
    case 1:
      return [0 - sine, cosine];
    case 2:
      return [-cosine, 0 - sine];
    default:
      return [sine, -cosine];
  }
}

/** 1 - x^2 / 1 2 (1 - x^2 / 3 4 (...)) for the cosine, with 2 3, 4 5, ... for the sine: Taylor's series from its last term. */
function series(square: number, last: number): number {
  let sum = 1;
  for (let n = last; n > 0; n -= 2) sum = 1 - (square / (n * (n + 1))) * sum;
  return sum;
}

import { nearestName } from '../issues/nearest-name.ts';
import { speciesKey } from '../model/same-wood.ts';
import { woodFacts } from '../sawing/wood-facts.ts';

/** Share of the letters of a species that may be mistyped: `beech` and `birch`, two woods, differ in two fifths. */
const MISTYPED = 0.25;

/** The wood that a misspelt one, or one by another name, was meant to be; undefined where it may be a wood of its own. */
export function woodMeant(species: string, woods: readonly string[]): string | undefined {
  const name = speciesKey(species);
  // Woods of the table are real ones, but some have several names: `walnut` and `black walnut` are one.
  const facts = woodFacts(species);
  if (facts !== undefined) return woods.find((wood) => woodFacts(wood) === facts);
  // `oak 1` beside `oak 2` is told apart on purpose.
  const like = woods.filter((wood) => {
    const known = speciesKey(wood);
    // The first letter is seldom mistyped: `koa` is not `oak`.
    return known[0] === name[0] && numbersIn(known) === numbersIn(name);
  });
  return nearestName(name, like, MISTYPED);
}

function numbersIn(name: string): string {
  return name.replace(/\D+/g, ' ').trim();
}

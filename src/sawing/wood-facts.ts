import { words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';

/**
 * Facts about species, at 12 % moisture where it matters. Every row says where each of its figures is from:
 *
 * [WH] USDA Forest Products Laboratory, Wood Handbook, General Technical Report FPL-GTR-190 (2010), the table read
 * there: shrinkage from green to ovendry in Tables 4-3 and 4-4, gravity in Table 5-3a, coefficients of dimensional
 * change in Table 13-5. [A] Alden, "Hardwoods of North America", FPL-GTR-83 (1995) of the same laboratory, the page
 * read (hardness there in newtons). [W] Wengert in FDMC, gravities quoted from the handbook (edition of Agriculture
 * Handbook 72). [T] a page that tabulates the handbook's values by species (engdatabase.com). [Q] Table 4-5b of the
 * edition of 1999 (FPL-GTR-113) as a reader quotes it (SEAINT list, Oct 2004). [F] a technical sheet of the same
 * laboratory on the species. [C] Table 13-5 as a public table of coefficients quotes it, which agrees with the rows read
 * there. [S] two or more pages of the trade that agree, the handbook's own table not read. [m] from memory of the
 * handbook, not looked up.
 *
 * A plain `ash`, `beech`, `sycamore` or `willow` is the American one, as `walnut` and `cherry` are. In England a sycamore is
 * a maple [F].
 *
 * Specific gravity is ovendry mass over volume at 12 % ("basic": over green volume, which makes the weight come out
 * some percent low); hardness is the Janka ball test on the side, in pounds force.
 */
export interface WoodFacts {
  readonly name: string;
  readonly alsoCalled: readonly string[];
  /** Ovendry mass over volume at 12 % moisture. */
  readonly specificGravity: number;
  /** Janka side hardness, lbf. */
  readonly hardness: number;
  /** Shrinkage green to ovendry across the grain, percent: radial, tangential. */
  readonly shrinkage: readonly [radial: number, tangential: number] | undefined;
  /** Change of size across the grain per 1 % of moisture, 6 to 14 %: radial, tangential. */
  readonly changePerPercent: readonly [radial: number, tangential: number] | undefined;
  /** Where the row is from, gravity / hardness / shrinkage / change. */
  readonly source: string;
}

type Row = readonly [
  name: string,
  alsoCalled: readonly string[],
  specificGravity: number,
  hardness: number,
  shrinkage: readonly [number, number] | undefined,
  changePerPercent: readonly [number, number] | undefined,
  source: string,
];

const ROWS: readonly Row[] = [
  [
    'sugar maple',
    ['hard maple', 'maple'],
    0.63,
    1450,
    [4.8, 9.9],
    [0.00165, 0.00353],
    'W, T / S, T (6,400 N) / T / WH 13-5',
  ],
  ['red oak', ['northern red oak'], 0.63, 1290, [4.0, 8.6], [0.00158, 0.00369], 'W / S / S / WH 13-5'],
  ['white oak', [], 0.68, 1360, [5.6, 10.5], [0.0018, 0.00365], 'W / S / WH 4-3 / WH 13-5'],
  ['black walnut', ['walnut'], 0.55, 1010, [5.5, 7.8], [0.0019, 0.00274], 'A / A / WH 4-3 / WH 13-5'],
  ['black cherry', ['cherry'], 0.5, 950, [3.7, 7.1], [0.00126, 0.00248], 'S / S / WH 4-3 / WH 13-5'],
  ['basswood', ['american basswood'], 0.37, 410, [6.6, 9.3], [0.0023, 0.0033], 'S / S / WH 4-3 / WH 13-5'],
  [
    'white ash',
    ['ash', 'american ash'],
    0.6,
    1320,
    [4.9, 7.8],
    [0.00169, 0.00274],
    'W / S / WH 4-3 / WH 13-5',
  ],
  ['american beech', ['beech'], 0.64, 1300, [5.5, 11.9], [0.0019, 0.00431], 'W / S / WH 4-3 / WH 13-5'],
  [
    'american sycamore',
    ['sycamore', 'american plane'],
    0.49,
    770,
    [5.0, 8.4],
    [0.00172, 0.00296],
    'F / S / WH 4-3 / WH 13-5',
  ],
  [
    'black willow',
    ['willow', 'american willow'],
    0.39,
    430,
    [3.3, 8.7],
    [0.00112, 0.00308],
    'F / one page of the trade, in doubt (the laboratory gives none) / WH 4-3, F / WH 13-5, C (tangential)',
  ],
  ['yellow poplar', ['poplar'], 0.42, 540, [4.6, 8.2], [0.00158, 0.00289], 'S / S / WH 4-3 / m'],
  ['sapele', [], 0.62, 1510, [4.6, 7.4], undefined, 'S / S / m (pages read give 4.8/7.2 and 5/7) / none'],
  ['true mahogany', ['mahogany'], 0.45, 800, [3.0, 4.1], [0.00172, 0.00238], 'Q (basic) / Q / WH 4-4 / m'],
  ['african mahogany', ['khaya'], 0.42, 830, [2.5, 4.5], [0.00141, 0.00201], 'Q (basic) / Q / WH 4-4 / m'],
  [
    'eastern white pine',
    ['white pine'],
    0.35,
    380,
    [2.1, 6.1],
    [0.00071, 0.00212],
    'm / S / S (another page: 2.3, 6.0) / m',
  ],
  ['ponderosa pine', [], 0.4, 460, undefined, undefined, 'WH 5-3a / S / none / none'],
];

/** The table, one entry for each species. */
export const WOODS: readonly WoodFacts[] = ROWS.map(
  ([name, alsoCalled, specificGravity, hardness, shrinkage, changePerPercent, source]) => ({
    name,
    alsoCalled,
    specificGravity,
    hardness,
    shrinkage,
    changePerPercent,
    source,
  }),
);

const BY_NAME = new Map(
  WOODS.flatMap((wood) => [wood.name, ...wood.alsoCalled].map((name) => [name, wood] as const)),
);

/** Hardness taken for a species that is not in the table, lbf: about that of black walnut. */
export const MIDDLING_HARDNESS = 1000;

/**
 * The facts of a species by any of its names; undefined when the table does not have it.
 *
 * @throws FretlayError for a name that is no text
 */
export function woodFacts(species: string): WoodFacts | undefined {
  throwOnErrors(words('Name the wood, as "black walnut".')('species', species));
  return BY_NAME.get(
    species
      .toLowerCase()
      .replace(/[^a-z]+/g, ' ')
      .trim(),
  );
}

/** Janka hardness of a species, in the unit of its table, pounds-force; a middling one when it is not in the table. */
export function hardnessOf(species: string): number {
  return woodFacts(species)?.hardness ?? MIDDLING_HARDNESS;
}

/** Moisture of the wood that is weighed, percent of its ovendry mass: that of the specific gravities above. */
const MOISTURE = 12;

/**
 * Density in kg/m3 of wood with its moisture: 1000 G (1 + M / 100), with the specific gravity G on the volume at
 * that moisture (Wood Handbook, chapter 4).
 */
export function density(specificGravity: number): number {
  return 1000 * specificGravity * (1 + MOISTURE / 100);
}

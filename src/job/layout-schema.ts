import { z } from 'zod';
import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import { LENGTH } from '../issues/number-issue.ts';
import { MOST_COPIES } from '../model/limits.ts';

/**
 * The layout file, version 1, as a schema: the same shape as model/layout.ts, checked on reading. Strict throughout: a
 * misspelt field that may be left out (`restEgde`) would pass for one that is not there.
 */

/** Any number of which whole ones are told apart. */
const finite = z.number().min(-Number.MAX_SAFE_INTEGER).max(Number.MAX_SAFE_INTEGER);
const place = z.number().min(-FARTHEST_MM).max(FARTHEST_MM);
const point = z.tuple([place, place]);
const ring = z.array(point).min(3);
const region = z.strictObject({ outline: ring, openings: z.array(ring) });
const count = z.number().int().min(0).max(MOST_COPIES);
/** How many of all boards together. */
const sum = z.number().int().min(0);
const length = z.number().min(0).max(LENGTH.most);
const line = z.array(point).min(2);

const totals = z.strictObject({
  boards: sum,
  parts: sum,
  partArea: finite,
  boardArea: finite,
  yield: finite,
  boardFeet: finite,
  cutLength: finite,
  openings: sum,
});

const placement = z.strictObject({
  part: z.string(),
  layer: z.string(),
  set: count,
  x: place,
  y: place,
  rotation: finite,
  turnedOver: z.boolean(),
  region,
  veins: z.array(line),
});

const box = z.strictObject({ minX: place, minY: place, maxX: place, maxY: place });

const areas = z.strictObject({
  board: finite,
  trims: finite,
  defects: finite,
  parts: finite,
  openings: finite,
  kerf: finite,
  keepers: finite,
  scrap: finite,
});

const offcut = z.strictObject({
  id: z.string(),
  region,
  rectangle: box,
  area: finite,
  lines: z.array(line),
});

const board = z.strictObject({
  id: z.string(),
  stock: z.string(),
  species: z.string(),
  thickness: length,
  copies: count.min(1),
  outline: ring.optional(),
  trimmed: z
    .strictObject({ topEdge: length, straightEdge: length, leftEnd: length, rightEnd: length })
    .optional(),
  usable: region,
  straightTopEdge: z.boolean().optional(),
  placements: z.array(placement),
  pieces: z.array(z.string()).min(1).optional(),
  planeTo: length.optional(),
  slices: count.min(1).optional(),
  strips: count.min(1).optional(),
  lengths: count.min(1).optional(),
  sections: z.array(z.strictObject({ number: count, from: place, to: place })).optional(),
  offcuts: z.array(offcut).optional(),
  areas: areas.optional(),
});

/** Checks a layout file. */
export const layoutSchema = z.strictObject({
  format: z.literal('fretlay-layout'),
  version: z.literal(1),
  unit: z.literal('mm'),
  kerf: length,
  clearance: length,
  edgeMargin: length,
  sets: count,
  setsTogether: z.boolean().optional(),
  setContents: z.array(
    z.strictObject({
      part: z.string(),
      layer: z.string(),
      copiesPerSet: count.min(1),
      grain: z.enum(['along', 'across', 'free']),
      grainTolerance: length,
      turnOver: z.boolean(),
      restEdge: z.boolean().optional(),
      region: region.optional(),
    }),
  ),
  boards: z.array(board),
  unplaced: z.array(z.strictObject({ part: z.string(), layer: z.string(), set: count, why: z.string() })),
  figures: totals.extend({ completeSets: count, bySpecies: z.record(z.string(), totals) }),
});

import { z } from 'zod';

/** The layout file, version 1, as a schema: the same shape as model/layout.ts, checked on reading. */

const finite = z.number();
const point = z.tuple([finite, finite]);
const ring = z.array(point).min(3);
const region = z.object({ outline: ring, openings: z.array(ring) });
const count = z.number().int().min(0);
const length = z.number().min(0);
const line = z.array(point).min(2);

const totals = z.object({
  boards: count,
  parts: count,
  partArea: finite,
  boardArea: finite,
  yield: finite,
  boardFeet: finite,
  cutLength: finite,
  openings: count,
});

const placement = z.object({
  part: z.string(),
  layer: z.string(),
  set: count,
  x: finite,
  y: finite,
  rotation: finite,
  turnedOver: z.boolean(),
  region,
  veins: z.array(line),
});

const box = z.object({ minX: finite, minY: finite, maxX: finite, maxY: finite });

const areas = z.object({
  board: finite,
  trims: finite,
  defects: finite,
  parts: finite,
  openings: finite,
  kerf: finite,
  keepers: finite,
  scrap: finite,
});

const offcut = z.object({
  id: z.string(),
  region,
  rectangle: box,
  area: finite,
  lines: z.array(line),
});

const board = z.object({
  id: z.string(),
  stock: z.string(),
  species: z.string(),
  thickness: length,
  copies: z.number().int().min(1),
  outline: ring.optional(),
  usable: region,
  placements: z.array(placement),
  pieces: z.array(z.string()).min(1).optional(),
  planeTo: finite.optional(),
  slices: z.number().int().min(1).optional(),
  strips: z.number().int().min(1).optional(),
  sections: z.array(z.object({ number: count, from: finite, to: finite })).optional(),
  offcuts: z.array(offcut).optional(),
  areas: areas.optional(),
});

/** Checks a layout file. */
export const layoutSchema = z.object({
  format: z.literal('fretlay-layout'),
  version: z.literal(1),
  unit: z.literal('mm'),
  kerf: length,
  clearance: length,
  edgeMargin: length,
  sets: count,
  setsTogether: z.boolean().optional(),
  setContents: z.array(
    z.object({
      part: z.string(),
      layer: z.string(),
      copiesPerSet: z.number().int().min(1),
      grain: z.enum(['along', 'across', 'free']),
      grainTolerance: length,
      turnOver: z.boolean(),
      restEdge: z.boolean().optional(),
      region: region.optional(),
    }),
  ),
  boards: z.array(board),
  unplaced: z.array(z.object({ part: z.string(), layer: z.string(), set: count, why: z.string() })),
  figures: totals.extend({ completeSets: count, bySpecies: z.record(z.string(), totals) }),
});

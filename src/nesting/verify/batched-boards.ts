import { rings } from '../../geometry/point-checks.ts';
import { boundsOf, grownBox, type Point, type Region } from '../../geometry/shapes.ts';
import type { Batch } from '../../model/batch.ts';
import { boardNumbers } from '../../model/boards-to-take.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { slicesIn } from '../../model/resawing.ts';
import { isSamePart } from '../../model/same-part.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { hasStraightTop } from '../../stock/sound-edges.ts';
import { TRIMMED } from '../../stock/trim.ts';
import { TRIMMED_SIDES } from '../../stock/trimmed-sides.ts';
import type { Tell } from './as-batched.ts';
import { around, placeOutside, placeOver } from './lines.ts';
import { told } from './places.ts';
import { referenceRegion } from './reference-geometry.ts';
import { sameRegion } from './shape.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** Whether the boards of a layout are those of the batch, and carry what is asked of their wood. */

/** Checks that no more boards are taken of an entry than it has: those of a stack need not have names of their own. */
export function checkQuantities({ boards }: Layout, batch: Batch, tell: Tell): void {
  for (const { id, quantity } of batch.boards) {
    const own = boards.filter(({ stock }) => stock === id);
    // Of a board or blank that is resawn each slice is a share.
    const taken = own.reduce((sum, { copies, slices = 1 }) => sum + copies / slices, 0);
    tell(taken <= quantity + SHARES, { board: id }, `at most ${quantity} of the entry`, taken);
  }
}

/** How much shares of boards, such as three thirds, may come to more than the whole. */
const SHARES = 1e-9;

/** Checks a board by its entry, and by the parts that lie on it. */
export function checkBatchedBoard(board: LaidBoard, batch: Batch, tell: Tell): void {
  const entry = batch.boards.find(({ id }) => id === board.stock);
  tell(entry !== undefined, { field: 'stock' }, 'a board of the batch', `"${board.stock}"`);
  if (entry !== undefined) checkEntry(board, entry, tell);
  checkWood(board, batch, tell);
}

/** A board is of the wood of its entry, one of so many, and only what is sound may be used of it. */
function checkEntry(board: LaidBoard, entry: Board, tell: Tell): void {
  tell(sameSpecies(board.species, entry.species), { field: 'species' }, entry.species, board.species);
  const [thick, stated] = [entry, board].map(({ thickness }) => `${told(thickness)} mm`);
  tell(board.thickness === entry.thickness, { field: 'thickness' }, thick, stated);
  for (const field of ['strips', 'lengths'] as const) {
    const [asked, cut] = [entry[field] ?? 1, board[field] ?? 1];
    tell(cut === asked, { field }, asked, cut);
  }
  checkThinning(board, entry, tell);
  checkOutline(board, entry, tell);
  checkTrimmed(board, entry, tell);
  // A rip along the top edge is not told by the layout alone.
  const isTopAsEntered = board.straightTopEdge !== true || hasStraightTop(entry, board.usable);
  tell(isTopAsEntered, { field: 'straightTopEdge' }, 'false', 'true');
  const last = Math.max(...boardNumbers(board));
  const boards = Math.ceil(entry.quantity / blanksPerBoard(entry));
  tell(last <= boards, { field: 'id' }, `a number of at most ${boards}`, last);
  const tellUnsound = (field: string, region: Region) => {
    // What is no ring is told where it is measured.
    const at = rings(field, region).length > 0 ? undefined : unsoundPlace(region, entry);
    tell(at === undefined, { field, at }, 'the entry without its trims and defects', 'more');
  };
  tellUnsound('usable', board.usable);
  // Of a keeper that a crack parts from what may be used, the layout by itself does not tell the crack.
  board.offcuts?.forEach(({ region }, i) => {
    tellUnsound(`offcuts[${i}].region`, region);
  });
}

/** Sheets are taken as they are, and of a board no more slices than the saw and cleaning them leave. */
function checkThinning({ thickness, planeTo, slices = 1 }: LaidBoard, { sheet }: Board, tell: Tell): void {
  if (planeTo === undefined) return;
  tell(sheet !== true, { field: 'planeTo' }, 'none, for sheets are taken as they are', `${told(planeTo)} mm`);
  const most = Math.max(1, slicesIn(thickness, planeTo - DISTANCE_TOLERANCE));
  tell(slices <= most, { field: 'slices' }, `at most ${most}`, slices);
}

/**
 * A board is as long and as wide as its entry: from its outline it follows where its straight edge is, what is trimmed off it, and
 * how much wood it takes.
 */
function checkOutline({ outline, usable }: LaidBoard, entry: Board, tell: Tell): void {
  const [stated, asked] = [outline ?? usable.outline, entry.outline].map((ring) => ({
    outline: ring,
    openings: [],
  }));
  // What is no ring is told where it is measured.
  if (rings('outline', stated).length > 0) return;
  // Most are those of the entry to the last point, which a waney edge of thousands has no need to be measured for.
  if (sameRegion(stated, asked)) return;
  const at = placeBeyond(stated, asked) ?? placeBeyond(asked, stated);
  tell(at === undefined, { field: 'outline', at }, 'the outline of the entry', 'another');
}

/** A point in mm where the outline of a region runs beyond another region; undefined when it does nowhere. */
function placeBeyond({ outline }: Region, region: Region): Point | undefined {
  return placeOutside(around(outline), region, referenceRegion(region), DISTANCE_TOLERANCE);
}

/** What the entry says to trim off is told so: what else is beyond what may be used, as behind a crack, the saw leaves on. */
function checkTrimmed({ trimmed }: LaidBoard, { trim }: Board, tell: Tell): void {
  for (const side of TRIMMED_SIDES) {
    const [asked, stated] = [trim?.[side] ?? 0, trimmed?.[side] ?? 0];
    // How much makes an edge straight, the entry does not say.
    if (asked === 'clean') continue;
    const isAsAsked = Math.abs(stated - asked) <= TRIMMED + DISTANCE_TOLERANCE;
    tell(isAsAsked, { field: `trimmed.${side}` }, `${told(asked)} mm`, `${told(stated)} mm`);
  }
}

/** A point in mm where wood that is told as sound is beyond its entry, in what is trimmed off or in a defect. */
function unsoundPlace(sound: Region, { outline, defects, trim }: Board): Point | undefined {
  const solid = referenceRegion(sound);
  const edge = around(sound.outline);
  const { minX, minY, maxX, maxY } = grownBox(boundsOf(outline), DISTANCE_TOLERANCE);
  const { topEdge = 0, straightEdge = 0, leftEnd = 0, rightEnd = 0 } = trim ?? {};
  // How much makes an edge straight, the entry does not say.
  const lowest = maxY - (straightEdge === 'clean' ? 0 : straightEdge);
  return (
    placeBeyond(sound, { outline, openings: [] }) ??
    edge.find(
      ([x, y]) => !(x >= minX + leftEnd && x <= maxX - rightEnd && y >= minY + topEdge && y <= lowest),
    ) ??
    defects
      .map((defect) => placeOver(defect, sound, solid, DISTANCE_TOLERANCE))
      .find((place) => place !== undefined)
  );
}

/** What lies on a board is of its wood, as thick, and is sawn in stacks as high. */
function checkWood(
  { species, thickness, planeTo = thickness, copies, placements }: LaidBoard,
  { demands, thicknessTolerance }: Batch,
  tell: Tell,
): void {
  const lying = demands.filter((demand) => placements.some((placement) => isSamePart(placement, demand)));
  for (const { layer, part, stack = 1, ...asked } of lying) {
    const where = { layer, part };
    tell(sameSpecies(species, asked.species), where, asked.species, species);
    const isAsThick = Math.abs(planeTo - asked.thickness) <= thicknessTolerance + DISTANCE_TOLERANCE;
    tell(isAsThick, where, `${told(asked.thickness)} mm thick`, `${told(planeTo)} mm`);
    tell(copies <= stack, where, `a stack of at most ${stack}`, copies);
  }
}

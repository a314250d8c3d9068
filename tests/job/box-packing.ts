/// <reference path="./maxrects-packer.d.ts" />
import { MaxRectsPacker } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { boundsOf } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import { sameSpecies } from '../../src/model/same-wood.ts';

/**
 * The yield that packing boxes gives on the same boards, with a general-purpose rectangle packer (the
 * maximal rectangles method, Jylanki 2010). The comparison is generous: of all orders in which the boards can be
 * taken, the one that uses the least board area counts.
 */
export function boxPackingYield(
  batch: Batch,
  species: string,
  partArea: number,
  boxes: (demands: readonly Demand[], batch: Batch) => Size[],
): number {
  const demands = batch.demands.filter((demand) => sameSpecies(demand.species, species));
  const boards = batch.boards
    .filter((board) => sameSpecies(board.species, species))
    .flatMap((board) => Array.from({ length: board.quantity }, () => sizeOf(boundsOf(board.outline))));
  let least = Number.POSITIVE_INFINITY;
  const sizes = boxes(demands, batch);
  for (const order of ordersOf(boards)) least = Math.min(least, areaUsed(order, sizes, batch));
  return partArea / least;
}

/** A box to pack, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The bounding box of every copy. */
export function boundingBoxes(demands: readonly Demand[], batch: Batch): Size[] {
  return demands.flatMap(({ region, copiesPerSet }) =>
    Array.from({ length: copiesPerSet * batch.sets }, () => sizeOf(boundsOf(region.outline))),
  );
}

function sizeOf({ minX, minY, maxX, maxY }: ReturnType<typeof boundsOf>): Size {
  return { width: maxX - minX, height: maxY - minY };
}

/** Board area used when boxes go on the boards in this order; infinite when they do not all fit. */
function areaUsed(
  boards: readonly Size[],
  boxes: readonly Size[],
  { kerf, clearance, edgeMargin }: Batch,
): number {
  const gap = kerf + clearance;
  let left = [...boxes].sort((a, b) => b.width * b.height - a.width * a.height);
  let area = 0;
  for (const board of boards) {
    if (left.length === 0) break;
    // A box with its gap to the right and below fits a bin that is one gap larger than the room inside the margin.
    const width = board.width - 2 * edgeMargin + gap;
    const height = board.height - 2 * edgeMargin + gap;
    const fits = (box: Size) => box.width + gap <= width && box.height + gap <= height;
    const packer = new MaxRectsPacker(width, height, 0, {
      smart: false,
      pot: false,
      square: false,
      allowRotation: false,
    });
    packer.addArray(
      left.filter(fits).map((box) => ({ x: 0, y: 0, width: box.width + gap, height: box.height + gap })),
    );
    const [first, ...rest] = packer.bins;
    if (first === undefined) continue;
    area += board.width * board.height;
    const unpacked = rest.flatMap((bin) =>
      bin.rects.map((r) => ({ width: r.width - gap, height: r.height - gap })),
    );
    left = [...left.filter((box) => !fits(box)), ...unpacked];
  }
  return left.length === 0 ? area : Number.POSITIVE_INFINITY;
}

function* ordersOf<T>(items: readonly T[]): Generator<T[]> {
  if (items.length <= 1) {
    yield [...items];
    return;
  }
  for (let i = 0; i < items.length; i++) {
    for (const rest of ordersOf([...items.slice(0, i), ...items.slice(i + 1)])) yield [items[i], ...rest];
  }
}

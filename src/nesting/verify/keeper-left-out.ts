import {
  type Box,
  boundsOf,
  boxRing,
  grownBox,
  type Line,
  type Point,
  type Region,
  type Ring,
} from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Batch, KeepRule } from '../../model/batch.ts';
import type { LaidBoard, TrimmedSides } from '../../model/layout.ts';
import type { Board } from '../../model/stock.ts';
import { USUAL_CROSSCUT_KERF, USUAL_KEEP } from '../../stock/keep-rule.ts';
import { around } from './lines.ts';
import { breach, told } from './places.ts';
import { referenceRegion } from './reference-geometry.ts';

/**
 * Whether wood that is worth keeping is told as scrap. A board is looked at in small squares: those that no part, keeper, knot,
 * cut or edge of the trimmed board touches are left over, and no rectangle of them may be as large as what is kept. What falls
 * out of openings is no wood that is left over.
 */

/** Side of a square at least, mm. */
const SQUARE = 2;

/** Wood beside parts that is narrower than this breaks off, mm: no keeper is made of it, whatever the maker keeps. */
const SLENDER = 10;

/** Squares along a board at most, so that one of any size fits into memory. */
const MOST_SQUARES = 5000;

/** Checks that no wood of a board is worth keeping and in no keeper, where what is left of the board is told. */
export function checkKept(
  board: LaidBoard,
  { boards, keep = USUAL_KEEP, kerf, crosscutKerf }: Batch,
  breaches: Issue[],
): void {
  if (board.offcuts === undefined && board.areas === undefined) return;
  const entry = boards.find(({ id }) => id === board.stock);
  // A board that is of no entry is told elsewhere.
  if (entry === undefined) return;
  const at = keeperLeftOut(board, entry, keep, Math.max(kerf, crosscutKerf ?? USUAL_CROSSCUT_KERF));
  if (at === undefined) return;
  const expected = `no room for a keeper of ${told(keep.length)} x ${told(keep.width)} mm beside the others`;
  breaches.push(
    breach(
      'keeper-left-out',
      'wood that is worth keeping is told as scrap',
      { board: board.id, at },
      { expected },
    ),
  );
}

/**
 * A corner in mm of wood that is worth keeping and in no keeper; undefined where there is none.
 *
 * @param beside width that the blade or the saw may take beside what is marked, mm
 */
function keeperLeftOut(board: LaidBoard, entry: Board, keep: KeepRule, beside: number): Point | undefined {
  // Not what may be used: a crack parts sound wood from that.
  const trimmed = trimmedRing(entry, board.trimmed);
  if (trimmed.length === 0) return undefined;
  const { placements, offcuts = [], sections = [] } = board;
  const box = boundsOf(trimmed);
  const squares = new Squares(box);
  // What is marked is so to within a square.
  const lost = 2 * (beside + squares.side);
  const [long, wide] = [keep.length, keep.width].map((side) =>
    Math.ceil((Math.max(SLENDER, side) + lost) / squares.side),
  );
  squares.fill({ outline: boxRing(grownBox(box, squares.side)), openings: [trimmed] });
  for (const outline of entry.defects) squares.fill({ outline, openings: [] });
  for (const { region } of placements) squares.fill({ ...region, openings: [] });
  for (const { region } of offcuts) squares.fill(region);
  for (const line of offcuts.flatMap(({ lines }) => lines)) squares.trace(line);
  for (const x of sections.flatMap(({ from, to }) => [from, to]))
    squares.trace([
      [x, box.minY],
      [x, box.maxY],
    ]);
  return squares.firstFree(long, wide);
}

/** The outline of a board after its trim, of which the largest piece counts; empty when nothing is left. */
function trimmedRing({ outline, trim }: Board, trimmed: TrimmedSides | undefined): Ring {
  if (trim === undefined) return outline;
  const box = boundsOf(outline);
  const ends = {
    minX: box.minX + trim.leftEnd,
    maxX: box.maxX - trim.rightEnd,
    minY: box.minY + trim.topEdge,
    maxY: box.maxY,
  };
  // How much makes an edge straight, the entry does not say.
  const straightEdge = trim.straightEdge === 'clean' ? (trimmed?.straightEdge ?? 0) : trim.straightEdge;
  const left = referenceRegion({ outline, openings: [] }).largestWithin(ends);
  if (left.length === 0 || straightEdge === 0) return left;
  const ripped = { ...ends, maxY: box.maxY - straightEdge };
  return referenceRegion({ outline: left, openings: [] }).largestWithin(ripped);
}

/** The squares of a box, and which of them are taken. */
class Squares {
  /** mm */
  readonly side: number;
  readonly #from: Point;
  readonly #columns: number;
  readonly #taken: readonly Uint8Array[];

  constructor({ minX, minY, maxX, maxY }: Box) {
    this.side = Math.max(SQUARE, (maxX - minX) / MOST_SQUARES, (maxY - minY) / MOST_SQUARES);
    this.#from = [minX, minY];
    this.#columns = Math.ceil((maxX - minX) / this.side);
    const rows = Math.ceil((maxY - minY) / this.side);
    this.#taken = Array.from({ length: rows }, () => new Uint8Array(this.#columns));
  }

  /** Takes the squares along a line. */
  trace(line: Line): void {
    const [minX, minY] = this.#from;
    for (let i = 1; i < line.length; i++) {
      const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
      const steps = Math.ceil((2 * Math.hypot(bx - ax, by - ay)) / this.side) || 1;
      for (let k = 0; k <= steps; k++) {
        const row = this.#taken[Math.floor((ay + ((by - ay) * k) / steps - minY) / this.side)];
        // Off the row, nothing is there to be taken.
        if (row !== undefined) row[Math.floor((ax + ((bx - ax) * k) / steps - minX) / this.side)] = 1;
      }
    }
  }

  /** Takes the squares in a region and along its edges. */
  fill({ outline, openings }: Region): void {
    const [minX, minY] = this.#from;
    const crossings: number[][] = this.#taken.map(() => []);
    const rowOf = (y: number) => Math.ceil((y - minY) / this.side - 0.5);
    for (const ring of [outline, ...openings]) {
      const line = around(ring);
      this.trace(line);
      for (let i = 1; i < line.length; i++) {
        const [[ax, ay], [bx, by]] =
          line[i - 1][1] < line[i][1] ? [line[i - 1], line[i]] : [line[i], line[i - 1]];
        for (let row = Math.max(0, rowOf(ay)); row < Math.min(crossings.length, rowOf(by)); row++)
          crossings[row].push(ax + ((bx - ax) * (minY + (row + 0.5) * this.side - ay)) / (by - ay));
      }
    }
    crossings.forEach((all, row) => {
      all.sort((a, b) => a - b);
      for (let i = 1; i < all.length; i += 2) {
        const [from, to] = [all[i - 1], all[i]].map((x) => Math.max(0, Math.floor((x - minX) / this.side)));
        this.#taken[row].fill(1, from, to);
      }
    });
  }

  /** The corner in mm of the first rectangle of so many free squares; undefined when there is none. */
  firstFree(long: number, wide: number): Point | undefined {
    const free = new Uint32Array(this.#columns);
    for (const [row, taken] of this.#taken.entries()) {
      let run = 0;
      for (let column = 0; column < this.#columns; column++) {
        free[column] = taken[column] === 1 ? 0 : free[column] + 1;
        run = free[column] >= wide ? run + 1 : 0;
        if (run < long) continue;
        return [
          this.#from[0] + (column + 1 - long) * this.side,
          this.#from[1] + (row + 1 - wide) * this.side,
        ];
      }
    }
    return undefined;
  }
}

// An instance of the open data sets as a problem of the engine: scaled so that the strip is 1,000 mm high.
import { containerFrom } from '../../dist/nesting/problem/problem-spec.js';

/** Height in mm that every strip and board is scaled to: the engine's tolerances are those of a workshop. */
const HEIGHT = 1000;

/** Boards offered beyond the known optimum. */
const SPARE_BOARDS = 4;

/** The problem, and what is needed to judge a result. */
export function problemOf(instance) {
  const scale = HEIGHT / instance.stripHeight;
  const shapes = instance.items.map(({ points, quantity }) => ({
    region: { outline: points.map(([x, y]) => [x * scale, y * scale]), openings: [] },
    lies: instance.allowedRotationsDeg.map((degrees) => ({ degrees, turnedOver: false })),
    stands: false,
    copies: quantity,
    perSet: quantity,
  }));
  const partArea = instance.totalArea * scale * scale;
  const boards = instance.boardWidth === undefined ? undefined : instance.knownOptimumBoards + SPARE_BOARDS;
  const length = boards === undefined ? stripLength(shapes, partArea) : instance.boardWidth * scale;
  const usable = {
    outline: [
      [0, 0],
      [length, 0],
      [length, HEIGHT],
      [0, HEIGHT],
    ],
    openings: [],
  };
  const container = containerFrom(usable, length * HEIGHT, 0);
  return {
    spec: { shapes, containers: new Array(boards ?? 1).fill(container), gap: 0, margin: 0 },
    partArea,
    height: HEIGHT,
    length,
    boards,
  };
}

/** A strip long enough for everything: three times the area, and never under the summed widths of few parts. */
function stripLength(shapes, partArea) {
  const widest = Math.max(...shapes.map(({ region }) => Math.max(...extent(region.outline))));
  return Math.max((3 * partArea) / HEIGHT, 4 * widest);
}

function extent(ring) {
  const xs = ring.map(([x]) => x);
  const ys = ring.map(([, y]) => y);
  return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
}

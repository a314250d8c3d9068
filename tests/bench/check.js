// The independent verifier on a result of the engine: true outlines, boards cut to the used length.
import { applyToPoint, applyToRegion, placementMap } from '../../dist/geometry/affine.js';
import { boundsOf } from '../../dist/geometry/shapes.js';
import { figuresOf } from '../../dist/nesting/laid/figures.js';
import { turn } from '../../dist/nesting/problem/orientations.js';
import { ProblemBuilder, referenceOf } from '../../dist/nesting/problem/problem-spec.js';
import { verifyLayout } from '../../dist/nesting/verify.js';

/** Boards used, used length of a strip, and what the verifier says. */
export function judged({ spec, length, height, boards, partArea }, found) {
  const problem = new ProblemBuilder().build(spec);
  const placements = spec.containers.map(() => []);
  found.container.forEach((container, item) => {
    if (container < 0) return;
    placements[container].push(placementOf(spec, problem, found, item));
  });
  const used = placements.filter((list) => list.length > 0);
  const end = Math.max(...used.flat().map(({ region }) => boundsOf(region.outline).maxX));
  const usedLength = boards === undefined ? end : length;
  const layout = layoutOf(spec, used, usedLength, height);
  const { ok, leastDistance, breaches } = verifyLayout(layout);
  return {
    placed: used.flat().length,
    boards: used.length,
    usedLength,
    density: (100 * partArea) / (used.length * usedLength * height),
    verified: ok,
    leastDistance,
    breaches: breaches.slice(0, 3).map(({ kind, received }) => `${kind} ${received}`),
  };
}

/** Density in percent of what a score tells of: on a strip what is not clear is used. */
export function densityOf({ partArea, height, length, boards }, { clear, boards: used }) {
  return (100 * partArea) / (boards === undefined ? height * length - clear : used * height * length);
}

function placementOf(spec, problem, found, item) {
  const shape = problem.shapeOf[item];
  const { degrees: listed, turnedOver } = problem.orientations[found.orientation[item]];
  const degrees = listed + found.twist[item];
  const middle = applyToPoint(turn(degrees, turnedOver), referenceOf(spec.shapes[shape].region));
  const x = found.x[item] - middle[0];
  const y = found.y[item] - middle[1];
  const region = applyToRegion(placementMap([x, y], degrees, turnedOver), spec.shapes[shape].region);
  return { part: `${shape}`, layer: '', set: 1, x, y, rotation: degrees, turnedOver, region, veins: [] };
}

function layoutOf(spec, used, length, height) {
  const usable = {
    outline: [
      [0, 0],
      [length, 0],
      [length, height],
      [0, height],
    ],
    openings: [],
  };
  const boards = used.map((placements, n) => ({
    id: `board-${n + 1}`,
    stock: 'board',
    species: 'any',
    thickness: 1,
    copies: 1,
    usable,
    placements,
  }));
  const setContents = spec.shapes.map(({ copies }, shape) => ({
    part: `${shape}`,
    layer: '',
    copiesPerSet: copies,
    grain: 'free',
    grainTolerance: 0,
    turnOver: false,
  }));
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: 0,
    clearance: 0,
    edgeMargin: 0,
    sets: 1,
    setContents,
    boards,
    unplaced: [],
    figures: figuresOf(boards, [], setContents, 1),
  };
}

import type { Line, Region } from '../geometry/shapes.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Layer, Part } from '../model/pattern.ts';
import { linesWithoutOpening } from './inner-lines.ts';
import { joinLines, type SourcedLine } from './join-lines.ts';
import type { LayerShapes } from './layers.ts';
import { linesOfShape } from './shape-lines.ts';
import {
  cutByDrawnRings,
  type DrawnRing,
  type InnerShapes,
  type LayerPlace,
  type Solid,
  solidsOfFill,
  uniteOverlaps,
} from './solids.ts';
import { tooTangled } from './tangle.ts';
import { UniqueNames } from './unique-names.ts';
import { veinPieces } from './veins.ts';

/** How shapes become parts. Lengths in finished mm. */
export interface PartRules {
  /** Greatest distance between flattened outlines and the true curves. */
  readonly tolerance: number;
  /** Ends of lines up to this far apart are joined. */
  readonly joinGap: number;
  readonly innerShapes: InnerShapes;
}

/** Most points of one layer: far beyond any pattern, and what memory holds without strain. */
const MOST_POINTS = 12_000_000;

/** Turns the shapes of one layer into parts: fills, then drawn outlines and openings, then veins. */
export function partsOfLayer(
  { name: layer, shapes }: LayerShapes,
  scale: number,
  rules: PartRules,
  file: string,
): { layer: Layer; issues: Issue[] } {
  const issues: Issue[] = [];
  const place = { file, layer };
  let points = 0;
  const fills: Solid[] = [];
  const drawnRings: DrawnRing[] = [];
  const openLines: SourcedLine<DrawingShape>[] = [];
  for (const shape of shapes) {
    const { filled, closed, open } = linesOfShape(shape, scale, rules.tolerance, rules.joinGap);
    if (tooTangled([...filled, ...closed])) {
      issues.push(about(shape, place, TANGLED));
      continue;
    }
    points += [...filled, ...closed, ...open].reduce((sum, line) => sum + line.length, 0);
    if (points > MOST_POINTS) {
      throw new FretlayError([about(shape, place, { ...TOO_MANY_POINTS, received: `${points} so far` })]);
    }
    const solids = solidsOfFill(shape, filled);
    const lost = shape.fillRule === 'nonzero' ? linesWithoutOpening(filled, solids) : 0;
    if (lost > 0) issues.push(about(shape, place, withoutOpening(lost)));
    // One by one here and below: a path may have more subpaths than a call takes arguments.
    for (const solid of solids) fills.push(solid);
    for (const ring of closed) drawnRings.push({ ring, shape });
    for (const line of open) openLines.push({ line, source: shape });
    if (solids.length + closed.length + open.length === 0) {
      issues.push(about(shape, place, filled.length > 0 ? SPECK : PAINTS_NOTHING));
    }
  }
  const joined = joinLines(openLines, rules.joinGap);
  for (const { ring, sources } of joined.rings) drawnRings.push({ ring, shape: sources[0] });
  const { solids, specks } = cutByDrawnRings(fills, drawnRings);
  for (const { shape } of specks) issues.push(about(shape, place, SPECK));
  const united = uniteOverlaps(solids, rules.innerShapes, place);
  for (const issue of united.issues) issues.push(issue);
  const assigned = assignVeins(joined.rest, united.solids, place, rules.joinGap);
  for (const issue of assigned.issues) issues.push(issue);
  return { layer: { name: layer, parts: namedParts(layer, united.solids, assigned.veins) }, issues };
}

function namedParts(layer: string, solids: readonly Solid[], veins: ReadonlyMap<Region, Line[]>): Part[] {
  const names = new UniqueNames();
  return solids.map(({ region, shape }, i) => ({
    name: names.give(shape.label ?? shape.id ?? `part ${i + 1}`),
    layer,
    element: shape.element,
    region,
    veins: veins.get(region) ?? [],
  }));
}

/** Gives open lines to the parts they lie in; what lies in none is told, for it may be an outline that does not close. */
function assignVeins(
  lines: readonly SourcedLine<DrawingShape>[],
  solids: readonly Solid[],
  place: LayerPlace,
  joinGap: number,
): { veins: ReadonlyMap<Region, Line[]>; issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const regions = solids.map(({ region }) => region);
  const veins = new Map<Region, Line[]>();
  for (const { line, source } of lines) {
    const { pieces, outside } = veinPieces(line, regions);
    for (const [region, found] of pieces) {
      const known = veins.get(region);
      if (known === undefined) veins.set(region, found);
      else for (const piece of found) known.push(piece);
    }
    const where = { ...place, element: source.element, line: source.line, at: line[0] };
    if (pieces.size === 0) {
      issues.push({
        kind: 'open-line-left-out',
        severity: 'warning',
        message: 'an open line lies in no part and closes no outline; it is not cut',
        expected: `ends that meet within ${joinGap} mm, or a line inside a part`,
        received: `ends ${apart(line).toFixed(2)} mm apart`,
        remedy: 'Close the outline in the drawing, or raise "joinGap" in the job.',
        where,
      });
    } else if (outside > 2 * joinGap) {
      // A vein drawn over the edge by no more than a join gap at either end only means to reach it: nothing is lost.
      issues.push({
        kind: 'vein-clipped',
        severity: 'note',
        message: `a vein runs ${outside.toFixed(1)} mm outside its part; that piece is not cut`,
        where,
      });
    }
  }
  return { veins, issues };
}

function apart(line: Line): number {
  const [x, y] = line[line.length - 1];
  return Math.hypot(x - line[0][0], y - line[0][1]);
}

type About = Omit<Issue, 'where'>;

/** An issue about one shape of a layer. */
function about(shape: DrawingShape, place: LayerPlace, issue: About): Issue {
  return { ...issue, where: { ...place, element: shape.element, line: shape.line } };
}

function withoutOpening(count: number): About {
  return {
    kind: 'inner-line-without-opening',
    severity: 'note',
    message: `${count === 1 ? '1 inner line makes' : `${count} inner lines make`} no opening under the fill rule nonzero: drawn the same way round as the line around ${count === 1 ? 'it' : 'them'}`,
    remedy: 'If that is to be sawn out, give the shape fill-rule="evenodd", or reverse the inner line.',
  };
}

const TANGLED: About = {
  kind: 'shape-too-tangled',
  severity: 'warning',
  message: 'crosses itself so often that it cannot be a pattern; it is left out',
  remedy: 'Draw it again, or trace it with fewer points.',
};

const TOO_MANY_POINTS: About = {
  kind: 'layer-too-large',
  severity: 'error',
  message: 'the layer has more points than a pattern can need',
  expected: `at most ${MOST_POINTS} points when flattened`,
  remedy: 'Check the scale of the drawing, or simplify it.',
};

const SPECK: About = {
  kind: 'speck-left-out',
  severity: 'warning',
  message: 'encloses less than a ten-thousandth of a square millimetre; it is left out',
  remedy: 'Check the scale of the drawing.',
};

const PAINTS_NOTHING: About = {
  kind: 'paints-nothing',
  severity: 'note',
  message: 'draws no line and encloses nothing; it is left out',
};

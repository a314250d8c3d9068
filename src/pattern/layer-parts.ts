import type { Line, Region } from '../geometry/shapes.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Layer, Part } from '../model/pattern.ts';
import { cutByDrawnRings, type DrawnRing } from './drawn-rings.ts';
import { linesWithoutOpening } from './inner-lines.ts';
import { joinLines, type SourcedLine } from './join-lines.ts';
import type { LayerShapes } from './layers.ts';
import { widthOfLine } from './line-like.ts';
import { linesLeftOut } from './lines-left-out.ts';
import { linesNearlyClosed } from './lines-nearly-closed.ts';
import { ringsBySharedLines } from './lines-shared.ts';
import { linesOnce, runsAlongEdge } from './lines-twice.ts';
import { type MeetingPieces, piecesMeetingAtPoint } from './meet-at-point.ts';
import { shapesWithoutEnd } from './overlap-issues.ts';
import { type InnerShapes, uniteOverlaps } from './overlaps.ts';
import { piecesOfPart } from './pieces-of-part.ts';
import { linesOfShape } from './shape-lines.ts';
import { type LayerPlace, type Solid, solidsOfFill } from './solids.ts';
import { tooTangled } from './tangle.ts';
import { toldWhere } from './told-where.ts';
import { UniqueNames } from './unique-names.ts';
import { veinFinder } from './veins.ts';

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

/** Lines drawn wider than this, mm, may be meant as wood. */
const WIDE_LINE = 2;

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
  const tiny: DrawingShape[] = [];
  for (const shape of shapes) {
    const { filled, closed, open } = linesOfShape(shape, scale, rules.tolerance, rules.joinGap);
    const rings = [...filled, ...closed.map(({ ring }) => ring)];
    if (tooTangled(rings)) {
      issues.push(about(shape, place, TANGLED));
      continue;
    }
    points += [...rings, ...open].reduce((sum, line) => sum + line.length, 0);
    if (points > MOST_POINTS) {
      throw new FretlayError([about(shape, place, { ...TOO_MANY_POINTS, received: `${points} so far` })]);
    }
    const at = { ...place, element: shape.element, line: shape.line };
    const solids = toldWhere(at, () => solidsOfFill(shape, filled));
    const lost = shape.fillRule === 'nonzero' ? linesWithoutOpening(filled, solids) : 0;
    if (lost > 0) issues.push(about(shape, place, withoutOpening(lost)));
    // One by one here and below: a path may have more subpaths than a call takes arguments.
    for (const solid of solids) fills.push(solid);
    for (const { ring, joins } of closed) drawnRings.push({ ring, shape, joins });
    for (const line of open) openLines.push({ line, source: shape });
    if (solids.length + closed.length + open.length === 0) {
      if (filled.length > 0) tiny.push(shape);
      else issues.push(about(shape, place, PAINTS_NOTHING));
    }
  }
  const wide = shapes.filter(
    ({ stroke, strokeWidth }) => stroke !== 'none' && strokeWidth * scale > WIDE_LINE,
  );
  if (wide.length > 0) issues.push(about(wide[0], place, wideLines(wide, scale)));
  const { kept, twins } = linesOnce(openLines);
  const joined = joinLines(kept, rules.joinGap);
  const outlines = [...fills.map(({ region }) => region.outline), ...drawnRings.map(({ ring }) => ring)];
  const shared = ringsBySharedLines(joined, twins, outlines, rules.joinGap);
  for (const { ring, joins, lines } of [...joined.rings, ...shared.rings]) {
    drawnRings.push({ ring, shape: lines[0].source, joins });
  }
  if (shared.twins.length > 0) {
    issues.push(about(shared.twins[0].source, place, drawnTwice(shared.twins.length)));
  }
  if (tooTangled(drawnRings.map(({ ring }) => ring))) {
    throw new FretlayError([shapesWithoutEnd(drawnRings, place)]);
  }
  const { solids, specks } = cutByDrawnRings(fills, drawnRings, rules.joinGap);
  for (const { shape } of specks) tiny.push(shape);
  if (tiny.length > 0) issues.push(about(tiny[0], place, specksLeftOut(tiny.length)));
  const united = uniteOverlaps(solids, rules.innerShapes, place);
  for (const issue of united.issues) issues.push(issue);
  for (const meeting of piecesMeetingAtPoint(united.solids)) {
    const issue = about(meeting.shape, place, hangByPoint(meeting));
    issues.push({ ...issue, where: { ...issue.where, at: meeting.at } });
  }
  const assigned = assignVeins(shared.rest, united.solids, place, rules.joinGap);
  for (const issue of assigned.issues) issues.push(issue);
  for (const { region, shape } of united.solids) {
    const pieces = piecesOfPart(region, assigned.veins.get(region) ?? [], rules.joinGap);
    if (pieces > 1) issues.push(about(shape, place, fallsInto(pieces)));
    const width = widthOfLine(region);
    if (width !== undefined) issues.push(about(shape, place, onlyLine(width)));
  }
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
  const piecesOf = veinFinder(regions);
  const veins = new Map<Region, Line[]>();
  const along: DrawingShape[] = [];
  const inNone: SourcedLine<DrawingShape>[] = [];
  const inParts: SourcedLine<DrawingShape>[] = [];
  for (const { line, source } of lines) {
    if (regions.some((region) => runsAlongEdge(line, region))) {
      along.push(source);
      continue;
    }
    const { pieces, outside } = piecesOf(line);
    for (const [region, found] of pieces) {
      const known = veins.get(region);
      if (known === undefined) veins.set(region, found);
      else for (const piece of found) known.push(piece);
    }
    (pieces.size === 0 ? inNone : inParts).push({ line, source });
    if (pieces.size > 0 && outside > 2 * joinGap) {
      // A vein drawn over the edge by no more than a join gap at either end only means to reach it: nothing is lost.
      issues.push({
        kind: 'vein-clipped',
        severity: 'note',
        message: `a vein runs ${outside.toFixed(1)} mm outside its part; that piece is not cut`,
        where: { ...place, element: source.element, line: source.line, at: line[0] },
      });
    }
  }
  issues.push(
    ...linesNearlyClosed(inParts, regions, place, joinGap),
    ...linesLeftOut(inNone, place, joinGap),
  );
  if (along.length > 0) issues.push(about(along[0], place, alongEdge(along.length)));
  return { veins, issues };
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

function wideLines(wide: readonly DrawingShape[], scale: number): About {
  const widest = wide.reduce((most, { strokeWidth }) => Math.max(most, strokeWidth * scale), 0);
  return {
    kind: 'line-wide',
    severity: 'note',
    message:
      wide.length === 1
        ? `the line is drawn ${widest.toFixed(1)} mm wide; it is sawn along its middle`
        : `${wide.length} lines, this one first, are drawn up to ${widest.toFixed(1)} mm wide; they are sawn along their middle`,
    remedy: 'Turn the stroke into a filled shape in the drawing program if its width is wood.',
  };
}

function drawnTwice(count: number): About {
  return sawnAnyway(
    count,
    'lies exactly on another one of the layer; it is sawn once',
    'lie exactly on others of the layer; they are sawn once',
  );
}

function alongEdge(count: number): About {
  return sawnAnyway(
    count,
    'runs along the edge of a part, which is sawn anyway; it is no vein',
    'run along edges of parts, which are sawn anyway; they are no veins',
  );
}

/** What becomes of lines where another one is sawn already, in words for a single one and for several. */
function sawnAnyway(count: number, one: string, several: string): About {
  return {
    kind: 'shape-drawn-twice',
    severity: 'note',
    message: count === 1 ? `this line ${one}` : `${count} lines, this one first, ${several}`,
  };
}

function onlyLine(width: number): About {
  return {
    kind: 'part-only-line',
    severity: 'warning',
    message: `the part is nowhere wider than ${Math.max(width, 0.01).toFixed(2)} mm: the stroke of a line saved as a filled shape, or a sliver`,
    remedy:
      'Save the drawing with its strokes as lines, which are sawn along their middle; delete the shape if it is a sliver.',
  };
}

function fallsInto(pieces: number): About {
  return {
    kind: 'part-parted-by-veins',
    severity: 'warning',
    message: `veins run from edge to edge: sawn, the part falls into ${pieces} pieces; it is laid out and counted as one part`,
    remedy:
      'End the veins short of the edge, or draw each piece as a closed outline if they are parts of their own.',
  };
}

function hangByPoint({ pieces }: MeetingPieces): About {
  return {
    kind: 'pieces-meet-at-point',
    severity: 'warning',
    message: `${pieces} pieces of the shape meet at a point only, where its line crosses or touches itself: sawn, they fall apart, and each is a part`,
    remedy: 'Draw a neck between them if they are one part.',
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

function specksLeftOut(count: number): About {
  const size = 'less than a ten-thousandth of a square millimetre';
  return {
    kind: 'speck-left-out',
    severity: 'warning',
    message:
      count === 1
        ? `encloses ${size}; it is left out`
        : `${count} shapes, this one first, enclose ${size} each; they are left out`,
    remedy: 'Check the scale of the drawing.',
  };
}

const PAINTS_NOTHING: About = {
  kind: 'paints-nothing',
  severity: 'note',
  message: 'draws no line and encloses nothing; it is left out',
};

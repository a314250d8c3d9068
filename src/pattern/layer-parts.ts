import type { Line, Region } from '../geometry/shapes.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Layer, Part } from '../model/pattern.ts';
import { assignVeins } from './assign-veins.ts';
import type { CutShapes } from './colours.ts';
import { cutByDrawnRings, type DrawnRing } from './drawn-rings.ts';
import { joinLines, type SourcedLine } from './join-lines.ts';
import {
  about,
  drawnTwice,
  fallsInto,
  hangByPoint,
  onlyLine,
  onlySpecks,
  specksLeftOut,
  wideLines,
} from './layer-issues.ts';
import type { LayerShapes } from './layers.ts';
import { isSpeck, widthOfLine } from './line-like.ts';
import { linesOfLayer } from './lines-of-layer.ts';
import { ringsBySharedLines } from './lines-shared.ts';
import { linesOnce } from './lines-twice.ts';
import { piecesMeetingAtPoint } from './meet-at-point.ts';
import { shapesWithoutEnd } from './overlap-issues.ts';
import { type InnerShapes, uniteOverlaps } from './overlaps.ts';
import { piecesOfPart } from './pieces-of-part.ts';
import type { LayerPlace, Solid } from './solids.ts';
import { tooTangled } from './tangle.ts';
import { UniqueNames } from './unique-names.ts';

/** How shapes become parts. Lengths in finished mm. */
export interface PartRules {
  /** Greatest distance between flattened outlines and the true curves. */
  readonly tolerance: number;
  /** Ends of lines up to this far apart are joined. */
  readonly joinGap: number;
  readonly innerShapes: InnerShapes;
}

/** Lines drawn wider than this, mm, may be meant as wood. */
const WIDE_LINE = 2;

/**
 * Turns the shapes of one layer into parts: fills, then drawn outlines and openings, then veins.
 *
 * @throws FretlayError where the layer has too many points, or its rings cross without end
 */
export function partsOfLayer(
  { name: layer, shapes }: LayerShapes,
  scale: number,
  rules: PartRules,
  file: string,
): { layer: Layer; shapes: CutShapes; issues: Issue[] } {
  const { joinGap } = rules;
  const place = { file, layer };
  const { fills, drawnRings, openLines, specks, issues } = linesOfLayer(shapes, scale, rules, place);
  const outlines = [...fills.map(({ region }) => region.outline), ...drawnRings.map(({ ring }) => ring)];
  const joined = ringsOfOpenLines(openLines, outlines, joinGap);
  const drawn = [...drawnRings, ...joined.rings];
  if (tooTangled(drawn.map(({ ring }) => ring))) throw new FretlayError([shapesWithoutEnd(drawn, place)]);
  const cut = cutByDrawnRings(fills, drawn, joinGap);
  const united = uniteOverlaps(cut.solids, rules.innerShapes, place);
  const assigned = assignVeins(joined.rest, united.solids, place, joinGap);
  const dots = united.solids.filter(({ region }) => isSpeck(region));
  const tiny = [...specks, ...cut.specks.map(({ shape }) => shape)];
  return {
    layer: { name: layer, parts: namedParts(layer, united.solids, assigned.veins) },
    shapes: { filled: shapesOf(fills), drawn: shapesOf(drawnRings) },
    issues: [
      ...issues,
      ...wideLineIssues(shapes, scale, place),
      ...(joined.twins.length > 0
        ? [about(joined.twins[0].source, place, drawnTwice(joined.twins.length))]
        : []),
      ...(tiny.length > 0 ? [about(tiny[0], place, specksLeftOut(tiny.length))] : []),
      ...(dots.length > 0 ? [speckIssue(dots, place)] : []),
      ...united.issues,
      ...meetingIssues(united.solids, place),
      ...assigned.issues,
      ...united.solids.flatMap((solid) => pieceIssues(solid, assigned.veins, place, joinGap)),
    ],
  };
}

/** What becomes of the open lines of a layer. */
interface OpenLinesJoined {
  readonly rings: readonly DrawnRing[];
  /** Lines that close no ring. */
  readonly rest: readonly SourcedLine<DrawingShape>[];
  /** Second drawings of lines, which are sawn once. */
  readonly twins: readonly SourcedLine<DrawingShape>[];
}

/** @param outlines closed ones that are there already: no ring around any of them is made */
function ringsOfOpenLines(
  openLines: readonly SourcedLine<DrawingShape>[],
  outlines: readonly DrawnRing['ring'][],
  joinGap: number,
): OpenLinesJoined {
  const { kept, twins } = linesOnce(openLines);
  const joined = joinLines(kept, joinGap);
  const shared = ringsBySharedLines(joined, twins, outlines, joinGap);
  const rings = [...joined.rings, ...shared.rings].map(
    ({ ring, joins, lines }): DrawnRing => ({ ring, shape: lines[0].source, joins }),
  );
  return { rings, rest: shared.rest, twins: shared.twins };
}

function wideLineIssues(shapes: readonly DrawingShape[], scale: number, place: LayerPlace): Issue[] {
  const wide = shapes.filter(
    ({ stroke, strokeWidth }) => stroke !== 'none' && strokeWidth * scale > WIDE_LINE,
  );
  return wide.length === 0 ? [] : [about(wide[0], place, wideLines(wide, scale))];
}

function meetingIssues(solids: readonly Solid[], place: LayerPlace): Issue[] {
  return piecesMeetingAtPoint(solids).map((meeting) => {
    const issue = about(meeting.shape, place, hangByPoint(meeting));
    return { ...issue, where: { ...issue.where, at: meeting.at } };
  });
}

function shapesOf(pieces: readonly { readonly shape: DrawingShape }[]): ReadonlySet<DrawingShape> {
  return new Set(pieces.map(({ shape }) => shape));
}

/** Where the first of them lies is told too: a scan is traced as one shape, whose line in the file says nothing. */
function speckIssue(dots: readonly Solid[], place: LayerPlace): Issue {
  const [{ shape, region }] = dots;
  const issue = about(shape, place, onlySpecks(dots.length));
  return { ...issue, where: { ...issue.where, at: region.outline[0] } };
}

/** What is told of a part that veins cut through, or that is no wider than a line. */
function pieceIssues(
  { region, shape }: Solid,
  veins: ReadonlyMap<Region, Line[]>,
  place: LayerPlace,
  joinGap: number,
): Issue[] {
  const pieces = piecesOfPart(region, veins.get(region) ?? [], joinGap);
  const width = widthOfLine(region);
  return [
    ...(pieces > 1 ? [about(shape, place, fallsInto(pieces))] : []),
    ...(width === undefined ? [] : [about(shape, place, onlyLine(width, shape.fill === 'none'))]),
  ];
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

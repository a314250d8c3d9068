import { combineRegions, offsetRegions } from '../../geometry/clipper.ts';
import { regionArea, regionBounds, regionsArea, ringsPerimeter } from '../../geometry/ring.ts';
import { boundsOf, boxesMeet, type Region } from '../../geometry/shapes.ts';
import { listOf, mapOf, number, oneOf, optional, record, text } from '../../issues/checks.ts';
import { throwOnErrors } from '../../issues/fretlay-error.ts';
import type { Issue } from '../../issues/issue.ts';
import { LENGTH, SOME_LENGTH } from '../../issues/number-issue.ts';
import { recordByHand } from '../../issues/record-by-hand.ts';
import type { AssemblyPlan, GlueJoint, StandingPart } from '../../model/assembly.ts';
import { MOST_COPIES, MOST_MOISTURE_CHANGE } from '../../model/limits.ts';
import { notInBatch } from '../../model/not-in-batch.ts';
import type { Pattern } from '../../model/pattern.ts';
import { patternCheck } from '../../model/pattern-checks.ts';
import { isSamePart, partKey } from '../../model/same-part.ts';
import { USUAL_GLUE_UP } from '../../model/usual-settings.ts';
import { density, woodFacts } from '../wood-facts.ts';
import { belowPlaneIssue, crossedIssues, hangsBelowIssue, standingIssues } from './assembly-issues.ts';
import type { AssemblyPart, LayerWood, PartInPiece } from './assembly-part.ts';
import { jointMovement } from './joint-movement.ts';
import { hangsBelow, reachBelow, restEdges, restPlane } from './rest-edges.ts';

/** How a piece is put together. Lengths in mm. */
export interface AssemblyOptions {
  /** Wood of each layer, by its name. */
  readonly layers: Readonly<Record<string, LayerWood>>;
  /** How far a bottom may be off the plane the piece stands on (default 0.2). */
  readonly restTolerance?: number | undefined;
  /** How far glue is kept back from the edges of a joint so that none squeezes out (default 3). */
  readonly glueMargin?: number | undefined;
  /** Change of moisture the piece has to stand, percentage points (default 5: from a dry to a humid home). */
  readonly moistureChange?: number | undefined;
  /**
   * The parts that are there, by layer and name; one of each in the pattern when left out. Where some are missing nothing is told
   * of what holds a part or whether its bottom stands level: what it is glued to may be one of those that are missing.
   */
  readonly only?: readonly PartInPiece[] | undefined;
}

/** Glue on one surface, g/m2: 35 to 50 lb per 1000 ft2, Forest Products Laboratory practice, from memory. */
const GLUE_SPREAD = [171, 244] as const;

/** Contacts smaller than this are only touching edges, mm2. */
const LEAST_CONTACT = 1;

const COPIES = { least: 1, most: MOST_COPIES, whole: true };

const optionsCheck = recordByHand(
  {
    // A layer that has none is left out, as one that is not named.
    layers: mapOf(
      optional(
        recordByHand(
          { species: text(), thickness: number(SOME_LENGTH), grain: oneOf(['along', 'across', 'free']) },
          'See `LayerWood` for the wood of a layer.',
        ),
      ),
      'Say of which wood each layer is, by its name: { Lake: { species: "basswood", thickness: 6, grain: "along" } }.',
    ),
    restTolerance: optional(number(LENGTH)),
    glueMargin: optional(number(LENGTH)),
    moistureChange: optional(number({ least: 0, most: MOST_MOISTURE_CHANGE, unit: 'percentage points' })),
    only: optional(listOf(record({ layer: text(), part: text(), copiesPerSet: optional(number(COPIES)) }))),
  },
  'See `AssemblyOptions`.',
);

/**
 * How the layers go together: every part rests on the frontmost part behind it that it overlaps, so that depths,
 * joints and the overall size follow from the drawing. Layers without wood in the options are left out.
 *
 * @throws FretlayError for what is no pattern, and for options that make no sense
 */
export function planAssembly(pattern: Pattern, options: AssemblyOptions): AssemblyPlan {
  throwOnErrors([...patternCheck('pattern', pattern), ...optionsCheck('options', options)]);
  const {
    restTolerance = USUAL_GLUE_UP.restTolerance,
    glueMargin = USUAL_GLUE_UP.glueMargin,
    moistureChange = USUAL_GLUE_UP.moistureChange,
  } = options;
  const left = options.only === undefined ? [] : notInBatch(pattern, options.only);
  const isThere = (layer: string, part: string) => !left.some((each) => isSamePart(each, { layer, part }));
  const copies = new Map(options.only?.map((part) => [partKey(part), part.copiesPerSet]));
  const parts = pattern.layers.flatMap(({ name, parts: drawn }): AssemblyPart[] => {
    const wood = Object.hasOwn(options.layers, name) ? options.layers[name] : undefined;
    return wood === undefined
      ? []
      : drawn
          .filter((part) => isThere(name, part.name))
          .map(({ name: part, region }) => ({
            layer: name,
            part,
            region,
            wood,
            copies: copies.get(partKey({ layer: name, part })) ?? 1,
          }));
  });
  const { standing, joints } = stacked(parts, { glueMargin, moistureChange });
  const edges = restEdges(parts);
  const plane = restPlane(edges, restTolerance);
  const placed = standing.map((part, i): StandingPart => {
    const own = edges[i];
    return { ...part, offPlane: own === undefined || plane === undefined ? undefined : plane - own.y };
  });
  const below = placed.flatMap((part, i): Issue[] => {
    const reach = reachBelow(parts[i], edges[i], plane, restTolerance);
    return reach === undefined ? [] : [belowPlaneIssue(part, reach, restTolerance)];
  });
  const hanging = hangsBelow(parts, plane);
  const box = boundsOf(parts.flatMap(({ region }) => region.outline));
  const glueArea = joints.reduce((sum, joint) => sum + joint.copies * joint.glueArea, 0) / 1e6;
  return {
    parts: placed,
    joints,
    width: parts.length === 0 ? 0 : box.maxX - box.minX,
    height: parts.length === 0 ? 0 : box.maxY - box.minY,
    depth: Math.max(0, ...placed.map(({ front }) => front)),
    restPlane: plane,
    glueGrams: [glueArea * GLUE_SPREAD[0], glueArea * GLUE_SPREAD[1]],
    weight: weightOf(parts),
    faces: parts.reduce((sum, { region, copies }) => sum + 2 * copies * regionArea(region), 0),
    surface: parts.reduce((sum, part) => sum + part.copies * surfaceOf(part), 0),
    issues: [
      ...(left.length === 0
        ? standingIssues(
            placed,
            joints,
            restTolerance,
            parts.map((part) => part.copies),
          )
        : []),
      ...(left.length === 0 ? below : []),
      ...(left.length === 0 && hanging !== undefined ? [hangsBelowIssue(hanging.part, hanging.reach)] : []),
      ...joints.flatMap((joint) => crossedIssues(joint, moistureChange)),
    ],
  };
}

type GlueSettings = Required<Pick<AssemblyOptions, 'glueMargin' | 'moistureChange'>>;
type InPlace = Omit<StandingPart, 'offPlane'>;

/** Puts the parts in their places from the back, each on what lies under it. */
function stacked(
  parts: readonly AssemblyPart[],
  settings: GlueSettings,
): { standing: InPlace[]; joints: GlueJoint[] } {
  const standing: InPlace[] = [];
  const joints: GlueJoint[] = [];
  for (const [i, part] of parts.entries()) {
    const under = parts.slice(0, i).flatMap((other, k) => {
      const contact = other.layer === part.layer ? [] : overlap(other.region, part.region);
      return contact.length === 0 ? [] : [{ other, contact, front: standing[k].front }];
    });
    const back = Math.max(0, ...under.map(({ front }) => front));
    standing.push({
      layer: part.layer,
      part: part.part,
      back,
      front: back + part.wood.thickness,
      area: regionArea(part.region),
    });
    for (const { other, contact, front } of under)
      if (Math.abs(front - back) < 1e-6) joints.push(glueJoint(other, part, contact, settings));
  }
  return { standing, joints };
}

function overlap(a: Region, b: Region): Region[] {
  if (!boxesMeet(regionBounds(a), regionBounds(b))) return [];
  return combineRegions('intersection', [a], [b]).filter((region) => regionArea(region) >= LEAST_CONTACT);
}

function glueJoint(
  behind: AssemblyPart,
  front: AssemblyPart,
  contact: readonly Region[],
  { glueMargin, moistureChange }: GlueSettings,
): GlueJoint {
  const glue = offsetRegions(contact, -glueMargin);
  const { movement, method, grains } = jointMovement(behind.wood, front.wood, contact, moistureChange);
  return {
    behind: { layer: behind.layer, part: behind.part },
    front: { layer: front.layer, part: front.part },
    contact,
    contactArea: regionsArea(contact),
    glue,
    glueArea: regionsArea(glue),
    movement,
    movementMethod: method,
    grains,
    copies: Math.max(behind.copies, front.copies),
  };
}

/** Both faces and all edges, mm2. */
function surfaceOf({ region, wood }: AssemblyPart): number {
  const edges = ringsPerimeter([region.outline, ...region.openings]);
  return 2 * regionArea(region) + edges * wood.thickness;
}

/** kg at 12 % moisture. */
function weightOf(parts: readonly AssemblyPart[]): number | undefined {
  let weight = 0;
  for (const { region, wood, copies } of parts) {
    const facts = woodFacts(wood.species);
    if (facts === undefined) return undefined;
    weight += ((copies * regionArea(region) * wood.thickness) / 1e9) * density(facts.specificGravity);
  }
  return weight;
}

import { regionBounds } from '../../geometry/ring.ts';
import { type Box, type Line, middleOf, movedBox, type Point } from '../../geometry/shapes.ts';
import type { BoardPlan } from '../../model/cut-plan.ts';
import type { Placement } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { moveMarks } from '../marks/arrange.ts';
import { diamond, line, type Mark, rings } from '../marks/marks.ts';
import type { NumberPlace } from './cut-numbers.ts';
import type { FreeSpace } from './free-space.ts';
import { hatchedOpenings, nestedIn, openingMarks } from './opening-marks.ts';
import {
  arrowBlock,
  blockMarks,
  LABEL_SETTINGS,
  type LabelBlock,
  labelBlock,
  NUMBER_ROOM,
  placeInside,
  spaceInside,
  widestPlace,
} from './part-label.ts';
import type { PartLook } from './part-look.ts';
import { numbersNeeded } from './part-names.ts';
import { weakPlaces } from './weak-places.ts';

/** What can be drawn of one placed part by itself. */
export interface PartMarks {
  readonly marks: readonly Mark[];
  /** Where a leader may end, when the part has no room for its label; undefined when the label is in the marks. */
  readonly anchor: Point | undefined;
}

/** Where the label of a part goes: the same for every copy that lies the same way, only moved. */
interface LabelPlan {
  /** Which of the label's blocks fits, by its rank, and its box. */
  readonly label: { readonly rank: number; readonly box: Box } | undefined;
  /** The box of a grain arrow that stands alone. */
  readonly arrow: Box | undefined;
  /** Free spot for the end of a leader. */
  readonly anchor: Point;
}

/** How a part lies: what was found for one copy holds, moved by the corners of the boxes, for all of the same key. */
interface Lie {
  readonly key: string;
  readonly box: Box;
}

/** Side of the free spot a leader ends in, mm. */
const ANCHOR_ROOM = 1.6;
/** How far the cross of a hole reaches beyond it, mm. */
export const HOLE_CROSS = 0.8;
/** Half the diagonal of the diamond at the end of a vein, mm. */
const VEIN_END = 0.35;

/**
 * Draws placed parts and remembers how each kind was drawn, for finding room for labels takes far longer than
 * drawing: a batch has many copies that lie the same way.
 */
export class PartDrawer {
  readonly #look: PartLook;
  readonly #plans = new Map<string, LabelPlan>();
  /** Marks of openings as they were drawn for the first copy of a kind, with the box of that copy. */
  readonly #openings = new Map<string, { readonly marks: readonly Mark[]; readonly corner: Box }>();
  readonly #numbers = new WeakMap<BoardPlan, readonly (NumberPlace | undefined)[]>();

  /** By the key of the kind of part: found once, for it takes all names together. */
  readonly #reported: ReadonlyMap<string, number>;

  constructor(look: PartLook = {}) {
    this.#look = look;
    this.#reported = numbersNeeded(look.numbers ?? new Map());
  }

  /**
   * Edges, veins, openings with their holes, and the label where it fits.
   *
   * @param planned true where a plan knows the holes: they are left to it
   */
  draw(placement: Placement, all: readonly Placement[], planned = false): PartMarks {
    const lie = lieOf(placement);
    const cracks = this.#cracks(placement);
    const plan = this.#plan(placement, lie, cracks);
    const at = moveBox(lie.box);
    const { label } = plan;
    const marks: Mark[] = [
      ...this.#openingMarks(placement, all, planned, lie),
      ...placement.veins.flatMap(veinMarks),
      ...this.#edgeMarks(placement),
      ...cracks.map((crack) => line('weak', ...crack)),
      ...(label === undefined
        ? []
        : blockMarks(labelBlock(placement, this.numberOf(placement), label.rank), at(label.box))),
      ...(plan.arrow === undefined ? [] : blockMarks(arrowBlock(), at(plan.arrow))),
    ];
    const anchor: Point = [plan.anchor[0] + lie.box.minX, plan.anchor[1] + lie.box.minY];
    return { marks, anchor: label === undefined ? anchor : undefined };
  }

  /** Room in a part that has none for its label, for the first of smaller blocks that fits; in the frame of the board. */
  smallRoom(
    placement: Placement,
    blocks: readonly LabelBlock[],
  ): { readonly block: LabelBlock; readonly box: Box } | undefined {
    const lie = lieOf(placement);
    const cracks = this.#cracks(placement);
    const { arrow } = this.#plan(placement, lie, cracks);
    const space = spaceInside(placement, cracks, this.#hole(), NUMBER_ROOM);
    if (arrow !== undefined) space.takeBox(moveBox(lie.box)(arrow));
    for (const block of blocks) {
      const box = placeInside(block, space, widestPlace(placement));
      if (box !== undefined) return { block, box };
    }
    return undefined;
  }

  /** The part's number in the report, where its label has to say it. */
  numberOf(placement: Placement): number | undefined {
    return this.#reported.get(partKey(placement));
  }

  /** Where the numbers of a plan stand: found once for the sheet of a board, its pages, and each time it is drawn. */
  numberPlaces(
    plan: BoardPlan,
    place: () => readonly (NumberPlace | undefined)[],
  ): readonly (NumberPlace | undefined)[] {
    const places = this.#numbers.get(plan) ?? place();
    this.#numbers.set(plan, places);
    return places;
  }

  #edgeMarks({ region }: Placement): Mark[] {
    const { outline, openings } = region;
    if (this.#look.line === 'bright') return [rings('bright-edge', outline, ...openings)];
    if (this.#look.line !== 'wide') {
      return [...openings.map((opening) => rings('opening-edge', opening)), rings('part-edge', outline)];
    }
    return [rings('wide-edge', outline, ...openings), rings('wide-edge-core', outline, ...openings)];
  }

  #cracks(placement: Placement): Line[] {
    return weakPlaces(placement, this.#look.findings ?? []);
  }

  /** How large a hole is drawn, with its cross, mm. */
  #hole(): number {
    return (this.#look.drill ?? 0) + 2 * HOLE_CROSS;
  }

  #plan(placement: Placement, { key, box }: Lie, cracks: readonly Line[]): LabelPlan {
    const known = this.#plans.get(key);
    if (known !== undefined) return known;
    // Cracks, hole and number are no part of the key: they follow from the kind of part, and one drawer has one look.
    const plan = labelPlan(
      placement,
      this.numberOf(placement),
      spaceInside(placement, cracks, this.#hole()),
      box,
    );
    this.#plans.set(key, plan);
    return plan;
  }

  #openingMarks(
    placement: Placement,
    all: readonly Placement[],
    planned: boolean,
    { key, box }: Lie,
  ): readonly Mark[] {
    if (placement.region.openings.length === 0) return [];
    const draw = () =>
      planned ? hatchedOpenings(placement, all) : openingMarks(placement, all, this.#look.drill);
    // With other parts in its openings, no copy is like another.
    if (nestedIn(placement, all).length > 0) return draw();
    const kind = `${planned} ${key}`;
    const first = this.#openings.get(kind) ?? { marks: draw(), corner: box };
    this.#openings.set(kind, first);
    return moveMarks(first.marks, box.minX - first.corner.minX, box.minY - first.corner.minY);
  }
}

/** The key is equal for copies of one part that lie the same way and whose labels are equally long. */
function lieOf(placement: Placement): Lie {
  const box = regionBounds(placement.region);
  const { layer, part, rotation, turnedOver, set, region } = placement;
  const size = [box.maxX - box.minX, box.maxY - box.minY].map((side) => side.toFixed(2));
  const key = [layer, part, rotation, turnedOver, `${set}`.length, region.outline.length, size];
  return { key: JSON.stringify(key), box };
}

/**
 * Looks for room: for the label with its arrow, for each alone, and for the end of a leader.
 *
 * @param space free in the part; what is found is taken from it
 * @param corner the box of the part: the plan is told from its upper left corner
 */
function labelPlan(
  placement: Placement,
  number: number | undefined,
  space: FreeSpace,
  corner: Box,
): LabelPlan {
  const target = widestPlace(placement);
  const from = moveBox({ minX: -corner.minX, minY: -corner.minY });
  const label = firstThatFits(placement, number, space, target);
  if (label !== undefined) space.takeBox(label.box);
  const arrow = label?.arrow ? undefined : placeInside(arrowBlock(), space, target);
  if (arrow !== undefined) space.takeBox(arrow);
  const spot = space.nearest({ width: ANCHOR_ROOM, height: ANCHOR_ROOM }, target);
  const anchor = spot === undefined ? target : middleOf(spot);
  return {
    label: label && { rank: label.rank, box: from(label.box) },
    arrow: arrow && from(arrow),
    anchor: [anchor[0] - corner.minX, anchor[1] - corner.minY],
  };
}

function firstThatFits(
  placement: Placement,
  number: number | undefined,
  space: FreeSpace,
  target: Point,
): { rank: number; box: Box; arrow: boolean } | undefined {
  for (let rank = 0; rank < LABEL_SETTINGS; rank++) {
    const block = labelBlock(placement, number, rank);
    const box = placeInside(block, space, target);
    if (box !== undefined) return { rank, box, arrow: block.arrow };
  }
  return undefined;
}

function moveBox({ minX, minY }: Pick<Box, 'minX' | 'minY'>): (box: Box) => Box {
  return (box) => movedBox(box, minX, minY);
}

/** A vein is thin and ends in diamonds: where the saw has to stop matters. */
function veinMarks(vein: Placement['veins'][number]): Mark[] {
  const ends = [vein[0], vein[vein.length - 1]];
  // Not spread into a call: a vein may have more points than a call takes arguments.
  return [
    { kind: 'line', role: 'vein', points: vein },
    rings('vein-end', ...ends.map((end) => diamond(end, VEIN_END))),
  ];
}

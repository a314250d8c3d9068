import { rings } from '../geometry/point-checks.ts';
import type { Region } from '../geometry/shapes.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue, IssuePlace } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { layoutForm } from '../model/layout-checks.ts';
import { partKey } from '../model/same-part.ts';
import { USUAL_CROSSCUT_KERF } from '../stock/keep-rule.ts';
import { batchForm, checkAsBatched } from './verify/as-batched.ts';
import { checkBoardFeet } from './verify/board-feet.ts';
import { checkBoardFields } from './verify/board-fields.ts';
import { checkBoardUses } from './verify/board-uses.ts';
import { checkFigures, checkNames } from './verify/counts.ts';
import { checkDistances, checkInside, type LeastDistances } from './verify/distances.ts';
import { halfCutOf } from './verify/freed.ts';
import { checkKept } from './verify/keeper-left-out.ts';
import { breach, type MeasuredPlacement, placeOf } from './verify/places.ts';
import { type ReferenceRegion, referenceRegion } from './verify/reference-geometry.ts';
import { checkRemains } from './verify/remains.ts';
import { checkRules, checkSection } from './verify/rules.ts';
import { checkSets } from './verify/sets.ts';
import { checkShape, checkVeins, type Drawn } from './verify/shape.ts';
import { checkTogether } from './verify/together.ts';
import { checkValues } from './verify/values.ts';

/**
 * The independent check of a layout: it reads only the layout file and measures with a reference geometry library
 * that the search never uses. Comparisons are written so that a measure that failed (NaN) is a breach.
 */

/** What the verifier found. */
export interface Verification {
  /** True when there is no breach. */
  readonly ok: boolean;
  /**
   * Least distance found between two placements, mm; negative when they overlap; undefined when no two are
   * within 2 mm more than the distance asked for.
   */
  readonly leastDistance: number | undefined;
  /** Least distance found from a placement to the edge of the usable board or a defect, mm. */
  readonly leastEdgeDistance: number | undefined;
  /** Number of pairs of placements whose distance was measured. */
  readonly pairsMeasured: number;
  /** Every breach, none left out; where a number or a word of the layout is none, all such values and nothing else. */
  readonly breaches: readonly Issue[];
}

/**
 * Checks a layout: every two placements at least kerf + clearance apart (a part inside another's opening too),
 * every placement inside the usable board by the edge margin and off every defect, every placement the drawn part
 * moved, rotation, turning over and rest edge as the rules ask, sections kept, no board of the stock used twice, sets
 * complete as claimed, figures true, what may be used within the outline of the board, keepers on the board and clear of
 * the parts and of the cuts that free them, areas that make the board.
 *
 * With the batch it also checks what a layout alone cannot tell: that settings, parts, rules, pins and boards are those of the
 * batch, that what is sawn turns in the saw, and that neither a straight cut nor a keeper is told as scrap.
 *
 * Values that cannot be are breaches, and nothing is measured before they are mended.
 *
 * @param batch the one that was laid out, with the boards bought for it
 * @throws FretlayError for what is not built as a layout or a batch is
 */
export function verifyLayout(layout: Layout, batch?: Batch): Verification {
  throwOnErrors([...layoutForm('layout', layout), ...(batch === undefined ? [] : batchForm('batch', batch))]);
  const breaches: Issue[] = [];
  const measured: MeasuredPlacement[] = [];
  const usableArea = new Map<LaidBoard, number>();
  const drawn = new Map<string, Drawn>();
  const least: LeastDistances = {
    distance: Number.POSITIVE_INFINITY,
    edge: Number.POSITIVE_INFINITY,
    pairs: 0,
  };
  // Distances from a kerf that is no number would pass, or fail, by what the language makes of it.
  if (!checkValues(layout, breaches)) return verificationOf(breaches, least);
  checkNames(layout, breaches);
  checkBoardFields(layout, breaches);
  checkBoardUses(layout, breaches);
  const { kerf, edgeMargin: margin } = layout;
  if (batch !== undefined) checkAsBatched(layout, batch, breaches);
  for (const demand of batch?.demands ?? []) drawn.set(partKey(demand), demand);
  const crosscutKerf = batch && (batch.crosscutKerf ?? USUAL_CROSSCUT_KERF);
  const halfCut = crosscutKerf === undefined ? halfCutOf(layout) : crosscutKerf / 2;
  for (const board of layout.boards) {
    const usable = checkedRegion(board.usable, 'the usable board', { board: board.id }, breaches);
    usableArea.set(board, usable?.area ?? Number.NaN);
    const pieces: MeasuredPlacement[] = [];
    for (const placement of board.placements) {
      const where = placeOf({ board, placement });
      const region = checkedRegion(placement.region, 'the part', where, breaches);
      if (region === undefined || usable === undefined) continue;
      const piece = { board, placement, region };
      pieces.push(piece);
      measured.push(piece);
      least.edge = Math.min(least.edge, checkInside(layout, piece, usable, breaches));
      checkRules(layout, piece, breaches);
      checkSection(layout, piece, breaches);
      checkShape(drawn, layout.setContents, piece, breaches);
      checkVeins(piece, breaches);
    }
    checkDistances(layout, pieces, least, breaches);
    if (usable === undefined) continue;
    checkRemains({ board, usable, kerf, margin, halfCut, crosscutKerf }, pieces, breaches);
    // Of what could not be measured nobody knows what it leaves.
    if (batch !== undefined && pieces.length === board.placements.length) checkKept(board, batch, breaches);
  }
  checkSets(layout, breaches);
  checkTogether(layout, breaches);
  checkFigures(layout, measured, usableArea, breaches);
  checkBoardFeet(layout, breaches);
  return verificationOf(breaches, least);
}

function verificationOf(breaches: readonly Issue[], least: LeastDistances): Verification {
  return {
    ok: breaches.length === 0,
    leastDistance: finite(least.distance),
    leastEdgeDistance: finite(least.edge),
    pairsMeasured: least.pairs,
    breaches,
  };
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}

function checkedRegion(
  region: Region,
  what: string,
  where: IssuePlace,
  breaches: Issue[],
): ReferenceRegion | undefined {
  // The reference library is handed only what it can hold: it throws over a coordinate that is no number.
  const [unfit] = rings('region', region);
  const checked = unfit === undefined ? referenceRegion(region) : undefined;
  if (checked !== undefined && checked.fault === undefined) return checked;
  const fault = checked?.fault ?? `${unfit.where?.field} is ${unfit.received}, not ${unfit.expected}`;
  breaches.push(breach('invalid-region', `${what} is not a valid region: ${fault}`, where));
  return undefined;
}

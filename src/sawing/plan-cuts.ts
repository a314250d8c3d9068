import { place } from '../geometry/point-checks.ts';
import { lineLength } from '../geometry/ring.ts';
import { both, type Check, flag, listOf, number, optional, record, text, that } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { LENGTH, SOME_LENGTH } from '../issues/number-issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { Blade, BladeUse, BoardPlan, CutPlan, Range, SawnPart } from '../model/cut-plan.ts';
import type { Layout } from '../model/layout.ts';
import { laidBoardsCheck } from '../model/layout-checks.ts';
import { range } from '../model/plan-checks.ts';
import { partKey } from '../model/same-part.ts';
import { speciesKey } from '../model/same-wood.ts';
import { USUAL_HOLD_SIZE } from '../model/usual-settings.ts';
import { COMMON_BLADES } from './blades.ts';
import { cautionsFor } from './cautions.ts';
import { type PlannedBoard, planBoard } from './plan-board.ts';
import { hangingIssues, planIssues } from './plan-issues.ts';
import { bladesWorn, COMMON_PACE } from './time/blade-life.ts';
import { veinHoleIssues } from './vein-hole-issues.ts';
import { hardnessOf } from './wood-facts.ts';

/** How cuts are planned. Lengths in mm. */
export interface PlanCutsOptions {
  /** The maker's blades (default: the common ones by number). */
  readonly blades?: readonly Blade[] | undefined;
  /** Depth of the saw's throat: where a section does not turn in it, strong parts are freed before their openings. */
  readonly throat?: number | undefined;
  /** What the check of the pattern found in each kind of part, as `sawnParts` tells it. */
  readonly parts?: readonly SawnPart[] | undefined;
  /** Parts smaller than this both ways are hard to hold (default 50.8: 2 in, common practice, no source). */
  readonly holdSize?: number | undefined;
  /** Length of the tab left to hold a small part until the last, mm; none when left out: small parts are sawn last. */
  readonly tab?: number | undefined;
  /** Minutes for a metre in 19.05 mm wood of 1000 lbf, for the wear of blades. */
  readonly pace?: Range | undefined;
}

const blade = recordByHand(
  {
    name: text('Name the blade.'),
    width: number(SOME_LENGTH),
    thickness: number(SOME_LENGTH),
    teethPerInch: number({ least: 0, most: 1000, above: true }),
    hole: number(SOME_LENGTH),
    kerf: number(SOME_LENGTH),
    kerfMeasured: flag(),
    upTo: number(SOME_LENGTH),
  },
  'See `Blade`, and `COMMON_BLADES` for examples.',
);

const blades = both(
  that((value) => Array.isArray(value) && value.length > 0, 'a list of one blade or more'),
  listOf(blade),
);

/** In a list JSON writes null for what is undefined. */
const bend: Check = (field, value) => (value === null ? [] : optional(number(LENGTH))(field, value));

const optionsCheck = recordByHand({
  blades: optional(blades),
  throat: optional(number(SOME_LENGTH)),
  parts: optional(
    listOf(
      record({
        layer: text(),
        part: text(),
        sharpTurns: number({ least: 0, most: 1e9 }),
        thinnestNeck: optional(number(LENGTH)),
        neckAt: optional(place),
        tightestBends: listOf(bend),
      }),
      'Hand in what `sawnParts` makes of the pattern and its check, or leave it out.',
    ),
  ),
  holdSize: optional(number(LENGTH)),
  tab: optional(number(LENGTH)),
  pace: optional(range),
});

/**
 * Every cut of every board that carries something, in an order with its reasons: sections, holes, openings, veins,
 * outlines, with the blade for each. Edges that lie on the edge of the board are not sawn and not counted; what is
 * sawn through waste to get to a cut is counted apart.
 *
 * @throws FretlayError for what is no layout, and for options that make no sense
 */
export function planCuts(layout: Layout, options: PlanCutsOptions = {}): CutPlan {
  throwOnErrors([...laidBoardsCheck('layout', layout), ...optionsCheck('options', options)]);
  const blades = [...(options.blades ?? COMMON_BLADES)].sort((a, b) => a.width - b.width);
  const facts = new Map((options.parts ?? []).map((part) => [partKey(part), part]));
  const used = layout.boards.filter(carriesParts);
  const planned = used.map((board) =>
    planBoard(board, {
      blades,
      hardness: hardnessOf(board.species),
      throat: options.throat,
      holdSize: options.holdSize ?? USUAL_HOLD_SIZE,
      tab: options.tab,
      kerf: layout.kerf,
      facts: (layer, part) => facts.get(partKey({ layer, part })),
    }),
  );
  const boards = planned.map(({ plan }) => plan);
  const all = (measure: (plan: BoardPlan) => number) =>
    boards.reduce((sum, plan) => sum + plan.copies * measure(plan), 0);
  const uses = bladeUses(planned, blades, options.pace ?? COMMON_PACE);
  const plan: Omit<CutPlan, 'cautions'> = {
    boards,
    blades: uses,
    ...bladeChanges(boards),
    tab: options.tab,
    cutLength: all(({ cutLength }) => cutLength),
    leadInLength: all(({ leadInLength }) => leadInLength),
    sharedEdges: all(({ sharedEdges }) => sharedEdges),
    travel: all(({ travel }) => travel),
    travelLeftToRight: all(({ travelLeftToRight }) => travelLeftToRight),
    holes: all(({ holes }) => holes.length),
    threadings: all(({ cuts }) => cuts.filter(({ entry }) => entry === 'hole').length),
    sharpTurns: all(({ sharpTurns }) => sharpTurns),
    issues: [...planIssues(layout, boards, uses), ...hangingIssues(planned), ...veinHoleIssues(used, boards)],
  };
  return { ...plan, cautions: cautionsFor(plan) };
}

/**
 * Why a blade was taken: the first reason of each wood, and in which woods where the reasons differ, for a blade that is
 * fine for one may be the usual one for another. Undefined when nothing is sawn with it.
 */
function whyTaken(planned: readonly PlannedBoard[], blade: Blade): string | undefined {
  const woods = new Map<string, { species: string; thickness: string; why: string }>();
  for (const { plan, chosen } of planned) {
    const why = chosen.find((choice) => choice.blade === blade)?.why;
    const species = plan.species.trim();
    const thickness = plan.thickness.toFixed(2);
    const wood = `${speciesKey(species)} ${thickness}`;
    if (why !== undefined && !woods.has(wood)) woods.set(wood, { species, thickness, why });
  }
  const all = [...woods.values()];
  const reasons = [...new Set(all.map(({ why }) => why))];
  if (reasons.length <= 1) return reasons[0];
  const needsThickness = new Set(all.map(({ species }) => speciesKey(species))).size < all.length;
  const nameOf = ({ species, thickness }: (typeof all)[number]) =>
    needsThickness ? `${species} of ${thickness} mm` : species;
  const inWoods = reasons.map((reason) => {
    const names = all.filter(({ why }) => why === reason).map(nameOf);
    return `${names.join(', ')}: ${reason}`;
  });
  return inWoods.join('. ');
}

/** What each blade saws, why it was chosen, and how many wear out. */
function bladeUses(planned: readonly PlannedBoard[], blades: readonly Blade[], pace: Range): BladeUse[] {
  return blades.flatMap((blade) => {
    const why = whyTaken(planned, blade);
    if (why === undefined) return [];
    const worn = { low: 0, likely: 0, high: 0 };
    let sawn = 0;
    for (const { plan } of planned) {
      const own = plan.cuts.filter((cut) => cut.blade === blade.name);
      const length =
        plan.copies * own.reduce((sum, { length, leadIn }) => sum + length + lineLength(leadIn), 0);
      const { low, likely, high } = bladesWorn(length, plan.thickness, hardnessOf(plan.species), pace);
      worn.low += low;
      worn.likely += likely;
      worn.high += high;
      sawn += length;
    }
    return [{ blade, why, sawn, worn }];
  });
}

/**
 * Changes of blade board by board, and when all boards of one wood are sawn with one blade before the next is
 * fitted. The first blade of all is a change too.
 */
function bladeChanges(boards: readonly BoardPlan[]): Pick<CutPlan, 'bladeChanges' | 'bladeChangesGrouped'> {
  let fitted = '';
  let changes = 0;
  const mount = (name: string) => {
    if (name !== fitted) changes++;
    fitted = name;
  };
  for (const { cuts, copies } of boards)
    for (let time = 0; time < copies; time++) for (const { blade } of cuts) mount(blade);
  const bladeChanges = changes;
  [fitted, changes] = ['', 0];
  for (const runs of runsByWood(boards).values()) for (const name of runs) mount(name);
  return { bladeChanges, bladeChangesGrouped: changes };
}

/** For each wood the longest sequence of blades any of its boards goes through: the others fit into it as they can. */
function runsByWood(boards: readonly BoardPlan[]): Map<string, string[]> {
  const runs = new Map<string, string[]>();
  for (const { species, thickness, cuts } of boards) {
    const own = cuts.map(({ blade }) => blade).filter((blade, i, all) => blade !== all[i - 1]);
    const key = `${speciesKey(species)} ${thickness}`;
    const merged = runs.get(key) ?? [];
    // Where the blades behind the one before begin: a new one comes before all that is sawn after it.
    let at = 0;
    for (const name of own) {
      const found = merged.indexOf(name, at);
      if (found < 0) merged.splice(at, 0, name);
      at = Math.max(at, found) + 1;
    }
    runs.set(key, merged);
  }
  return runs;
}

import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Layout, Placement, Totals } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { sameSpecies } from '../../model/same-wood.ts';
import { breach, type MeasuredPlacement, wrongFigure } from './places.ts';
import { FIGURE_TOLERANCE } from './tolerances.ts';

/** Checks that boards, keepers and parts have names of their own. */
export function checkNames(layout: Layout, breaches: Issue[]): void {
  const refuse = (field: string, received: string, expected: string) =>
    breaches.push(
      breach('setting-invalid', 'the layout states what cannot be', { field }, { expected, received }),
    );
  layout.boards.forEach(({ id }, i) => {
    if (layout.boards.findIndex((board) => board.id === id) !== i)
      refuse(`boards[${i}].id`, id, 'an id of its own');
  });
  const taken = new Set(layout.boards.map(({ id }) => id));
  layout.boards.forEach(({ offcuts = [] }, i) => {
    offcuts.forEach(({ id }, k) => {
      if (taken.has(id)) refuse(`boards[${i}].offcuts[${k}].id`, id, 'an id of its own');
      taken.add(id);
    });
  });
  layout.setContents.forEach((content, i) => {
    if (layout.setContents.findIndex((each) => isSamePart(each, content)) !== i) {
      refuse(`setContents[${i}]`, `${content.layer}, ${content.part}`, 'each part once');
    }
  });
}

/** Compares the stated figures, of the layout and of every species, with what the placements measure. */
export function checkFigures(
  layout: Layout,
  measured: readonly MeasuredPlacement[],
  usableArea: ReadonlyMap<LaidBoard, number>,
  breaches: Issue[],
): void {
  compareTotals('', totalsOf(measured, usableArea), layout.figures, breaches);
  const stated = Object.entries(layout.figures.bySpecies);
  const isStated = (species: string) => stated.some(([name]) => sameSpecies(name, species));
  stated.forEach(([name, totals], i) => {
    if (stated.findIndex(([other]) => sameSpecies(other, name)) !== i)
      breaches.push(
        breach('figure-wrong', 'a species has its figures twice', { field: `figures.bySpecies.${name}` }),
      );
    // Boards of one wood may be written in two ways.
    const own = measured.filter(({ board }) => sameSpecies(board.species, name));
    compareTotals(`bySpecies.${name}.`, totalsOf(own, usableArea), totals, breaches);
  });
  for (const species of new Set(measured.map(({ board }) => board.species)))
    if (!isStated(species))
      breaches.push(
        breach('figure-wrong', 'a species has no figures', { field: `figures.bySpecies.${species}` }),
      );
}

/** The totals that a layout tells by itself: board feet go by the stock, which it does not carry. */
type MeasuredTotals = Omit<Totals, 'boardFeet'>;

/** Totals as the reference library measures them: on purpose not by the functions that stated them. */
function totalsOf(
  measured: readonly MeasuredPlacement[],
  usableArea: ReadonlyMap<LaidBoard, number>,
): MeasuredTotals {
  const boards = [...new Set(measured.map(({ board }) => board))];
  const sum = <T>(all: readonly T[], value: (each: T) => number) =>
    all.reduce((total, each) => total + value(each), 0);
  const partArea = sum(measured, ({ board, region }) => board.copies * region.area);
  const boardArea = sum(boards, (board) => board.copies * (usableArea.get(board) ?? 0));
  return {
    boards: sum(boards, ({ copies }) => copies),
    parts: sum(measured, ({ board }) => board.copies),
    partArea,
    boardArea,
    yield: boardArea > 0 ? partArea / boardArea : 0,
    cutLength: sum(
      measured,
      ({ board, placement, region }) => board.copies * (region.boundaryLength + veinLength(placement)),
    ),
    openings: sum(measured, ({ board, placement }) => board.copies * placement.region.openings.length),
  };
}

function veinLength({ veins }: Placement): number {
  let length = 0;
  for (const vein of veins) {
    for (let i = 1; i < vein.length; i++)
      length += Math.hypot(vein[i][0] - vein[i - 1][0], vein[i][1] - vein[i - 1][1]);
  }
  return length;
}

function compareTotals(prefix: string, found: MeasuredTotals, stated: Totals, breaches: Issue[]): void {
  for (const name of Object.keys(found) as (keyof MeasuredTotals)[])
    if (!(Math.abs(found[name] - stated[name]) <= toleranceOf(name, found[name])))
      breaches.push(wrongFigure({ field: `figures.${prefix}${name}` }, found[name], stated[name]));
}

/** How far a stated figure may be off: counts not at all, sizes by their rounding. */
function toleranceOf(name: keyof MeasuredTotals, value: number): number {
  if (name === 'boards' || name === 'parts' || name === 'openings') return 0;
  return name === 'yield' ? FIGURE_TOLERANCE : FIGURE_TOLERANCE * value;
}

import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Layout, Placement, SetContent, Totals } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { breach } from './places.ts';
import type { ReferenceRegion } from './reference-geometry.ts';
import { FIGURE_TOLERANCE } from './tolerances.ts';

/** Checks that the layout's own numbers make sense: distances, counts, names that have to differ. */
export function checkSettings(layout: Layout, breaches: Issue[]): void {
  const refuse = (field: string, received: unknown, expected: string) =>
    breaches.push(
      breach(
        'setting-invalid',
        'the layout states what cannot be',
        { field },
        { expected, received: `${received}` },
      ),
    );
  for (const field of ['kerf', 'clearance', 'edgeMargin'] as const) {
    if (!(layout[field] >= 0 && layout[field] < Number.POSITIVE_INFINITY))
      refuse(field, layout[field], 'a length of 0 mm or more');
  }
  if (!isCount(layout.sets)) refuse('sets', layout.sets, 'a whole number');
  layout.boards.forEach(({ id, copies }, i) => {
    if (layout.boards.findIndex((board) => board.id === id) !== i)
      refuse(`boards[${i}].id`, id, 'an id of its own');
    if (!(isCount(copies) && copies > 0))
      refuse(`boards[${i}].copies`, copies, 'a whole number of 1 or more');
  });
  layout.setContents.forEach((content, i) => {
    if (layout.setContents.findIndex((each) => isSamePart(each, content)) !== i) {
      refuse(`setContents[${i}]`, `${content.layer}, ${content.part}`, 'each part once');
    }
    if (!(isCount(content.copiesPerSet) && content.copiesPerSet > 0)) {
      refuse(`setContents[${i}].copiesPerSet`, content.copiesPerSet, 'a whole number of 1 or more');
    }
  });
}

function isCount(value: number): boolean {
  return Number.isInteger(value) && value >= 0;
}

/** Counts the copies of every part: placed and unplaced together make the sets asked for, no set has too many. */
export function checkSets(layout: Layout, breaches: Issue[]): void {
  let completeSets = layout.sets;
  for (const content of layout.setContents) {
    const { part, layer, copiesPerSet } = content;
    const placed = layout.boards.reduce(
      (count, board) =>
        count + board.copies * board.placements.filter((each) => isSamePart(each, content)).length,
      0,
    );
    const unplaced = layout.unplaced.filter((each) => isSamePart(each, content)).length;
    completeSets = Math.min(completeSets, Math.floor(placed / copiesPerSet));
    if (placed + unplaced < copiesPerSet * layout.sets) {
      breaches.push(
        breach(
          'copies-missing',
          'copies are neither placed nor listed as unplaced',
          { layer, part },
          {
            expected: `${copiesPerSet * layout.sets}`,
            received: `${placed} placed and ${unplaced} unplaced`,
          },
        ),
      );
    }
    checkSetNumbers(layout, content, breaches);
  }
  compare('completeSets', completeSets, layout.figures.completeSets, 0, breaches);
}

/** A set number is between 1 and the sets asked for, and no set has more copies than it needs. */
function checkSetNumbers(layout: Layout, content: SetContent, breaches: Issue[]): void {
  const counts = new Map<number, number>();
  for (const { copies, placements } of layout.boards) {
    for (const placement of placements) {
      if (!isSamePart(placement, content)) continue;
      // In a stack one placement stands for copies in several sets: its number is that of the first.
      counts.set(placement.set, (counts.get(placement.set) ?? 0) + (copies === 1 ? 1 : 0));
    }
  }
  for (const [set, count] of counts) {
    const isKnown = Number.isInteger(set) && set >= 1 && set <= layout.sets;
    if (isKnown && count <= content.copiesPerSet) continue;
    breaches.push(
      breach(
        'set-miscounted',
        'a set does not exist, or has more copies of a part than it needs',
        { layer: content.layer, part: `${content.part}, set ${set}` },
        {
          expected: `sets 1 to ${layout.sets}, ${content.copiesPerSet} in each`,
          received: `${count} in set ${set}`,
        },
      ),
    );
  }
}

/** A placement whose region could be measured. */
export interface MeasuredPlacement {
  readonly board: LaidBoard;
  readonly placement: Placement;
  readonly region: ReferenceRegion;
}

/** Compares the stated figures, of the layout and of every species, with what the placements measure. */
export function checkFigures(
  layout: Layout,
  measured: readonly MeasuredPlacement[],
  usableArea: ReadonlyMap<LaidBoard, number>,
  breaches: Issue[],
): void {
  compareTotals('', layout.figures, measured, usableArea, breaches);
  const { bySpecies } = layout.figures;
  for (const species of new Set([...Object.keys(bySpecies), ...measured.map(({ board }) => board.species)])) {
    if (!Object.hasOwn(bySpecies, species)) {
      breaches.push(
        breach('figure-wrong', 'a species has no figures', { field: `figures.bySpecies.${species}` }),
      );
      continue;
    }
    const own = measured.filter(({ board }) => board.species === species);
    compareTotals(`bySpecies.${species}.`, bySpecies[species], own, usableArea, breaches);
  }
}

function compareTotals(
  prefix: string,
  stated: Totals,
  measured: readonly MeasuredPlacement[],
  usableArea: ReadonlyMap<LaidBoard, number>,
  breaches: Issue[],
): void {
  const boards = [...new Set(measured.map(({ board }) => board))];
  const sum = <T>(all: readonly T[], value: (each: T) => number) =>
    all.reduce((total, each) => total + value(each), 0);
  const partArea = sum(measured, ({ board, region }) => board.copies * region.area);
  const boardArea = sum(boards, (board) => board.copies * (usableArea.get(board) ?? 0));
  const cutLength = sum(
    measured,
    ({ board, placement, region }) => board.copies * (region.boundaryLength + veinLength(placement)),
  );
  const near = (value: number) => FIGURE_TOLERANCE * value;
  compare(
    `${prefix}boards`,
    sum(boards, ({ copies }) => copies),
    stated.boards,
    0,
    breaches,
  );
  compare(
    `${prefix}parts`,
    sum(measured, ({ board }) => board.copies),
    stated.parts,
    0,
    breaches,
  );
  compare(`${prefix}partArea`, partArea, stated.partArea, near(partArea), breaches);
  compare(`${prefix}boardArea`, boardArea, stated.boardArea, near(boardArea), breaches);
  compare(
    `${prefix}yield`,
    boardArea > 0 ? partArea / boardArea : 0,
    stated.yield,
    FIGURE_TOLERANCE,
    breaches,
  );
  compare(`${prefix}cutLength`, cutLength, stated.cutLength, near(cutLength), breaches);
  const openings = sum(measured, ({ board, placement }) => board.copies * placement.region.openings.length);
  compare(`${prefix}openings`, openings, stated.openings, 0, breaches);
}

function veinLength({ veins }: Placement): number {
  let length = 0;
  for (const vein of veins) {
    for (let i = 1; i < vein.length; i++)
      length += Math.hypot(vein[i][0] - vein[i - 1][0], vein[i][1] - vein[i - 1][1]);
  }
  return length;
}

function compare(name: string, found: number, stated: number, tolerance: number, breaches: Issue[]): void {
  if (Math.abs(found - stated) <= tolerance) return;
  breaches.push(
    breach(
      'figure-wrong',
      'the layout states a wrong figure',
      { field: `figures.${name}` },
      { expected: `${found}`, received: `${stated}` },
    ),
  );
}

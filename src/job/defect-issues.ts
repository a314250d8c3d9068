import { combineRegions } from '../geometry/clipper.ts';
import { regionArea, regionBounds } from '../geometry/ring.ts';
import { type Box, boundsOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import { USUAL_KEEP } from '../stock/keep-rule.ts';
import { trimmedOutline } from '../stock/trim.ts';
import { boardFromEntry } from './board-from-entry.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';

/**
 * A warning for every board that its defects part, where a piece is left aside that is worth keeping: boards are laid out on
 * their largest piece.
 */
export function partedIssues(entries: readonly JobBoard[], file: string, field: string): Issue[] {
  return entries.flatMap((entry, i): Issue[] => {
    if (entry.drawing !== undefined || entry.defects.length === 0) return [];
    const board = boardFromEntry(entry);
    const { outline } = trimmedOutline(board);
    if (outline.length === 0) return [];
    const defects = board.defects.map((defect) => ({ outline: defect, openings: [] }));
    const pieces = combineRegions('difference', [{ outline, openings: [] }], defects).sort(
      (a, b) => regionArea(b) - regionArea(a),
    );
    const aside = pieces
      .slice(1)
      .map(regionBounds)
      .filter(
        ({ minX, minY, maxX, maxY }) => maxX - minX >= USUAL_KEEP.length && maxY - minY >= USUAL_KEEP.width,
      );
    if (aside.length === 0) return [];
    return [
      {
        kind: 'board-parted',
        severity: 'warning',
        message: `defects part "${entry.id}": parts are laid out on ${place(regionBounds(pieces[0]))}, and nothing on ${aside.map(place).join(' and ')}`,
        remedy: 'Saw it in two there, and enter each piece as a board of its own.',
        where: { file, field: entryField(field, entries, i), board: entry.id },
      },
    ];
  });
}

function place({ minX, minY, maxX, maxY }: Box): string {
  return `${span(minX, maxX)} along it, ${span(minY, maxY)} across`;
}

/** A defect no larger than this either way, mm, is none that is entered: most likely inches without their unit. */
const SPECK = 2;

/**
 * A warning for every defect that lies off its board, or is a speck: measured from another corner or in another unit, it
 * would leave the true knot under a part.
 *
 * @param entries boards with their outlines; those whose drawing could not be read are passed over
 * @param field name of the list in messages
 */
export function defectIssues(entries: readonly JobBoard[], file: string, field: string): Issue[] {
  return entries.flatMap((entry, i) => {
    if (entry.drawing !== undefined || entry.defects.length === 0) return [];
    const { outline, defects } = boardFromEntry(entry);
    const wood = [{ outline, openings: [] }];
    return defects.flatMap((defect, k): Issue[] => {
      const at = boundsOf(defect);
      const where = {
        file,
        field: `${entryField(field, entries, i)}.defects[${k}]`,
        board: entry.id,
      };
      if (combineRegions('intersection', wood, [{ outline: defect, openings: [] }]).length > 0)
        return speckIssues(at, where);
      const board = boundsOf(outline);
      return [
        {
          kind: 'defect-off-board',
          severity: 'warning',
          message: `a defect of "${entry.id}" lies off the board, so nothing keeps clear of it`,
          expected: `a place on the board, ${span(board.minX, board.maxX)} along it and ${span(board.minY, board.maxY)} across it`,
          received: `${span(at.minX, at.maxX)} along it and ${span(at.minY, at.maxY)} across it`,
          remedy: 'Measure along the board from its left end, and across it from its top edge.',
          where,
        },
      ];
    });
  });
}

function speckIssues({ minX, minY, maxX, maxY }: Box, where: Issue['where']): Issue[] {
  const size = Math.max(maxX - minX, maxY - minY);
  // The polygon that stands for a circle lies around it.
  if (size > 1.02 * SPECK) return [];
  return [
    {
      kind: 'size-unlikely',
      severity: 'warning',
      message: 'this defect is hardly larger than a point',
      expected: `more than ${SPECK} mm across`,
      // A number as it was read: turned into inches it would not be found in the job.
      received: `${Number(size.toFixed(1))} millimetres`,
      remedy:
        'A plain number is in millimetres: write the unit with it and with its place. If it is right, leave it.',
      where,
    },
  ];
}

function span(from: number, to: number): string {
  return `${Number(from.toFixed(1))} to ${Number(to.toFixed(1))} mm`;
}

import type { Issue, IssuePlace } from '../../issues/issue.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import type { ReferenceRegion } from './reference-geometry.ts';
import { ANGLE_TOLERANCE } from './tolerances.ts';

/** A placement whose region could be measured, with the board it lies on. */
export interface MeasuredPlacement {
  readonly board: LaidBoard;
  readonly placement: Placement;
  readonly region: ReferenceRegion;
}

/** A breach of a rule, as an issue. */
export function breach(
  kind: string,
  message: string,
  where: IssuePlace,
  facts: Pick<Issue, 'expected' | 'received'> = {},
): Issue {
  return { kind, severity: 'error', message, ...facts, where };
}

/** A number of the layout that is not what its parts measure, as an issue. */
export function wrongFigure(where: IssuePlace, found: number | string, stated: number): Issue {
  const facts = { expected: typeof found === 'number' ? told(found) : found, received: told(stated) };
  return breach('figure-wrong', 'the layout states a wrong figure', where, facts);
}

/** A measured number in words: to eight digits, by which all tell apart that differ by more than a tolerance. */
export function told(value: number): string {
  return `${Number(value.toPrecision(8))}`;
}

/** True for a placement that is not turned. */
export function isUpright({ rotation }: Placement): boolean {
  return Math.abs(rotation % 360) <= ANGLE_TOLERANCE;
}

/** What is told of a placement beside another one, in words. */
export function nameOf({ layer, part, set }: Placement): string {
  return `part "${part}" of layer "${layer}", set ${set}`;
}

/** Where a placement lies, in words. */
export function placeOf({ board, placement }: Pick<MeasuredPlacement, 'board' | 'placement'>): IssuePlace {
  return { board: board.id, layer: placement.layer, part: `${placement.part}, set ${placement.set}` };
}

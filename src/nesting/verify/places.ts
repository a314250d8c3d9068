import type { Issue, IssuePlace } from '../../issues/issue.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';

/** A breach of a rule, as an issue. */
export function breach(
  kind: string,
  message: string,
  where: IssuePlace,
  facts: Pick<Issue, 'expected' | 'received'> = {},
): Issue {
  return { kind, severity: 'error', message, ...facts, where };
}

/** Where a placement lies, in words. */
export function placeOf(board: Pick<LaidBoard, 'id'>, placement: Placement): IssuePlace {
  return { board: board.id, layer: placement.layer, part: `${placement.part}, set ${placement.set}` };
}

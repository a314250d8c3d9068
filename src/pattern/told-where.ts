import { FretlayError } from '../issues/fretlay-error.ts';
import type { IssuePlace } from '../issues/issue.ts';

/** What a step of the geometry gives; what stops it is told with the place in the drawing, which it does not know. */
export function toldWhere<T>(where: IssuePlace, step: () => T): T {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof FretlayError)) throw error;
    throw new FretlayError(error.issues.map((issue) => ({ ...issue, where: { ...where, ...issue.where } })));
  }
}

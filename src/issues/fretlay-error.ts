import { formatIssue, type Issue } from './issue.ts';

/** The one error class of fretlay: carries every issue that stopped the step, as data. */
export class FretlayError extends Error {
  override readonly name = 'FretlayError';
  /** All issues of the step, errors first as they were found. */
  readonly issues: readonly Issue[];

  constructor(issues: readonly Issue[]) {
    super(issues.map((issue) => formatIssue(issue)).join('\n'));
    this.issues = issues;
  }
}

/** Throws a {@link FretlayError} with all issues when at least one of them is an error. */
export function throwOnErrors(issues: readonly Issue[]): void {
  const errors = issues.filter((issue) => issue.severity === 'error');
  if (errors.length > 0) throw new FretlayError(errors);
}

import { formatIssue, type Issue } from './issue.ts';

/** The one error class of fretlay: carries every issue that stopped the step, as data. */
export class FretlayError extends Error {
  override readonly name = 'FretlayError';
  /** The issues of the step as it hands them over, in the order they were found; at least one is an error. */
  readonly issues: readonly Issue[];

  constructor(issues: readonly Issue[]) {
    super(issues.map((issue) => formatIssue(issue)).join('\n'));
    this.issues = issues;
  }
}

/** Throws a {@link FretlayError} with the errors among the issues, when there are any; the rest stays behind. */
export function throwOnErrors(issues: readonly Issue[]): void {
  const errors = issues.filter((issue) => issue.severity === 'error');
  if (errors.length > 0) throw new FretlayError(errors);
}

import type { Issue } from '../issues/issue.ts';
import type { Finding } from '../model/pattern-check.ts';

/** A finding of the pattern check as an issue, to stand beside those of the other steps. */
export function findingIssue(finding: Finding, file: string): Issue {
  const { kind, severity, message, advice, layer, part, at } = finding;
  return { kind, severity, message, remedy: advice, where: { file, layer, part, at } };
}

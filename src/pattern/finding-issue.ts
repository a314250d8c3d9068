import type { Issue } from '../issues/issue.ts';
import type { FindingGroup } from '../model/pattern-check.ts';

/** What the pattern check found as issues, to stand beside those of the other steps; the same thing is said once. */
export function findingIssue({ findings, parts, message, advice }: FindingGroup, file: string): Issue {
  const { kind, severity, layer, part, at } = findings[0];
  const where = findings.length === 1 ? { file, layer, part, at } : { file, layer, part: parts.join(', ') };
  return { kind, severity, message, remedy: advice, where };
}

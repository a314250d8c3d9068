import { words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { FindingGroup } from '../model/pattern-check.ts';
import { findingGroupCheck } from '../model/pattern-checks.ts';

/**
 * What the pattern check found as issues, to stand beside those of the other steps; the same thing is said once.
 *
 * @throws FretlayError for what is no group of findings
 */
export function findingIssue(group: FindingGroup, file: string): Issue {
  throwOnErrors([...findingGroupCheck('group', group), ...words('Name the drawing.')('file', file)]);
  const { findings, parts, message, advice } = group;
  const { kind, severity, layer, part, at } = findings[0];
  const where = findings.length === 1 ? { file, layer, part, at } : { file, layer, part: parts.join(', ') };
  return { kind, severity, message, remedy: advice, where };
}

import { firstFew } from './counted.ts';
import type { Issue } from './issue.ts';

/** An issue of one part of a layer. */
export interface PartIssue extends Issue {
  readonly where: { readonly layer: string; readonly part: string };
}

/** Parts that one line names. */
const MOST_NAMED = 12;

/** What is said of several parts of a layer in the same words is said once: of a flock of birds there would be a line for each. */
export function toldOnce(issues: readonly PartIssue[]): Issue[] {
  const alike = new Map<string, PartIssue[]>();
  for (const issue of issues) {
    const key = JSON.stringify({ ...issue, where: issue.where.layer });
    const known = alike.get(key);
    if (known === undefined) alike.set(key, [issue]);
    else known.push(issue);
  }
  return [...alike.values()].map((group) => {
    const [first] = group;
    if (group.length === 1) return first;
    const names = group.map(({ where }) => where.part);
    const message = `${group.length} parts, each: ${first.message}`;
    return { ...first, message, where: { layer: first.where.layer, part: firstFew(names, MOST_NAMED) } };
  });
}

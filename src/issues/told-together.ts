import { firstFew } from './counted.ts';
import type { Issue } from './issue.ts';

/** Up to so many elements are told one by one. */
const MOST_ALONE = 3;

/** At most so many lines are named: of thousands of elements they would fill the screen. */
const MOST_LINES = 40;

/**
 * What is said of many elements of a drawing in the same words, drawn together to one line for a person, at the place of the
 * first, with their lines: a label beside each of forty parts would bury what else there is to read.
 */
export function toldTogether(issues: readonly Issue[]): Issue[] {
  const alike = new Map<string, Issue[]>();
  issues.forEach((issue, i) => {
    const { element, line, column, ...place } = issue.where ?? {};
    // What has a place of its own on the page is looked for there, one by one.
    const isAlone = element === undefined || place.at !== undefined;
    const key = isAlone ? `${i}` : JSON.stringify({ ...issue, where: place });
    const known = alike.get(key);
    if (known === undefined) alike.set(key, [issue]);
    else known.push(issue);
  });
  return [...alike.values()].flatMap((group) => (group.length > MOST_ALONE ? [together(group)] : group));
}

function together(group: readonly Issue[]): Issue {
  const [{ where, ...first }, ...others] = group;
  const lines = new Set(others.flatMap(({ where }) => where?.line ?? []));
  lines.delete(where?.line ?? 0);
  const listed =
    lines.size === 0 ? '' : `, in ${lines.size === 1 ? 'line' : 'lines'} ${firstFew([...lines], MOST_LINES)}`;
  return { ...first, where: { ...where, element: `${where?.element} and ${others.length} more${listed}` } };
}

import type { Budget } from './budget.ts';
import type { Compound, Condition, Selector } from './css.ts';
import type { SvgElement } from './element.ts';

/** The tree that selectors are matched in. */
export interface MatchedTree {
  /** Root of a copy, around which nothing is seen; undefined for the document. */
  readonly root: SvgElement | undefined;
  readonly budget: Budget;
}

/**
 * True when the selector picks the element (Selectors Level 4); false as well when the budget is used up. Tests of
 * compounds are counted: each ` ` or `~` multiplies them by the depth of the document, so that a few dozen characters
 * could ask for more than a lifetime.
 */
export function selectorMatches(selector: Selector, element: SvgElement, tree: MatchedTree): boolean {
  return matchesFrom(selector.compounds, selector.compounds.length - 1, element, tree);
}

/** The compound at `index` matches the element, and all to its left match its relatives. */
function matchesFrom(
  compounds: readonly Compound[],
  index: number,
  element: SvgElement,
  tree: MatchedTree,
): boolean {
  if (--tree.budget.left < 0) return false;
  const { combinator, conditions } = compounds[index];
  for (const condition of conditions) if (!meets(condition, element, tree)) return false;
  if (index === 0) return true;
  for (
    let relative = nextRelative(element, combinator, tree);
    relative !== undefined;
    relative = combinator === ' ' || combinator === '~' ? nextRelative(relative, combinator, tree) : undefined
  ) {
    // Not the nearest that fits, but any: `a b c` may need the second b up for its a.
    if (matchesFrom(compounds, index - 1, relative, tree)) return true;
  }
  return false;
}

function nextRelative(
  element: SvgElement,
  combinator: Compound['combinator'],
  { root }: MatchedTree,
): SvgElement | undefined {
  if (element === root) return undefined;
  if (combinator === ' ' || combinator === '>') return element.parent;
  return element.parent?.children[element.position - 1];
}

function meets(condition: Condition, element: SvgElement, tree: MatchedTree): boolean {
  switch (condition.kind) {
    case 'type':
      return element.name === condition.name;
    case 'id':
      return element.attributes.get('id') === condition.name;
    case 'class':
      return element.classes.has(condition.name);
    case 'attribute':
      return attributeMatches(condition, element.attributes.get(condition.name));
    case 'root':
      return element.parent === undefined;
    case 'first-child':
      return isFirst(element, tree);
    case 'last-child':
      return isLast(element, tree);
    case 'only-child':
      return isFirst(element, tree) && isLast(element, tree);
    case 'not':
      return !condition.among.some((selector) => selectorMatches(selector, element, tree));
    case 'is':
      return condition.among.some((selector) => selectorMatches(selector, element, tree));
    case 'never':
      return false;
  }
}

function isFirst(element: SvgElement, { root }: MatchedTree): boolean {
  return element === root || element.position === 0;
}

function isLast(element: SvgElement, { root }: MatchedTree): boolean {
  return (
    element === root ||
    element.parent === undefined ||
    element.position === element.parent.children.length - 1
  );
}

function attributeMatches(
  { matcher, value, ignoreCase }: Extract<Condition, { kind: 'attribute' }>,
  found: string | undefined,
): boolean {
  if (found === undefined) return false;
  if (matcher === undefined) return true;
  const have = ignoreCase ? found.toLowerCase() : found;
  const want = ignoreCase ? value.toLowerCase() : value;
  switch (matcher) {
    case '=':
      return have === want;
    case '~=':
      return want !== '' && have.split(/\s+/).includes(want);
    case '|=':
      return have === want || have.startsWith(`${want}-`);
    case '^=':
      return want !== '' && have.startsWith(want);
    case '$=':
      return want !== '' && have.endsWith(want);
    default:
      return matcher === '*=' && want !== '' && have.includes(want);
  }
}

import type { Budget } from './budget.ts';
import {
  type Condition,
  type CssDeclaration,
  MOST_MISTAKES,
  mediaHold,
  readStyleSheet,
  type Selector,
} from './css.ts';
import { elementsInOrder, type SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';
import { selectorMatches } from './selector-match.ts';

/** Selector tests one document may ask for: a hundred thousand elements with fifty rules each. */
const MOST_SELECTOR_TESTS = 5_000_000;

/** Selector tests that carrying out the declarations of a rule is worth; of more declarations, one for each. */
const TESTS_PER_RULE = 4;

/** A rule under one of its selectors. */
interface SheetRule {
  readonly selector: Selector;
  readonly declarations: readonly CssDeclaration[];
  /** Place in all sheets together: of two rules of one weight the later wins. */
  readonly order: number;
}

/** The rules of all `<style>` elements of a document, found by what their last compound asks for. */
export class StyleSheets {
  private readonly byKey = new Map<string, SheetRule[]>();
  private readonly budget: Budget = { left: MOST_SELECTOR_TESTS };
  /** Shared by sheets and style attributes. */
  readonly mistakes: Budget = { left: MOST_MISTAKES };
  /** True where a selector asks for more than the element itself, such as what it lies in. */
  lookAround = false;
  private readonly log: IssueLog;

  constructor(root: SvgElement, log: IssueLog) {
    this.log = log;
    let order = 0;
    for (const element of elementsInOrder(root)) {
      if (element.name !== 'style' || !isCss(element)) continue;
      const { value: rules, problems } = readStyleSheet(element.text, this.mistakes);
      for (const problem of problems) log.warn('style-not-understood', problem, element);
      for (const { selectors, declarations } of rules) {
        for (const selector of selectors) this.file({ selector, declarations, order: order++ });
      }
    }
  }

  /** Declarations that pick the element, weakest first; in a copy by `use` whose root is `copied`, if one is. */
  declarationsFor(element: SvgElement, copied: SvgElement | undefined): readonly CssDeclaration[] {
    if (this.byKey.size === 0) return [];
    const found: SheetRule[] = [];
    this.gather('*', element, copied, found);
    this.gather(element.name, element, copied, found);
    for (const name of element.classes) this.gather(`.${name}`, element, copied, found);
    const id = element.attributes.get('id');
    if (id !== undefined) this.gather(`#${id}`, element, copied, found);
    for (const { declarations } of found) this.budget.left -= Math.max(TESTS_PER_RULE, declarations.length);
    if (this.budget.left < 0) {
      this.log.fail('style-too-costly', 'the style sheets take too much work to apply', element, {
        remedy: 'Save the drawing with its styles in the shapes themselves.',
      });
    }
    if (found.length > 1) {
      found.sort((a, b) => a.selector.specificity - b.selector.specificity || a.order - b.order);
    }
    return found.flatMap(({ declarations }) => declarations);
  }

  private gather(key: string, element: SvgElement, copied: SvgElement | undefined, into: SheetRule[]): void {
    for (const rule of this.byKey.get(key) ?? []) {
      if (selectorMatches(rule.selector, element, { root: copied, budget: this.budget })) into.push(rule);
    }
  }

  private file(rule: SheetRule): void {
    this.lookAround ||=
      rule.selector.compounds.length > 1 || rule.selector.compounds[0].conditions.some(looksAround);
    const key = keyOf(rule.selector);
    const rules = this.byKey.get(key);
    if (rules === undefined) this.byKey.set(key, [rule]);
    else rules.push(rule);
  }
}

/**
 * What an element must have for the selector to pick it: an id, else a class, else a type, else nothing. Rules are
 * filed under the rarest of these, so that an element is tried against the few rules that could mean it.
 */
function keyOf({ compounds }: Selector): string {
  const { conditions } = compounds[compounds.length - 1];
  let key = '*';
  for (const condition of conditions) {
    if (condition.kind === 'id') return `#${condition.name}`;
    if (condition.kind === 'class') key = `.${condition.name}`;
    else if (condition.kind === 'type' && key === '*') key = condition.name;
  }
  return key;
}

/** Conditions that an element meets or not by itself. */
const OF_ITSELF: ReadonlySet<Condition['kind']> = new Set(['type', 'id', 'class', 'attribute', 'never']);

function looksAround({ kind }: Condition): boolean {
  return !OF_ITSELF.has(kind);
}

function isCss(element: SvgElement): boolean {
  const type = element.attributes.get('type')?.trim().toLowerCase();
  const isText = type === undefined || type === '' || type === 'text/css';
  return isText && mediaHold(element.attributes.get('media') ?? '');
}

import {
  type CssNode,
  type Declaration,
  ident,
  lexer,
  parse,
  type Rule,
  type SelectorList,
  type StyleSheet,
} from 'css-tree';
import type { Budget } from './budget.ts';

/**
 * The only door to css-tree: style sheets and style attributes to plain declarations, selectors to plain data.
 * Nothing here knows SVG. Grammar: CSS Syntax Level 3; specificity: Selectors Level 4, section 17.
 */

/** One `property: value`. */
export interface CssDeclaration {
  readonly property: string;
  readonly value: string;
  readonly important: boolean;
}

/** One condition of a compound selector, such as `.leaf` or `[role="cut"]`. */
export type Condition =
  | { readonly kind: 'type' | 'id' | 'class'; readonly name: string }
  | {
      readonly kind: 'attribute';
      readonly name: string;
      readonly matcher: string | undefined;
      readonly value: string;
      readonly ignoreCase: boolean;
    }
  | { readonly kind: 'root' | 'first-child' | 'last-child' | 'only-child' | 'never' }
  | { readonly kind: 'not' | 'is'; readonly among: readonly Selector[] };

/** How one element of a selector is related to the one before it: any within, child, next, any after. */
const COMBINATORS = [' ', '>', '+', '~'] as const;

/** A compound selector and how it hangs on the one before it (to its left). */
export interface Compound {
  readonly combinator: (typeof COMBINATORS)[number];
  readonly conditions: readonly Condition[];
}

/** A selector, leftmost compound first. */
export interface Selector {
  readonly compounds: readonly Compound[];
  /** Ids, classes and types counted in one number, 1 : 1000 : 1000000. */
  readonly specificity: number;
}

/** A rule of a style sheet. */
export interface CssRule {
  readonly selectors: readonly Selector[];
  readonly declarations: readonly CssDeclaration[];
}

/** What was read, and what was passed over. */
export interface CssReading<T> {
  readonly value: T;
  readonly problems: readonly string[];
}

const ID = 1_000_000;
const CLASS = 1000;

/** At-rules that never change what is painted on a page. */
const HARMLESS_AT_RULES = new Set([
  'charset',
  'font-face',
  'keyframes',
  '-webkit-keyframes',
  'namespace',
  'page',
]);
/** Media that a still drawing is. */
const MEDIA_THAT_HOLD = new Set(['', 'all', 'screen', 'only screen', 'screen, print', 'print, screen']);
/** States a still drawing is never in: such selectors match nothing, rightly. */
const DYNAMIC = new Set(['active', 'focus', 'focus-visible', 'focus-within', 'hover', 'target', 'visited']);

/** True when a list of media holds for a still drawing. */
export function mediaHold(list: string): boolean {
  return MEDIA_THAT_HOLD.has(list.trim().toLowerCase());
}

/** Reads the text of a `<style>` element; `mistakes` are those that all styles of the document may still have. */
export function readStyleSheet(text: string, mistakes: Budget): CssReading<readonly CssRule[]> {
  const problems: string[] = [];
  try {
    const sheet = parse(text, {
      parseValue: false,
      onParseError: (error) => {
        countMistake(mistakes);
        problems.push(`${error.message.toLowerCase()}: ignored`);
      },
    }) as StyleSheet;
    const rules: CssRule[] = [];
    collectRules(sheet, rules, problems);
    return { value: rules, problems };
  } catch (error) {
    return { value: [], problems: [`the style sheet cannot be read (${messageOf(error)})`] };
  }
}

/** Reads the text of a `style` attribute. */
export function readDeclarations(text: string, mistakes: Budget): CssReading<readonly CssDeclaration[]> {
  const problems: string[] = [];
  try {
    const list = parse(text, {
      parseValue: false,
      context: 'declarationList',
      onParseError: () => countMistake(mistakes),
    });
    return { value: declarationsOf(list, problems), problems };
  } catch (error) {
    return { value: [], problems: [`the style cannot be read (${messageOf(error)})`] };
  }
}

/** More mistakes than this are no style any more: what is left is then passed over and reported. */
export const MOST_MISTAKES = 1000;

/** Stops the parser: recovering from each mistake costs it time that grows with the text behind. */
function countMistake(mistakes: Budget): void {
  mistakes.left--;
  if (mistakes.left < 0)
    throw new Error(`the styles of this drawing have more than ${MOST_MISTAKES} mistakes`);
}

/**
 * Answers of {@link isValidValue}, kept between drawings: matching a grammar is slow, and drawings repeat a handful of
 * colours on thousands of paths. The answers depend on nothing but the key, so sharing them changes no result.
 */
const validity = new Map<string, boolean>();

/** True when CSS allows the value for the property; a value that CSS forbids counts as not written. */
export function isValidValue(property: string, value: string): boolean {
  const key = `${property}:${value}`;
  let valid = validity.get(key);
  if (valid === undefined) {
    if (validity.size > 10_000) validity.clear();
    valid = matches(property, value);
    validity.set(key, valid);
  }
  return valid;
}

function matches(property: string, value: string): boolean {
  try {
    return lexer.matchProperty(property, value).error === null;
  } catch {
    return false;
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function collectRules(container: CssNode, rules: CssRule[], problems: string[]): void {
  if (!('children' in container) || container.children === null) return;
  for (const node of childrenOf(container)) {
    if (node.type === 'Rule') addRule(node, rules, problems);
    else if (node.type === 'Atrule') {
      const condition = node.prelude?.type === 'Raw' ? node.prelude.value.trim() : '';
      const media = node.prelude === null ? '' : (condition || preludeText(node.prelude)).toLowerCase();
      if (node.name === 'media' && mediaHold(media) && node.block !== null) {
        collectRules(node.block, rules, problems);
      } else if (!HARMLESS_AT_RULES.has(node.name) && !(node.name === 'media' && media === 'print')) {
        problems.push(`@${node.name} is not carried out`);
      }
    }
  }
}

function preludeText(prelude: CssNode): string {
  const words: string[] = [];
  const visit = (node: CssNode): void => {
    if (node.type === 'MediaQuery') words.push(mediaName(node));
    else if ('children' in node && node.children !== null) for (const child of childrenOf(node)) visit(child);
  };
  visit(prelude);
  return words.join(', ');
}

function mediaName(query: CssNode & { type: 'MediaQuery' }): string {
  const { modifier, mediaType, condition } = query as unknown as {
    modifier: string | null;
    mediaType: string | null;
    condition: unknown;
  };
  if (condition !== null && condition !== undefined) return 'condition';
  return [modifier, mediaType].filter(Boolean).join(' ');
}

function addRule(rule: Rule, rules: CssRule[], problems: string[]): void {
  if (rule.prelude.type !== 'SelectorList') {
    problems.push(
      `the selector "${rule.prelude.type === 'Raw' ? rule.prelude.value.slice(0, 60) : ''}" is not understood`,
    );
    return;
  }
  rules.push({
    selectors: selectorsOf(rule.prelude, problems),
    declarations: declarationsOf(rule.block, problems),
  });
}

function declarationsOf(container: CssNode, problems: string[]): CssDeclaration[] {
  const declarations: CssDeclaration[] = [];
  for (const node of childrenOf(container)) {
    if (node.type === 'Declaration') declarations.push(declarationOf(node));
    else if (node.type === 'Rule') problems.push('a rule nested in another rule is not carried out');
    else if (node.type === 'Raw' && node.value.trim() !== '') {
      problems.push(`"${node.value.trim().slice(0, 60)}" is not a declaration`);
    }
  }
  return declarations;
}

function declarationOf({ property, value, important }: Declaration): CssDeclaration {
  const text = value.type === 'Raw' ? value.value : '';
  return {
    property: property.startsWith('--') ? property : property.toLowerCase(),
    value: text.replace(/\/\*[\s\S]*?\*\//g, ' ').trim(),
    important: important !== false,
  };
}

function selectorsOf(list: SelectorList, problems: string[]): Selector[] {
  return childrenOf(list).map((selector) => selectorOf(selector, problems));
}

function selectorOf(selector: CssNode, problems: string[]): Selector {
  const compounds: { combinator: Compound['combinator']; conditions: Condition[] }[] = [
    { combinator: ' ', conditions: [] },
  ];
  let specificity = 0;
  for (const node of childrenOf(selector)) {
    if (node.type === 'Combinator') {
      const known = COMBINATORS.find((combinator) => combinator === node.name);
      compounds.push({ combinator: known ?? ' ', conditions: [] });
      // Those of other vocabularies, such as `||`, relate nothing in a drawing.
      if (known === undefined) compounds[0].conditions.push({ kind: 'never' });
      continue;
    }
    const [condition, weight] = conditionOf(node, problems);
    specificity += weight;
    if (condition !== undefined) compounds[compounds.length - 1].conditions.push(condition);
  }
  return { compounds, specificity };
}

/** The condition a selector node means, and its weight; `*` is no condition. */
function conditionOf(node: CssNode, problems: string[]): [Condition | undefined, number] {
  switch (node.type) {
    case 'TypeSelector': {
      const name = node.name.slice(node.name.lastIndexOf('|') + 1);
      return name === '*' ? [undefined, 0] : [{ kind: 'type', name }, 1];
    }
    case 'IdSelector':
      return [{ kind: 'id', name: ident.decode(node.name) }, ID];
    case 'ClassSelector':
      // Names that begin with a digit are written with an escape: `.\31 st` is the class `1st`.
      return [{ kind: 'class', name: ident.decode(node.name) }, CLASS];
    case 'AttributeSelector': {
      const { name, matcher, value, flags } = node;
      const wanted = value === null ? '' : value.type === 'String' ? value.value : ident.decode(value.name);
      return [
        {
          kind: 'attribute',
          name: name.name.replace('|', ':'),
          matcher: matcher ?? undefined,
          value: wanted,
          ignoreCase: flags === 'i',
        },
        CLASS,
      ];
    }
    case 'PseudoClassSelector':
      return pseudoClass(node.name.toLowerCase(), node.children === null ? [] : childrenOf(node), problems);
    default:
      if (node.type !== 'PseudoElementSelector')
        problems.push('a selector is not understood: it matches nothing');
      return [{ kind: 'never' }, 0];
  }
}

function pseudoClass(name: string, children: readonly CssNode[], problems: string[]): [Condition, number] {
  if (name === 'root' || name === 'first-child' || name === 'last-child' || name === 'only-child') {
    return [{ kind: name }, CLASS];
  }
  const list = children[0];
  if ((name === 'not' || name === 'is' || name === 'where') && list?.type === 'SelectorList') {
    const among = selectorsOf(list, problems);
    const weight = name === 'where' ? 0 : Math.max(0, ...among.map(({ specificity }) => specificity));
    return [{ kind: name === 'not' ? 'not' : 'is', among }, weight];
  }
  if (!DYNAMIC.has(name)) problems.push(`the selector ":${name}" is not carried out: it matches nothing`);
  return [{ kind: 'never' }, CLASS];
}

function childrenOf(node: CssNode): CssNode[] {
  return 'children' in node && node.children !== null ? [...(node.children as Iterable<CssNode>)] : [];
}

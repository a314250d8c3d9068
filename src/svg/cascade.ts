import { type CssDeclaration, isValidValue, readDeclarations } from './css.ts';
import type { SvgElement } from './element.ts';
import { type IssueLog, quote } from './issue-log.ts';
import {
  INHERITED,
  type InheritedProperty,
  isInherited,
  isStyleProperty,
  ONLY_IN_STYLE,
  OWN,
  type OwnProperty,
  RESHAPING_PROPERTIES,
  type StyleProperty,
} from './properties.ts';
import type { StyleSheets } from './style-sheets.ts';
import { type LengthFrame, readLength } from './units.ts';

/**
 * The cascade (CSS Cascading and Inheritance Level 4, section 6; SVG 2 section 6.6): presentation attributes,
 * then style sheets by weight, then the style attribute, then all of it again for `!important`.
 */

/** What holds for an element after cascade and inheritance. */
export interface Style {
  /** Inherited properties; one object is shared by all elements that add nothing. */
  readonly inherited: Readonly<Record<InheritedProperty, string>>;
  /** Font size in user units, for lengths in em. */
  readonly fontSize: number;
  /** The element's own properties as written; what is not written has its initial value. */
  readonly own: ReadonlyMap<OwnProperty, string>;
  /** Properties whose value comes from CSS, where lengths and transforms follow CSS grammar. */
  readonly fromCss: ReadonlySet<OwnProperty>;
  /** What is drawn once more by a `use`, in a copy: the root of the tree that selectors see; else undefined. */
  readonly copied: SvgElement | undefined;
}

/** Font size in user units of a document that states none: `medium`, 16 px in practice. */
export const INITIAL_FONT_SIZE = 16;

/** Style outside the document: everything initial. */
export const INITIAL_STYLE: Style = {
  inherited: INHERITED,
  fontSize: INITIAL_FONT_SIZE,
  own: new Map(),
  fromCss: new Set(),
  copied: undefined,
};

/** Value of a property that holds for the element alone. */
export function ownValue(style: Style, property: OwnProperty): string {
  return style.own.get(property) ?? OWN[property];
}

/**
 * The style that a copy by `use` hands down. The copy is a tree of its own: selectors match it from the copied element
 * on, and what lies around the original is not seen (SVG 2 section 5.6, style scoping and inheritance).
 */
export function insideCopy(style: Style, copied: SvgElement): Style {
  return { ...style, copied };
}

interface Declared {
  readonly values: Map<StyleProperty, string>;
  readonly fromCss: Set<OwnProperty>;
}

/** Works out styles; what an element declares is found once, however often the element is used. */
export class Cascade {
  /** By the root of the copy that elements stand in, undefined for the document itself. */
  private readonly declared = new Map<SvgElement | undefined, Map<SvgElement, Declared>>();
  private readonly attributes = new Map<string, readonly CssDeclaration[]>();
  /** Values that were refused: one rule of a style sheet may give hundreds of shapes the same. */
  private readonly refused = new Set<string>();
  private readonly sheets: StyleSheets;
  private readonly log: IssueLog;

  constructor(sheets: StyleSheets, log: IssueLog) {
    this.sheets = sheets;
    this.log = log;
  }

  /** Style of an element below a parent with the given style. */
  styleOf(element: SvgElement, parent: Style, frame: LengthFrame): Style {
    const { values, fromCss } = this.declarationsOf(element, parent.copied);
    let inherited = parent.inherited;
    const own = new Map<OwnProperty, string>();
    for (const [property, value] of values) {
      if (!isInherited(property)) {
        const kept = resolveKeyword(value, ownValue(parent, property), OWN[property], false);
        // An origin counts even where it is the initial one: the page has another when none is written.
        if (kept !== OWN[property] || property === 'transform-origin') own.set(property, kept);
        continue;
      }
      const kept = resolveKeyword(value, parent.inherited[property], INHERITED[property], true);
      if (kept === parent.inherited[property]) continue;
      // Copied at the first change only: thousands of paths of one group share one object.
      if (inherited === parent.inherited) inherited = { ...inherited };
      (inherited as Record<InheritedProperty, string>)[property] = kept;
    }
    const size = values.get('font-size');
    const fontSize = size === undefined ? parent.fontSize : readFontSize(size, parent.fontSize, frame);
    return { inherited, fontSize, own, fromCss, copied: parent.copied };
  }

  private declarationsOf(element: SvgElement, copied: SvgElement | undefined): Declared {
    // Where all selectors ask of an element alone, it has one style in the document and in every copy.
    const root = this.sheets.lookAround ? copied : undefined;
    const known = this.declared.get(root) ?? new Map<SvgElement, Declared>();
    this.declared.set(root, known);
    let declared = known.get(element);
    if (declared === undefined) {
      declared = this.declare(element, root);
      known.set(element, declared);
    }
    return declared;
  }

  private declare(element: SvgElement, copied: SvgElement | undefined): Declared {
    const values = new Map<StyleProperty, string>();
    const fromCss = new Set<OwnProperty>();
    for (const [name, raw] of element.attributes) {
      const value = raw.trim();
      if (ONLY_IN_STYLE.has(name)) continue;
      if (isStyleProperty(name) && this.allowed(name, value, element, false)) values.set(name, value);
    }
    const fromSheets = this.sheets.declarationsFor(element, copied);
    const fromAttribute = this.styleAttribute(element);
    if (fromSheets.length > 0 || fromAttribute.length > 0) {
      // The style attribute outweighs every selector, so it comes last.
      const layers = [...fromSheets, ...fromAttribute].flatMap(expandShorthand);
      // All declarations in order of weight, and after them the important ones in the same order: later ones win.
      for (const important of [false, true]) {
        for (const declaration of layers) {
          if (declaration.important === important) this.apply(declaration, element, values, fromCss);
        }
      }
    }
    return { values, fromCss };
  }

  private apply(
    { property, value }: CssDeclaration,
    element: SvgElement,
    values: Map<StyleProperty, string>,
    fromCss: Set<OwnProperty>,
  ): void {
    if (RESHAPING_PROPERTIES.has(property) && value !== 'none') {
      this.log.warn('style-not-carried-out', `the style property "${property}" is not carried out`, element, {
        received: quote(value),
        remedy: 'Apply it in the drawing program.',
      });
      return;
    }
    if (!isStyleProperty(property) || !this.allowed(property, value, element, true)) return;
    values.set(property, value);
    if (!isInherited(property)) fromCss.add(property);
  }

  /** Declarations of the style attribute; the same text is read once, as programs repeat it on every path. */
  private styleAttribute(element: SvgElement): readonly CssDeclaration[] {
    const text = element.attributes.get('style');
    if (text === undefined || text.trim() === '') return [];
    const known = this.attributes.get(text);
    if (known !== undefined) return known;
    const { value, problems } = readDeclarations(text, this.sheets.mistakes);
    for (const problem of problems) this.log.warn('style-not-understood', problem, element);
    this.attributes.set(text, value);
    return value;
  }

  /** A value that the property may not have counts as not written, and is reported. */
  private allowed(property: StyleProperty, value: string, element: SvgElement, css: boolean): boolean {
    if (WIDE_KEYWORDS.has(value.toLowerCase())) return true;
    if (css && NEEDS_UNIT.has(property) && lacksUnit(value))
      return this.refuse(property, value, element, css, `Write its unit, as in "${property}: ${value}px".`);
    // A font size or clip rule that hangs on a variable would else be taken for the usual one without a word.
    if (/\b(?:var|env)\(/i.test(value)) return this.refuse(property, value, element, css, PLAIN_VALUES);
    // In the attribute the units may be missing.
    if (css && property === 'transform-origin' && !isValidValue(property, value))
      return this.refuse(
        property,
        value,
        element,
        css,
        'Write the units, as in "transform-origin: 20px 30px".',
      );
    if (property === 'stroke-width' && Number.parseFloat(value) < 0)
      return this.refuse(property, value, element, css, 'Write a width of 0 or more.');
    if (!CHECKED.has(property) || isValidValue(property, value)) return true;
    // A bare number is a length in an attribute, and drawing programs write it in styles too.
    if (property === 'stroke-width' && value !== '' && Number.isFinite(Number(value))) return true;
    return this.refuse(property, value, element, css, PLAIN_VALUES);
  }

  private refuse(
    property: StyleProperty,
    value: string,
    element: SvgElement,
    css: boolean,
    remedy: string,
  ): false {
    const written = css ? `${property}: ${value}` : `${property}="${value}"`;
    if (this.refused.has(written)) return false;
    this.refused.add(written);
    this.log.warn(
      'style-value-ignored',
      `the value of ${property} is not one it can have: ignored, here and wherever else it is written`,
      element,
      {
        received: quote(written),
        remedy,
      },
    );
    return false;
  }
}

/** What helps against a value that its property cannot have. */
const PLAIN_VALUES = 'Save the drawing with plain values in its styles, without variables.';

/** Values every property understands (CSS Cascading Level 4, section 7.3). */
const WIDE_KEYWORDS: ReadonlySet<string> = new Set(['inherit', 'initial', 'unset', 'revert', 'revert-layer']);

/** Properties whose mistaken values would change what is painted; lengths and transforms are checked where read. */
const CHECKED: ReadonlySet<StyleProperty> = new Set<StyleProperty>([
  'color',
  'display',
  'fill',
  'fill-opacity',
  'fill-rule',
  'opacity',
  'stroke',
  'stroke-opacity',
  'stroke-width',
  'visibility',
]);

/** Lengths of SVG 2 section 7, which may lack their unit in an attribute but not in a style. */
const NEEDS_UNIT: ReadonlySet<StyleProperty> = new Set<StyleProperty>([
  'cx',
  'cy',
  'height',
  'r',
  'rx',
  'ry',
  'width',
  'x',
  'y',
]);

/** True for a plain number other than 0: no length in CSS (CSS Values and Units Level 3, section 5). */
function lacksUnit(value: string): boolean {
  const number = Number(value);
  return number !== 0 && Number.isFinite(number);
}

function resolveKeyword(value: string, parent: string, initial: string, inherits: boolean): string {
  switch (value.toLowerCase()) {
    case 'inherit':
      return parent;
    case 'initial':
      return initial;
    case 'unset':
    case 'revert':
    case 'revert-layer':
      return inherits ? parent : initial;
    default:
      return value;
  }
}

/** `marker` stands for its three ends (SVG 2 section 13.2.1), and `font` for a size among others. */
function expandShorthand(declaration: CssDeclaration): CssDeclaration[] {
  if (declaration.property === 'font') {
    const size = FONT_SIZE.exec(declaration.value)?.[0];
    return size === undefined ? [] : [{ ...declaration, property: 'font-size', value: size }];
  }
  if (declaration.property !== 'marker') return [declaration];
  return ['marker-start', 'marker-mid', 'marker-end'].map((property) => ({ ...declaration, property }));
}

/** CSS Fonts Level 4, section 2.5: `medium` is 16 px in practice; the scale of the other words is its table. */
const FONT_WORDS: ReadonlyMap<string, number> = new Map([
  ['xx-small', 9.6],
  ['x-small', 12],
  ['small', 14.22],
  ['medium', INITIAL_FONT_SIZE],
  ['large', 19.2],
  ['x-large', 24],
  ['xx-large', 32],
  ['initial', INITIAL_FONT_SIZE],
]);

/** Words for a size beside that of the parent: a step of 1.2 (CSS Fonts Level 4, section 2.5.3). */
const RELATIVE_FONT_WORDS: ReadonlyMap<string, number> = new Map([
  ['larger', 1.2],
  ['smaller', 1 / 1.2],
]);

/** The size in a `font`: the one part of it that is a length, a share or a word for a size, or a word for all of it. */
const FONT_SIZE =
  /^(?:inherit|initial|unset)$|(?<=^|\s)(?:[\d.]+(?:%|em|ex|ch|rem|px|mm|cm|in|pt|pc|q)|(?:xx?-)?(?:small|large)|medium|larger|smaller)(?=\s*\/|\s)/i;

function readFontSize(text: string, parentSize: number, frame: LengthFrame): number {
  const word = FONT_WORDS.get(text.toLowerCase());
  if (word !== undefined) return word;
  const step = RELATIVE_FONT_WORDS.get(text.toLowerCase());
  if (step !== undefined) return step * parentSize;
  const share = /^([\d.]+)%$/.exec(text);
  if (share) return (Number(share[1]) / 100) * parentSize;
  const reading = readLength(text, 'diagonal', { ...frame, fontSize: parentSize });
  return reading.ok && reading.value >= 0 ? reading.value : parentSize;
}

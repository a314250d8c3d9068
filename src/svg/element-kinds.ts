/** How each element of SVG is treated, by name. SVG 2, appendix "Element index"; SVG 1.1 for the older ones. */

/** What the reader does with an element. */
export type ElementKind =
  | { readonly kind: 'group' | 'shape' }
  /** Paints nothing where it stands; `why` goes into the account. */
  | { readonly kind: 'silent'; readonly why: string }
  /** Would paint, but not lines to cut: left out with a warning. */
  | { readonly kind: 'left-out'; readonly issue: string; readonly why: string; readonly remedy: string };

const GROUP: ElementKind = { kind: 'group' };
const SHAPE: ElementKind = { kind: 'shape' };
const DEFINITION: ElementKind = { kind: 'silent', why: 'a definition: painted only where it is used' };
const DESCRIPTION: ElementKind = { kind: 'silent', why: 'describes the drawing and paints nothing' };
const TEXT: ElementKind = {
  kind: 'left-out',
  issue: 'text-left-out',
  why: 'text has no outline without its font',
  remedy: 'Turn the text into paths in the drawing program if it is to be cut.',
};
const PICTURE: ElementKind = {
  kind: 'left-out',
  issue: 'image-left-out',
  why: 'a picture made of pixels has no outline',
  remedy: 'Trace it in the drawing program if it is to be cut.',
};
const EMBEDDED: ElementKind = {
  kind: 'left-out',
  issue: 'embedded-left-out',
  why: 'content that is not SVG is not read',
  remedy: 'Redraw it as paths if it is to be cut.',
};
const MOTION: ElementKind = {
  kind: 'left-out',
  issue: 'animation-left-out',
  why: 'the drawing is read as it stands still',
  remedy: 'Check that the still picture is the one to be cut.',
};
const SCRIPT: ElementKind = {
  kind: 'left-out',
  issue: 'script-left-out',
  why: 'programs in a drawing are never run',
  remedy: 'Save the drawing without scripts if something is missing.',
};

const KINDS: ReadonlyMap<string, ElementKind> = new Map([
  ...each(GROUP, 'svg g a switch use'),
  ...each(SHAPE, 'path rect circle ellipse line polyline polygon'),
  ...each(DEFINITION, 'defs symbol clipPath mask marker pattern filter linearGradient radialGradient'),
  ...each(DEFINITION, 'meshgradient hatch solidcolor font font-face style color-profile cursor view'),
  ...each(DESCRIPTION, 'title desc metadata'),
  ...each(TEXT, 'text tspan textPath tref altGlyph flowRoot'),
  ...each(PICTURE, 'image video canvas'),
  ...each(EMBEDDED, 'foreignObject iframe audio mesh'),
  ...each(MOTION, 'animate animateColor animateMotion animateTransform set discard'),
  ...each(SCRIPT, 'script'),
]);

const OTHER_VOCABULARY: ElementKind = { kind: 'silent', why: "a drawing program's own data, not SVG" };
const UNKNOWN: ElementKind = {
  kind: 'left-out',
  issue: 'element-unknown',
  why: 'SVG has no element of this name',
  remedy: 'Check the spelling if it is to be cut.',
};

/** How to treat an element of the given name; one with a prefix is of another vocabulary, and SVG paints none of it. */
export function kindOf(name: string): ElementKind {
  return KINDS.get(name) ?? (name.includes(':') ? OTHER_VOCABULARY : UNKNOWN);
}

/** The elements a paint such as `url(#sky)` may name. */
export const PAINT_SERVERS: ReadonlySet<string> = new Set([
  'linearGradient',
  'radialGradient',
  'pattern',
  'hatch',
  'meshgradient',
  'solidcolor',
]);

function each(kind: ElementKind, names: string): [string, ElementKind][] {
  return names.split(' ').map((name) => [name, kind]);
}

/**
 * The style properties that decide what is painted and where. SVG 2, appendix "Property index", and its list of
 * presentation attributes (section 6.6); the geometry properties of section 7 may stand in a style as well.
 */

/** Properties whose value an element takes from its parent, with their initial values. */
export const INHERITED = {
  'clip-rule': 'nonzero',
  color: 'black',
  fill: 'black',
  'fill-opacity': '1',
  'fill-rule': 'nonzero',
  'font-size': 'medium',
  'marker-end': 'none',
  'marker-mid': 'none',
  'marker-start': 'none',
  stroke: 'none',
  'stroke-dasharray': 'none',
  'stroke-opacity': '1',
  'stroke-width': '1',
  visibility: 'visible',
} as const;

/** Properties that hold for the element alone. */
export const OWN = {
  'clip-path': 'none',
  cx: '0',
  cy: '0',
  display: 'inline',
  filter: 'none',
  height: 'auto',
  mask: 'none',
  opacity: '1',
  overflow: 'hidden',
  r: '0',
  rx: 'auto',
  rotate: 'none',
  ry: 'auto',
  scale: 'none',
  transform: 'none',
  'transform-box': 'view-box',
  'transform-origin': '0 0',
  translate: 'none',
  'vector-effect': 'none',
  width: 'auto',
  x: '0',
  y: '0',
} as const;

/** A property that children take over. */
export type InheritedProperty = keyof typeof INHERITED;
/** A property that holds for the element alone. */
export type OwnProperty = keyof typeof OWN;
/** A property the reader takes into account. */
export type StyleProperty = InheritedProperty | OwnProperty;

/** True for a property the reader takes into account. */
export function isStyleProperty(name: string): name is StyleProperty {
  return Object.hasOwn(INHERITED, name) || Object.hasOwn(OWN, name);
}

/** Properties that only a style may set: an attribute of the same name means something else, or nothing. */
export const ONLY_IN_STYLE: ReadonlySet<string> = new Set(['rotate', 'scale', 'translate']);

/** True for a property that children take over. */
export function isInherited(name: StyleProperty): name is InheritedProperty {
  return Object.hasOwn(INHERITED, name);
}

/** Properties that move, reshape or hide what is painted, `all` by any of the others, and that the reader does not carry out. */
export const RESHAPING_PROPERTIES: ReadonlySet<string> = new Set([
  '-webkit-clip-path',
  '-webkit-mask',
  '-webkit-mask-image',
  'all',
  'd',
  'mask-image',
  'offset',
  'offset-path',
  'zoom',
]);

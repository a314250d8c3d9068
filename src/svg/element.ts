/** An element of an SVG document, entities decoded, names without the SVG namespace's prefix. */
export interface SvgElement {
  /** `path`, or with its prefix when it is not SVG's own: `sodipodi:namedview`. */
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly classes: ReadonlySet<string>;
  readonly children: readonly SvgElement[];
  readonly parent: SvgElement | undefined;
  /** Place among the parent's children, from 0. */
  readonly position: number;
  /** Line of the start tag, from 1. */
  readonly line: number;
  /** The text directly inside; kept only for `style`, `title` and `desc`. */
  readonly text: string;
}

/** The element as a person finds it in the file: `<path id="hull">`, and as the drawing program lists it where that differs. */
export function describeElement(element: SvgElement): string {
  const id = element.attributes.get('id');
  const label = typedName(element);
  const shown = [
    ...(id === undefined ? [] : [`id="${id}"`]),
    ...(label === undefined || label === id ? [] : [`label="${label}"`]),
  ];
  return `<${[element.name, ...shown].join(' ')}>`;
}

/** The name that a person typed, where the drawing program keeps it beside the id: in `serif:id` where it is no id, or is taken. */
export function typedName(element: SvgElement): string | undefined {
  const { attributes } = element;
  const names = [
    prefixedAttribute(element, 'label'),
    attributes.get('data-name'),
    attributes.get('serif:id'),
  ];
  return names.map((name) => name?.trim()).find((name) => name);
}

/** Value of an attribute whatever its prefix: `label` finds `inkscape:label`. */
export function prefixedAttribute(element: SvgElement, local: string): string | undefined {
  const ending = `:${local}`;
  for (const [name, value] of element.attributes) if (name.endsWith(ending)) return value;
  return undefined;
}

/** The reference of `use`, `image` and the like: `href`, or the older `xlink:href` under any prefix. */
export function hrefOf(element: SvgElement): string | undefined {
  return (element.attributes.get('href') ?? prefixedAttribute(element, 'href'))?.trim();
}

/** All elements of a tree in document order, the root first. */
export function elementsInOrder(root: SvgElement): SvgElement[] {
  const found: SvgElement[] = [];
  const pending = [root];
  for (let element = pending.pop(); element !== undefined; element = pending.pop()) {
    found.push(element);
    for (let i = element.children.length - 1; i >= 0; i--) pending.push(element.children[i]);
  }
  return found;
}

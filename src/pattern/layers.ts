import { firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Drawing, DrawingGroup, DrawingShape } from '../model/drawing.ts';
import type { LeftOutLayer } from '../model/pattern.ts';
import type { InnerShapes } from './overlaps.ts';
import { UniqueNames } from './unique-names.ts';

/** The shapes of one layer, in painting order. */
export interface LayerShapes {
  readonly name: string;
  readonly shapes: readonly DrawingShape[];
}

/**
 * Finds the layers of a drawing. Groups that the drawing program marks as layers are the layers; without marks, every
 * group directly in the drawing is one. A layer that holds layers and draws nothing itself only gathers them: they are
 * the layers, however deep. One that draws something besides, or in which a layer may be the openings of another, is one
 * layer with all that is in it, and a note says so. A drawing whose only content is a single group is looked into, unless
 * that has a name and none of the groups in it has. Shapes outside every layer make a layer of their own.
 */
export function layersOf(
  drawing: Drawing,
  innerShapes: InnerShapes,
): { layers: LayerShapes[]; leftOut: LeftOutLayer[]; issues: Issue[] } {
  const hidden: DrawingGroup[] = [];
  // Where filled shapes in others are cut out, any layer may be the openings of its neighbour.
  const gathers = innerShapes === 'openings' ? () => false : gathersWood;
  const sole = soleContent(drawing.root);
  const groups = isOneLayer(sole, drawing.root)
    ? [{ name: nameOf(sole.named ?? sole.group, 0), members: [sole.group], isLoose: false }]
    : layerGroups(sole.group, gathers);
  const hasNames = groups.some(({ members, isLoose }) => !isLoose && members.some(hasName));
  const issues: Issue[] = [];
  const names = new UniqueNames();
  const calledOf = new Map<string, string[]>();
  const layers: LayerShapes[] = [];
  const empty: LeftOutLayer[] = [];
  for (const { name, members, isLoose } of groups) {
    const shapes: DrawingShape[] = [];
    for (const member of members) collectShapes(member, undefined, { shapes, hidden });
    if (shapes.length === 0) {
      empty.push({ name, why: 'no parts' });
      continue;
    }
    const layer = { name: names.give(name), shapes };
    layers.push(layer);
    const called = calledOf.get(name);
    if (called === undefined) calledOf.set(name, [layer.name]);
    else called.push(layer.name);
    issues.push(...heldTogether(layer.name, members, drawing.file));
    if (isLoose) issues.push(outsideLayers(layer, drawing.file));
    else if (hasNames && !members.some(hasName)) issues.push(withoutName(layer, drawing.file));
  }
  issues.push(...namedAlike(calledOf, drawing.file));
  const off = hidden.map((group, i): LeftOutLayer => ({ name: nameOf(group, i), why: 'switched off' }));
  // One that is switched off is among those without shapes too: the first of a name says the more.
  const leftOut = [...off, ...empty];
  return {
    layers,
    leftOut,
    issues: [...hidden.map((group) => leftOutHidden(group, drawing.file)), ...issues],
  };
}

/** A note for shapes beside the layers: one that slipped out of its layer, or a background, is a part like any other. */
function outsideLayers({ name, shapes }: LayerShapes, file: string): Issue {
  const what = shapes.length === 1 ? '1 shape lies' : `${shapes.length} shapes lie`;
  const [{ element, line }] = shapes;
  return {
    kind: 'shapes-outside-layers',
    severity: 'note',
    message: `${what} in no layer, this one first: taken as a layer by ${shapes.length === 1 ? 'itself' : 'themselves'}`,
    remedy: 'Move them into their layer in the drawing program, or delete what is only the background.',
    where: { file, layer: name, element, line },
  };
}

/** A note for a group without a name beside layers that have one: copies and ornaments, more likely than a layer. */
function withoutName({ name, shapes }: LayerShapes, file: string): Issue {
  const [{ element, line }] = shapes;
  return {
    kind: 'layer-unnamed',
    severity: 'note',
    message: `a group without a name, this shape first in it, stands beside layers that have one: taken as a layer, called "${name}"`,
    remedy: 'Move it into the layer it belongs to in the drawing program, or give it a name if it is one.',
    where: { file, layer: name, element, line },
  };
}

/** At most so many layers are named in an issue. */
const MOST_NAMED = 8;

/**
 * Warnings for names that several layers have: rules that a job gives by such a name are those of the first one alone.
 *
 * @param calledOf what the layers of each name are called, in their order
 */
function namedAlike(calledOf: ReadonlyMap<string, readonly string[]>, file: string): Issue[] {
  return [...calledOf].flatMap(([name, called]): Issue[] => {
    if (called.length === 1) return [];
    const quoted = called.map((each) => `"${each}"`);
    return [
      {
        kind: 'layer-name-repeated',
        severity: 'warning',
        message: `${called.length} layers have this name: in their order they are called ${firstFew(quoted, MOST_NAMED)}`,
        remedy:
          'Write the rules of each in the job by these names, or give each a name of its own in the drawing program.',
        where: { file, layer: name },
      },
    ];
  });
}

/** A note for a layer that has layers in it: a maker who gave each its own wood would not see why they are one. */
function heldTogether(layer: string, members: readonly Member[], file: string): Issue[] {
  const inner = members.flatMap((member) => (member.kind === 'group' ? innerLayers(member) : []));
  if (inner.length === 0) return [];
  const names = inner.map((each, i) => `"${nameOf(each, i)}"`);
  const what = `the layers ${firstFew(names, MOST_NAMED)}`;
  const why = members.some(drawsBesideLayers)
    ? `has shapes of its own and holds ${what}`
    : `holds ${what}, of which one may be the openings of another`;
  return [
    {
      kind: 'layers-in-layer',
      severity: 'note',
      message: `this layer ${why}: all of it is taken as one layer`,
      remedy: 'To cut them from wood of their own, move them out of it in the drawing program.',
      where: { file, layer },
    },
  ];
}

/** The nearest layers in a group that are shown and hold something. */
function innerLayers(group: DrawingGroup): DrawingGroup[] {
  return group.children.flatMap((child) => {
    if (child.kind === 'shape' || !child.visible) return [];
    return child.isLayer && child.children.length > 0 ? [child] : innerLayers(child);
  });
}

function leftOutHidden({ id, label }: DrawingGroup, file: string): Issue {
  return {
    kind: 'hidden-group-left-out',
    severity: 'note',
    message: 'a group that is switched off in the drawing is left out',
    remedy: 'Show it in the drawing program if it is to be cut.',
    where: { file, element: `<g${id === undefined ? '' : ` id="${id}"`}>`, layer: label },
  };
}

type Member = DrawingGroup | DrawingShape;

/** What a drawing holds below the groups that wrap all of it. */
interface SoleContent {
  readonly group: DrawingGroup;
  /** The innermost of those groups with a name. */
  readonly named: DrawingGroup | undefined;
}

/** Export filters wrap a whole drawing into plain groups that are no layers: the first with several members is taken. */
function soleContent(root: DrawingGroup): SoleContent {
  let group = root;
  let named: DrawingGroup | undefined;
  for (;;) {
    const [only, ...others] = group.children;
    const isWrapper = !group.isLayer && others.length === 0 && only?.kind === 'group';
    if (!isWrapper || !only.visible || only.isLayer) return { group, named };
    group = only;
    if (isNamed(group)) named = group;
  }
}

/**
 * True for a drawing of one layer, its shapes gathered in groups here and there: whoever draws layers in a group gives
 * them names. Taken for layers, the veins in such a group would be lost to the part they lie in.
 */
function isOneLayer({ group, named }: SoleContent, root: DrawingGroup): boolean {
  if (group === root || group.isLayer || group.children.some(holdsLayer)) return false;
  if (group.children.some(hasName)) return false;
  return named !== undefined || group.children.some(({ kind }) => kind === 'shape');
}

function hasName(member: Member): boolean {
  return member.kind === 'group' && isNamed(member);
}

function isNamed({ label, id }: DrawingGroup): boolean {
  return label !== undefined || id !== undefined;
}

/** What makes one layer. */
interface LayerGroup {
  readonly name: string;
  readonly members: readonly Member[];
  /** True for what lies beside the layers. */
  readonly isLoose: boolean;
}

/** The groups that are layers, in painting order, and last what lies beside them. */
function layerGroups(root: DrawingGroup, gathers: (group: DrawingGroup) => boolean): LayerGroup[] {
  // A switched-off group is never looked into: it is passed on as it is, and reported where shapes are gathered.
  if ((root.isLayer && !gathers(root)) || !root.visible)
    return [{ name: nameOf(root, 0), members: [root], isLoose: false }];
  const marked = root.children.some(holdsLayer);
  const found: LayerGroup[] = [];
  const loose: Member[] = [];
  const visit = (members: readonly Member[]) => {
    for (const member of members) {
      const isLayer = member.kind === 'group' && (member.isLayer || !marked);
      if (isLayer && !gathers(member))
        found.push({ name: nameOf(member, found.length), members: [member], isLoose: false });
      else if (member.kind === 'group' && member.visible && holdsLayer(member)) visit(member.children);
      else loose.push(member);
    }
  };
  visit(root.children);
  const isLoose = found.length > 0;
  if (loose.length > 0)
    found.push({ name: isLoose ? 'Outside the layers' : nameOf(root, 0), members: loose, isLoose });
  return found;
}

/**
 * True for a group that is shown, has layers in it, and draws nothing outside of them; each of them paints wood. A layer of
 * lines alone may be the openings or veins of the wood in the next one, which would lose them if it were a layer by itself.
 */
function gathersWood(group: DrawingGroup): boolean {
  const inner = group.visible ? innerLayers(group) : [];
  return inner.length > 0 && inner.every(paintsWood) && !drawsBesideLayers(group);
}

function paintsWood(member: Member): boolean {
  if (member.kind === 'shape') return member.fill !== 'none';
  return member.visible && member.children.some(paintsWood);
}

/** True for a group with shapes in it that lie in none of its layers, and for a shape. */
function drawsBesideLayers(member: Member): boolean {
  return member.kind === 'shape' || member.children.some(drawsOutsideLayers);
}

function drawsOutsideLayers(member: Member): boolean {
  if (member.kind === 'shape') return true;
  return member.visible && !member.isLayer && member.children.some(drawsOutsideLayers);
}

function holdsLayer(member: Member): boolean {
  return member.kind === 'group' && (member.isLayer || member.children.some(holdsLayer));
}

function nameOf(group: DrawingGroup, index: number): string {
  return group.label ?? group.id ?? `Layer ${index + 1}`;
}

/** What a layer turns out to hold. */
interface Collected {
  readonly shapes: DrawingShape[];
  /** Groups that are switched off. */
  readonly hidden: DrawingGroup[];
}

/** A shape without a label of its own takes that of the innermost labelled group below the layer. */
function collectShapes(member: Member, groupLabel: string | undefined, into: Collected): void {
  if (member.kind === 'shape') {
    into.shapes.push({ ...member, label: member.label ?? groupLabel });
    return;
  }
  if (!member.visible) {
    into.hidden.push(member);
    return;
  }
  for (const child of member.children) {
    const label = child.kind === 'group' ? (child.label ?? groupLabel) : groupLabel;
    collectShapes(child, label, into);
  }
}

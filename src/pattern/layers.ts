import { firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Drawing, DrawingGroup, DrawingShape } from '../model/drawing.ts';
import type { LeftOutLayer } from '../model/pattern.ts';
import type { InnerShapes } from './solids.ts';
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
 * layer with all that is in it, and a note says so. A drawing whose only content is a single group is looked into. Shapes
 * outside every layer make a layer of their own.
 */
export function layersOf(
  drawing: Drawing,
  innerShapes: InnerShapes,
): { layers: LayerShapes[]; leftOut: LeftOutLayer[]; issues: Issue[] } {
  const hidden: DrawingGroup[] = [];
  // Where filled shapes in others are cut out, any layer may be the openings of its neighbour.
  const gathers = innerShapes === 'openings' ? () => false : gathersWood;
  const groups = layerGroups(soleContent(drawing.root), gathers);
  const issues: Issue[] = [];
  const names = new UniqueNames();
  const layers: LayerShapes[] = [];
  const empty: LeftOutLayer[] = [];
  for (const { name, members } of groups) {
    const shapes: DrawingShape[] = [];
    for (const member of members) collectShapes(member, undefined, { shapes, hidden });
    if (shapes.length === 0) {
      empty.push({ name, why: 'no parts' });
      continue;
    }
    const layer = { name: names.give(name), shapes };
    layers.push(layer);
    issues.push(...heldTogether(layer.name, members, drawing.file));
  }
  const off = hidden.map((group, i): LeftOutLayer => ({ name: nameOf(group, i), why: 'switched off' }));
  // One that is switched off is among those without shapes too: the first of a name says the more.
  const leftOut = [...off, ...empty];
  return {
    layers,
    leftOut,
    issues: [...hidden.map((group) => leftOutHidden(group, drawing.file)), ...issues],
  };
}

/** At most so many layers are named in a note. */
const MOST_NAMED = 8;

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

/** Export filters wrap a whole drawing into plain groups that are no layers: the first with several members is taken. */
function soleContent(root: DrawingGroup): DrawingGroup {
  let group = root;
  while (
    !group.isLayer &&
    group.children.length === 1 &&
    group.children[0].kind === 'group' &&
    group.children[0].visible &&
    !group.children[0].isLayer
  ) {
    group = group.children[0];
  }
  return group;
}

/** The groups that are layers, in painting order, and last what lies beside them. */
function layerGroups(
  root: DrawingGroup,
  gathers: (group: DrawingGroup) => boolean,
): { name: string; members: readonly Member[] }[] {
  // A switched-off group is never looked into: it is passed on as it is, and reported where shapes are gathered.
  if ((root.isLayer && !gathers(root)) || !root.visible) return [{ name: nameOf(root, 0), members: [root] }];
  const marked = root.children.some(holdsLayer);
  const found: { name: string; members: readonly Member[] }[] = [];
  const loose: Member[] = [];
  const visit = (members: readonly Member[]) => {
    for (const member of members) {
      const isLayer = member.kind === 'group' && (member.isLayer || !marked);
      if (isLayer && !gathers(member)) found.push({ name: nameOf(member, found.length), members: [member] });
      else if (member.kind === 'group' && member.visible && holdsLayer(member)) visit(member.children);
      else loose.push(member);
    }
  };
  visit(root.children);
  if (loose.length > 0)
    found.push({ name: found.length === 0 ? nameOf(root, 0) : 'Outside the layers', members: loose });
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

import { compose } from '../geometry/affine.ts';
import type { DrawingGroup, DrawingShape, ElementAccount } from '../model/drawing.ts';
import { Account } from './account.ts';
import { type Cascade, insideCopy, ownValue, type Style } from './cascade.ts';
import { ClipPaths } from './clip-path.ts';
import { chosenChild, conditionsHold } from './conditions.ts';
import { Dashes } from './dashes.ts';
import { reportEffects, reportMarkers } from './effects.ts';
import { describeElement, hrefOf, type SvgElement } from './element.ts';
import { type ElementKind, kindOf } from './element-kinds.ts';
import { shiftOf } from './element-lengths.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { isLayer, isLocked, labelOf } from './names.ts';
import { NotShown } from './not-shown.ts';
import type { ObjectBoxes } from './object-boxes.ts';
import { isPainted, isTransparent, isVisible } from './paint.ts';
import { framed, type Place, transformOf } from './place.ts';
import { targetOf } from './references.ts';
import { readShape } from './shape-reader.ts';
import { nestedViewport, type SizeGiven } from './viewport.ts';
import { DEEPEST_NESTING } from './well-formed.ts';

/** Elements and segments that `use` may multiply a drawing to: bounds time and memory on hostile files. */
const MOST_REUSED = 1_000_000;

type Node = DrawingGroup | DrawingShape;
type GroupChildren = (DrawingGroup | DrawingShape)[];

/** Why an element whose conditions do not hold is passed over. */
const MEANT_FOR_OTHERS = 'meant for another program or language';

/** Size not given by a `use`. */
const NO_SIZE: SizeGiven = { width: 'auto', height: 'auto' };

/** Walks the element tree and turns it into groups and shapes on the page. */
export class Walk {
  private readonly account = new Account();
  private readonly notShown = new NotShown();
  private readonly dashes = new Dashes();
  /** Elements being walked, to see a `use` that draws itself. */
  private readonly active = new Set<SvgElement>();
  private reused = 0;
  private readonly clipPaths: ClipPaths;
  private readonly cascade: Cascade;
  private readonly byId: ReadonlyMap<string, SvgElement>;
  private readonly boxes: ObjectBoxes;
  private readonly log: IssueLog;

  constructor(cascade: Cascade, byId: ReadonlyMap<string, SvgElement>, boxes: ObjectBoxes, log: IssueLog) {
    this.cascade = cascade;
    this.byId = byId;
    this.boxes = boxes;
    this.log = log;
    this.clipPaths = new ClipPaths(cascade, byId, boxes, log);
  }

  /** The whole drawing; `place` is the user space of the root element, its style included. */
  root(root: SvgElement, place: Place): DrawingGroup {
    this.active.add(root);
    reportEffects(root, place.style, this.log);
    const group = this.group(root, this.clipPaths.within(root, place), isPainted(place.style), root.children);
    this.notShown.report(this.log);
    this.dashes.report(this.log);
    return group;
  }

  accountList(): readonly ElementAccount[] {
    return this.account.list();
  }

  private element(element: SvgElement, place: Place, into: GroupChildren): void {
    const kind = kindOf(element.name);
    if (kind.kind === 'silent') {
      this.account.enter(element, 'nothing', kind.why);
      return;
    }
    const style = this.cascade.styleOf(element, place.style, place.frame);
    const passedOver = this.whyPassedOver(element, kind, style, place);
    if (passedOver !== undefined) {
      this.account.enter(element, 'nothing', passedOver);
      return;
    }
    this.spend(1, place, element);
    const frame = framed(place.frame, style);
    const map = compose(place.map, transformOf({ element, style, frame, log: this.log }, this.boxes));
    const painted = place.painted && isPainted(style);
    const here = this.clipPaths.within(element, { ...place, map, style, frame, painted });
    if (here.painted) reportEffects(element, style, this.log);
    if (kind.kind === 'shape') this.shape(element, here, into, place.painted);
    else this.container(element, here, into, isPainted(style));
  }

  /** Why an element is neither a group nor a shape; reports it when something that paints is left out. */
  private whyPassedOver(
    element: SvgElement,
    kind: Exclude<ElementKind, { kind: 'silent' }>,
    style: Style,
    place: Place,
  ): string | undefined {
    if (!conditionsHold(element)) {
      if (kind.kind !== 'left-out' && place.painted) this.notShown.add(element, MEANT_FOR_OTHERS);
      return MEANT_FOR_OTHERS;
    }
    if (kind.kind !== 'left-out') return undefined;
    const shows = place.painted && isPainted(style) && isVisible(style);
    if (shows) this.log.warn(kind.issue, kind.why, element, { remedy: kind.remedy });
    return kind.why;
  }

  private container(element: SvgElement, place: Place, into: GroupChildren, visible: boolean): void {
    this.checkDepth(place, element);
    // Open while its content is walked: a `use` inside that names it would never end.
    this.active.add(element);
    const inside = { ...place, depth: place.depth + 1 };
    const group = this.containerGroup(element, inside, visible);
    if (group !== undefined) for (const node of copiedShape(element, group) ?? [group]) into.push(node);
    this.active.delete(element);
  }

  private containerGroup(element: SvgElement, place: Place, visible: boolean): DrawingGroup | undefined {
    switch (element.name) {
      case 'use':
        return this.use(element, place, visible);
      case 'svg':
        return this.viewport(element, place, visible, NO_SIZE);
      case 'switch': {
        const chosen = chosenChild(element);
        for (const child of element.children) {
          if (chosen !== undefined && child !== chosen)
            this.account.enter(child, 'nothing', 'another child of the switch is painted');
        }
        // Where none can be chosen, each is passed over for a reason of its own.
        return this.group(element, place, visible, chosen === undefined ? element.children : [chosen]);
      }
      default:
        return this.group(element, place, visible, element.children);
    }
  }

  private group(
    element: SvgElement,
    place: Place,
    visible: boolean,
    drawn: readonly SvgElement[],
  ): DrawingGroup {
    this.account.enter(element, 'group', visible ? undefined : 'switched off');
    const children: Node[] = [];
    for (const child of drawn) this.element(child, place, children);
    return groupOf(element, visible, children);
  }

  /** A nested `svg`, or a `symbol` that is used. */
  private viewport(
    element: SvgElement,
    place: Place,
    visible: boolean,
    given: SizeGiven,
  ): DrawingGroup | undefined {
    const source = { element, style: place.style, frame: place.frame, log: this.log };
    const viewport = nestedViewport(source, given);
    if (viewport === undefined) {
      this.account.enter(element, 'nothing', 'its viewport has no area');
      return undefined;
    }
    const clipped = this.clipPaths.insideViewport(place, viewport.area, place.map);
    const inside = { ...clipped, map: compose(place.map, viewport.map), frame: viewport.frame };
    return this.group(element, inside, visible, element.children);
  }

  private use(element: SvgElement, place: Place, visible: boolean): DrawingGroup | undefined {
    const target = targetOf(element, this.byId);
    const problem = target.ok
      ? this.active.has(target.element)
        ? 'it draws itself again without end'
        : undefined
      : target.problem;
    if (!target.ok || problem !== undefined) {
      this.account.enter(element, 'nothing', problem);
      this.log.warn('use-left-out', `the reference is left out: ${problem}`, element, {
        received: quote(hrefOf(element) ?? ''),
        remedy: 'Replace the copy by the shape itself in the drawing program.',
      });
      return undefined;
    }
    this.account.enter(element, 'group', visible ? undefined : 'switched off');
    const shift = shiftOf({ element, style: place.style, frame: place.frame, log: this.log });
    const style = insideCopy(place.style, target.element);
    const inside: Place = { ...place, style, map: compose(place.map, shift), reused: true };
    const children: Node[] = [];
    this.used(target.element, inside, children, {
      width: ownValue(place.style, 'width'),
      height: ownValue(place.style, 'height'),
    });
    // A copy inside a copied group stands in the file as often as the original: it is found by the outermost one.
    const drawn = place.reused ? children : children.map((child) => foundBy(element, child));
    return groupOf(element, visible, drawn);
  }

  /** Draws what a `use` refers to; `symbol` and `svg` take their size from it. */
  private used(target: SvgElement, place: Place, into: GroupChildren, given: SizeGiven): void {
    if (target.name !== 'symbol' && target.name !== 'svg') {
      this.element(target, place, into);
      return;
    }
    this.checkDepth(place, target);
    this.spend(1, place, target);
    const style = this.cascade.styleOf(target, place.style, place.frame);
    // A symbol that is used shows even where `display` switches it off (SVG 2, user agent style sheet).
    const visible = target.name === 'symbol' ? !isTransparent(style) : isPainted(style);
    const frame = framed(place.frame, style);
    const map = compose(place.map, transformOf({ element: target, style, frame, log: this.log }, this.boxes));
    const painted = place.painted && visible;
    if (painted) reportEffects(target, style, this.log);
    this.active.add(target);
    const depth = place.depth + 1;
    const inside = this.clipPaths.within(target, { ...place, map, style, frame, painted, depth });
    const group = this.viewport(target, inside, visible, given);
    this.active.delete(target);
    if (group !== undefined) into.push(group);
  }

  private shape(element: SvgElement, place: Place, into: GroupChildren, isGroupShown: boolean): void {
    const reading = readShape(element, place, this.byId, this.log);
    if (!reading.ok) {
      this.account.enter(element, 'nothing', reading.why);
      if (reading.isUnseen && isGroupShown) this.notShown.add(element, reading.why);
      return;
    }
    this.spend(
      reading.shape.curves.reduce((sum, { segments }) => sum + segments.length, 0),
      place,
      element,
    );
    const shape =
      place.clips.length === 0 ? reading.shape : this.clipPaths.cut(element, reading.shape, place.clips);
    if (shape === undefined) {
      const why = 'its clip path hides it';
      this.account.enter(element, 'nothing', why);
      if (place.painted) this.notShown.add(element, why);
      return;
    }
    if (place.painted) {
      reportMarkers(element, place.style, this.log);
      this.dashes.add(element, shape, place.style);
    }
    this.account.enter(element, 'shape', place.painted ? undefined : 'in a group that is switched off');
    into.push(shape);
  }

  /** Stops before the stack does: `use` nests groups deeper than any file nests elements. */
  private checkDepth({ depth }: Place, element: SvgElement): void {
    if (depth < DEEPEST_NESTING) return;
    this.log.fail('nesting-too-deep', `groups are nested more than ${DEEPEST_NESTING} deep`, element, {
      remedy: 'Replace copies of copies by the shapes themselves in the drawing program.',
    });
  }

  /** Counts what `use` multiplies, and stops a file that would never end. */
  private spend(count: number, place: Place, element: SvgElement): void {
    // What stands in the file once is bounded by its length.
    if (!place.reused) return;
    this.reused += count;
    if (this.reused > MOST_REUSED) {
      this.log.fail(
        'use-too-many',
        `copies by <use> come to more than ${MOST_REUSED} elements and segments`,
        element,
        { remedy: 'Replace copies of copies by the shapes themselves in the drawing program.' },
      );
    }
  }
}

/**
 * What a `use` draws where that is a shape and no group: as a group beside the layers, a copied reed would be taken for
 * a layer of its own. A name given to the copy is that of the shape. Undefined for all other elements.
 */
function copiedShape(element: SvgElement, { visible, label, children }: DrawingGroup): Node[] | undefined {
  if (element.name !== 'use' || !visible || children.some(({ kind }) => kind === 'group')) return undefined;
  return children.map((shape) => ({ ...shape, label: label ?? shape.label }));
}

/** Copies of one shape are told apart by the `use` that draws each: that is the one to move or to delete. */
function foundBy(use: SvgElement, node: Node): Node {
  return node.kind === 'group'
    ? { ...node, children: node.children.map((child) => foundBy(use, child)) }
    : { ...node, element: `${node.element} in ${describeElement(use)}`, line: use.line };
}

function groupOf(element: SvgElement, visible: boolean, children: readonly Node[]): DrawingGroup {
  return {
    kind: 'group',
    id: element.attributes.get('id'),
    label: labelOf(element),
    visible,
    isLayer: isLayer(element),
    locked: isLocked(element),
    children,
  };
}

import { type Affine, compose, IDENTITY } from '../geometry/affine.ts';
import { boundsOfCurves } from '../geometry/curve-bounds.ts';
import type { Box } from '../geometry/shapes.ts';
import { type Cascade, insideCopy, type Style } from './cascade.ts';
import { chosenChild, conditionsHold } from './conditions.ts';
import type { SvgElement } from './element.ts';
import { kindOf } from './element-kinds.ts';
import { shiftOf } from './element-lengths.ts';
import { IssueLog } from './issue-log.ts';
import { isDisplayed } from './paint.ts';
import { framed, transformOf } from './place.ts';
import { targetOf } from './references.ts';
import { shapeCurves } from './shape-curves.ts';
import type { LengthFrame } from './units.ts';

/** Elements that boxes may be taken of in one drawing: bounds time where boxes hang on boxes. */
const MOST_VISITED = 200_000;

/** Groups in groups, `use` included, that a box is looked for in. */
const DEEPEST = 200;

/** Thrown when an element has a box that cannot be told, or only at too much cost. */
class NoBox extends Error {
  override readonly name = 'NoBox';
}

/**
 * Object bounding boxes (SVG 2 section 8.10): the tight box around the geometry of an element and all in it, in its
 * own user units, whatever its paint. What holds text, pictures or viewports has no box here.
 */
export class ObjectBoxes {
  private left = MOST_VISITED;
  /** What is wrong with an element is said when it is read, not when it is measured. */
  private readonly silent = new IssueLog('');
  private readonly cascade: Cascade;
  private readonly byId: ReadonlyMap<string, SvgElement>;

  constructor(cascade: Cascade, byId: ReadonlyMap<string, SvgElement>) {
    this.cascade = cascade;
    this.byId = byId;
  }

  /** The box of an element whose style is known; undefined when it has no area or cannot be told. */
  boxOf(element: SvgElement, style: Style, frame: LengthFrame): Box | undefined {
    const reach = new Reach();
    try {
      this.gather(element, { style, frame, map: IDENTITY, depth: 0 }, reach);
    } catch (error) {
      if (error instanceof NoBox) return undefined;
      throw error;
    }
    return reach.box();
  }

  private gather(element: SvgElement, place: BoxPlace, reach: Reach): void {
    if (--this.left < 0 || place.depth > DEEPEST) throw new NoBox();
    const source = { element, style: place.style, frame: place.frame, log: this.silent };
    if (kindOf(element.name).kind === 'shape') {
      reach.add(boundsOfCurves(shapeCurves(source, place.map)));
    } else if (element.name === 'use') {
      const target = targetOf(element, this.byId);
      if (!target.ok) return;
      // Silent where it stands, but a viewport here: passed over, it would be missing from the box.
      if (target.element.name === 'symbol') throw new NoBox();
      const style = insideCopy(place.style, target.element);
      this.child(target.element, { ...place, style, map: compose(place.map, shiftOf(source)) }, reach);
    } else if (element.name === 'switch') {
      const chosen = chosenChild(element);
      if (chosen !== undefined) this.child(chosen, place, reach);
    } else if (element.name === 'g' || element.name === 'a') {
      for (const child of element.children) this.child(child, place, reach);
    } else throw new NoBox();
  }

  private child(element: SvgElement, place: BoxPlace, reach: Reach): void {
    if (kindOf(element.name).kind === 'silent' || !conditionsHold(element)) return;
    const style = this.cascade.styleOf(element, place.style, place.frame);
    if (!isDisplayed(style)) return;
    const frame = framed(place.frame, style);
    const own = transformOf({ element, style, frame, log: this.silent }, this);
    this.gather(element, { style, frame, map: compose(place.map, own), depth: place.depth + 1 }, reach);
  }
}

/** Where an element stands within the one whose box is asked for. */
interface BoxPlace {
  readonly style: Style;
  readonly frame: LengthFrame;
  readonly map: Affine;
  readonly depth: number;
}

/** The box around all that was added. */
class Reach {
  private minX = Number.POSITIVE_INFINITY;
  private minY = Number.POSITIVE_INFINITY;
  private maxX = Number.NEGATIVE_INFINITY;
  private maxY = Number.NEGATIVE_INFINITY;

  add({ minX, minY, maxX, maxY }: Box): void {
    this.minX = Math.min(this.minX, minX);
    this.minY = Math.min(this.minY, minY);
    this.maxX = Math.max(this.maxX, maxX);
    this.maxY = Math.max(this.maxY, maxY);
  }

  /** Undefined when nothing was added or it has no area: shares of it would be shares of nothing. */
  box(): Box | undefined {
    const { minX, minY, maxX, maxY } = this;
    const isKnown = Number.isFinite(maxX - minX) && Number.isFinite(maxY - minY);
    return isKnown && maxX > minX && maxY > minY ? { minX, minY, maxX, maxY } : undefined;
  }
}

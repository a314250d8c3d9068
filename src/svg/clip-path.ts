import { type Affine, applyToPoint, compose, IDENTITY } from '../geometry/affine.ts';
import type { Point, Region } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Budget } from './budget.ts';
import { type Cascade, INITIAL_STYLE, insideCopy, ownValue, type Style } from './cascade.ts';
import { type ClipRegion, ClipTooCostly, clipRegion, clipShape, solidOf } from './clip-region.ts';
import { describeElement, type SvgElement } from './element.ts';
import { kindOf } from './element-kinds.ts';
import { shiftOf } from './element-lengths.ts';
import { type IssueLog, quote } from './issue-log.ts';
import type { ObjectBoxes } from './object-boxes.ts';
import { fillRuleOf, isDisplayed, isVisible } from './paint.ts';
import { framed, type Place, transformOf } from './place.ts';
import { isPointWithinReach, isWithinReach } from './reach.ts';
import { elementNamed, targetOf } from './references.ts';
import { shapeCurves } from './shape-curves.ts';

/** Pairs of line pieces that clipping may compare in one drawing: some twenty seconds at worst. */
const MOST_CLIP_PAIRS = 300_000_000;
const TOO_COSTLY = 'clipping this drawing takes too much work';

/** Where the contents of a clip path are drawn. */
interface ClipSpace {
  /** The user space of the clip path itself. */
  readonly place: Place;
  /** From the units of its contents to that space. */
  readonly units: Affine;
}

/**
 * Clip paths made of shapes (CSS Masking Level 1, section 5), which hold for an element and all in it. Others, such
 * as clips of text, or clipped themselves, are reported and not applied.
 */
export class ClipPaths {
  private readonly budget: Budget = { left: MOST_CLIP_PAIRS };
  /** Regions by clip path and place, since one clip often serves many elements. */
  private readonly known = new Map<string, ClipRegion | string>();
  private readonly cascade: Cascade;
  private readonly byId: ReadonlyMap<string, SvgElement>;
  private readonly boxes: ObjectBoxes;
  private readonly log: IssueLog;

  constructor(cascade: Cascade, byId: ReadonlyMap<string, SvgElement>, boxes: ObjectBoxes, log: IssueLog) {
    this.cascade = cascade;
    this.byId = byId;
    this.boxes = boxes;
    this.log = log;
  }

  /** The place with the element's clip path added, if it has one that can be applied. */
  within(element: SvgElement, place: Place): Place {
    const value = ownValue(place.style, 'clip-path');
    if (value === 'none') return place;
    const clip = this.read(value, element, place);
    if (typeof clip !== 'string') return { ...place, clips: [...place.clips, clip] };
    if (place.painted) this.reportIgnored(element, value, clip);
    return place;
  }

  /** The place inside a viewport, which hides what reaches beyond it unless `overflow` says otherwise. */
  insideViewport(place: Place, area: readonly Point[] | undefined, map: Affine): Place {
    const overflow = ownValue(place.style, 'overflow');
    const shows = place.style.own.has('overflow') && (overflow === 'visible' || overflow === 'auto');
    const outline = area?.map((corner) => applyToPoint(map, corner));
    if (shows || outline === undefined || !outline.every(isPointWithinReach)) return place;
    return { ...place, clips: [...place.clips, clipRegion([{ outline, openings: [] }])] };
  }

  /** The shape cut to all clip paths around it; undefined when nothing of it is left. */
  cut(element: SvgElement, shape: DrawingShape, clips: readonly ClipRegion[]): DrawingShape | undefined {
    let left: DrawingShape | undefined = shape;
    try {
      for (const clip of clips) {
        left = clipShape(left, clip, this.budget);
        if (left === undefined) return undefined;
      }
    } catch (error) {
      if (!(error instanceof ClipTooCostly)) throw error;
      // Once too costly, always: the shapes after this one would each use up what is left before they give up.
      this.budget.left = 0;
      this.reportIgnored(element, describeElement(element), TOO_COSTLY);
      return shape;
    }
    if (left !== shape) {
      this.log.note('clip-path-applied', 'the shape is cut to the clip path or viewport around it', element);
    }
    return left;
  }

  /** The region a `clip-path` lets through, or in a few words why it cannot be applied. */
  private read(value: string, element: SvgElement, place: Place): ClipRegion | string {
    const id = /^url\(\s*["']?#([^"')]*)["']?\s*\)$/i.exec(value)?.[1].trim();
    if (id === undefined) return 'only clip paths of this file are';
    const path = elementNamed(id, this.byId);
    if (path?.name !== 'clipPath') return 'there is none of this id';
    const space = this.clipSpace(path, element, place);
    if (typeof space === 'string') return space;
    // A clip path in the unit square of a box is drawn anew for each box: the map tells them apart.
    const key = `${space.place.map.join(' ')} ${space.units.join(' ')} ${id}`;
    let clip = this.known.get(key);
    if (clip === undefined) {
      clip = this.regionOf(path, space);
      this.known.set(key, clip);
    }
    return clip;
  }

  /** The user space that a clip path is drawn in, and the units of its contents: shares of the element's box, if so asked. */
  private clipSpace(path: SvgElement, element: SvgElement, place: Place): ClipSpace | string {
    if (path.attributes.get('clipPathUnits') !== 'objectBoundingBox') {
      const isViewport =
        element.name === 'symbol' || (element.name === 'svg' && element.parent !== undefined);
      if (element.name !== 'use' && !isViewport) return { place, units: IDENTITY };
      // In Chromium the viewBox scales the clip path too, in Firefox only what lies in the viewport.
      if (isViewport && element.attributes.has('viewBox'))
        return 'programs differ on its scale under a viewBox';
      // The x and y of a copy are the last step of its transform (SVG 2 section 5.6): its clip path moves with it. So
      // does that of a viewport in Chromium and Firefox.
      const shift = shiftOf({ element, style: place.style, frame: place.frame, log: this.log });
      return { place: { ...place, map: compose(place.map, shift) }, units: IDENTITY };
    }
    const box = this.boxes.boxOf(element, place.style, place.frame);
    if (box === undefined) return 'it is a share of a bounding box, which cannot be told here';
    // Percentages stay those of the viewport (SVG 2 section 8.9): half of a width of 200 is 100 widths of the box.
    return { place, units: [box.maxX - box.minX, 0, 0, box.maxY - box.minY, box.minX, box.minY] };
  }

  private regionOf(path: SvgElement, { place, units }: ClipSpace): ClipRegion | string {
    const style = this.styleInDocument(path, place);
    if (ownValue(style, 'clip-path') !== 'none') return 'it is clipped itself';
    const frame = framed(place.frame, style);
    // The units are those of the contents (CSS Masking Level 1), so the clip path's own transform is in the user space around them.
    const own = transformOf({ element: path, style, frame, log: this.log }, this.boxes);
    const map = compose(compose(place.map, own), units);
    const regions: Region[] = [];
    try {
      for (const child of path.children) {
        const problem = this.addChild(child, { ...place, map, style, frame }, regions, true);
        if (problem !== undefined) return problem;
      }
      return clipRegion(regions);
    } catch (error) {
      if (!(error instanceof ClipTooCostly)) throw error;
      this.budget.left = 0;
      return TOO_COSTLY;
    }
  }

  /** Adds the solid of a shape of a clip path; gives the problem when it is not a plain shape. */
  private addChild(child: SvgElement, place: Place, into: Region[], mayUse: boolean): string | undefined {
    const { kind } = kindOf(child.name);
    if (kind === 'silent') return undefined;
    const style = this.cascade.styleOf(child, place.style, place.frame);
    if (!isDisplayed(style) || !isVisible(style)) return undefined;
    if (ownValue(style, 'clip-path') !== 'none') return 'a shape of it is clipped itself';
    const frame = framed(place.frame, style);
    const source = { element: child, style, frame, log: this.log };
    const map = compose(place.map, transformOf(source, this.boxes));
    // A `use` in a clip path may only name a shape, not a group or another `use` (CSS Masking Level 1).
    if (child.name === 'use' && mayUse) {
      const target = targetOf(child, this.byId);
      if (!target.ok) return target.problem;
      const moved = compose(map, shiftOf(source));
      const copy = { ...place, map: moved, style: insideCopy(style, target.element), frame };
      return this.addChild(target.element, copy, into, false);
    }
    if (kind !== 'shape') return `<${child.name}> in it is no shape`;
    const curves = shapeCurves(source, map);
    if (!curves.every(isWithinReach)) return 'it reaches too far';
    into.push(...solidOf(curves, fillRuleOf(style.inherited['clip-rule']), this.budget));
    return undefined;
  }

  /** Style of a clip path, which follows from where it stands in the document, not from where it is used. */
  private styleInDocument(element: SvgElement, place: Place): Style {
    const ancestors: SvgElement[] = [];
    for (let e: SvgElement | undefined = element; e !== undefined; e = e.parent) ancestors.push(e);
    return ancestors.reduceRight((style, e) => this.cascade.styleOf(e, style, place.frame), INITIAL_STYLE);
  }

  private reportIgnored(element: SvgElement, value: string, why: string): void {
    const message = `the clip path is not applied (${why}): the whole shape is taken`;
    this.log.warn('clip-path-ignored', message, element, {
      received: quote(value),
      remedy: 'Cut the shapes to their visible part in the drawing program.',
    });
  }
}

import IndexedPointInAreaLocator from 'jsts/org/locationtech/jts/algorithm/locate/IndexedPointInAreaLocator.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import Location from 'jsts/org/locationtech/jts/geom/Location.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import IndexedFacetDistance from 'jsts/org/locationtech/jts/operation/distance/IndexedFacetDistance.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import IsValidOp from 'jsts/org/locationtech/jts/operation/valid/IsValidOp.js';
import { type Box, boxRing, type Point, type Region, type Ring } from '../../geometry/shapes.ts';
import { DISTANCE_TOLERANCE, FIGURE_TOLERANCE } from './tolerances.ts';

/**
 * The only door to jsts, a port of the JTS Topology Suite: reference geometry for the verifier, sharing no code
 * with the search. Only plain coordinates go in and come out.
 */

/** A region as the reference library holds it, with its indexes built when first asked for. */
export interface ReferenceRegion {
  /** Solid area in mm2. */
  readonly area: number;
  /** Length of all its rings in mm. */
  readonly boundaryLength: number;
  /** Box as [minX, minY, maxX, maxY], mm. */
  readonly box: readonly [number, number, number, number];
  /** Undefined when the region is one valid piece, but for a hair where its rings touch; else what is wrong with it. */
  readonly fault: string | undefined;
  /** Distance between the boundaries of the two regions in mm, and the nearest pair of points. */
  boundaryDistance(other: ReferenceRegion): { readonly distance: number; readonly at: Point };
  /** True when a vertex of the other region, outline or opening, lies inside the solid of this one. */
  holdsVertexOf(other: ReferenceRegion): boolean;
  /** True when every vertex of the other region's outline lies inside the solid of this one. */
  holdsOutlineOf(other: ReferenceRegion): boolean;
  /** Distance in mm from a point to the solid: 0 inside. */
  distanceTo(x: number, y: number): number;
  /** Area shared with the other region, mm2; not a number when the library fails at it. */
  sharedArea(other: ReferenceRegion): number;
  /** How deep the two regions lie in one another, mm; not a number when the library fails at it. */
  sharedDepth(other: ReferenceRegion): number;
  /** How far the region reaches out of the other one, mm; not a number when the library fails at it. */
  depthOutside(other: ReferenceRegion): number;
  /** Outline of the largest piece within a box, mm; empty when there is none, or when the library fails at it. */
  largestWithin(box: Box): Ring;
}

/** Opaque geometry of the library, which ships only untyped declarations. */
interface Geometry {
  getArea(): number;
  getLength(): number;
  getNumGeometries(): number;
  getGeometryN(n: number): Geometry;
  getCoordinates(): { x: number; y: number }[];
  getExteriorRing(): Geometry;
  getEnvelopeInternal(): { getMinX(): number; getMinY(): number; getMaxX(): number; getMaxY(): number };
}

const factory = new GeometryFactory();

/** Chords in a quarter of a circle, however small. */
const LEAST_CHORDS = 8;

class JstsRegion implements ReferenceRegion {
  readonly area: number;
  readonly boundaryLength: number;
  readonly box: readonly [number, number, number, number];
  readonly fault: string | undefined;
  private readonly polygon: Geometry;
  /** What overlays are made of. */
  private readonly solid: Geometry;
  private readonly facets: {
    nearestPoints(g: Geometry): { x: number; y: number }[];
    distance(g: Geometry): number;
  };
  private readonly locator: { locate(c: unknown): number };

  constructor(region: Region) {
    this.polygon = factory.createPolygon(
      linearRing(region.outline),
      region.openings.map(linearRing),
    ) as Geometry;
    this.area = this.polygon.getArea();
    this.boundaryLength = this.polygon.getLength();
    const envelope = this.polygon.getEnvelopeInternal();
    this.box = [envelope.getMinX(), envelope.getMinY(), envelope.getMaxX(), envelope.getMaxY()];
    const fault = faultOf(this.polygon);
    this.solid = fault === undefined ? this.polygon : rebuilt(this.polygon);
    this.fault = this.solid !== this.polygon && this.solid.getNumGeometries() === 1 ? undefined : fault;
    this.facets = new IndexedFacetDistance(this.polygon);
    this.locator = new IndexedPointInAreaLocator(this.polygon);
  }

  boundaryDistance(other: ReferenceRegion): { distance: number; at: Point } {
    const [p, q] = this.facets.nearestPoints((other as JstsRegion).polygon);
    return { distance: Math.hypot(p.x - q.x, p.y - q.y), at: [q.x, q.y] };
  }

  holdsVertexOf(other: ReferenceRegion): boolean {
    return (other as JstsRegion).polygon.getCoordinates().some((coordinate) => this.isInside(coordinate));
  }

  holdsOutlineOf(other: ReferenceRegion): boolean {
    return (other as JstsRegion).polygon
      .getExteriorRing()
      .getCoordinates()
      .every((coordinate) => this.isInside(coordinate));
  }

  distanceTo(x: number, y: number): number {
    if (!Number.isFinite(x) || !Number.isFinite(y)) return Number.NaN;
    const point = new Coordinate(x, y);
    return this.isInside(point) ? 0 : this.facets.distance(factory.createPoint(point) as Geometry);
  }

  private isInside(coordinate: unknown): boolean {
    return this.locator.locate(coordinate) === Location.INTERIOR;
  }

  sharedArea(other: ReferenceRegion): number {
    return this.areaOf((other as JstsRegion).solid);
  }

  /** Area of what lies in the region of a geometry of the library, mm2. */
  areaOf(geometry: Geometry): number {
    return measured(() => OverlayOp.intersection(this.solid, geometry).getArea());
  }

  sharedDepth(other: ReferenceRegion): number {
    return measured(() => depthOf(OverlayOp.intersection(this.solid, (other as JstsRegion).solid)));
  }

  depthOutside(other: ReferenceRegion): number {
    return measured(() => depthOf(OverlayOp.difference(this.solid, (other as JstsRegion).solid)));
  }

  largestWithin(box: Box): Ring {
    if (!(box.maxX > box.minX && box.maxY > box.minY)) return [];
    try {
      const within = OverlayOp.intersection(
        this.solid,
        factory.createPolygon(linearRing(boxRing(box)), []),
      ) as Geometry;
      const pieces = Array.from({ length: within.getNumGeometries() }, (_, n) => within.getGeometryN(n));
      const [largest] = pieces.sort((a, b) => b.getArea() - a.getArea());
      // Where the box touches the region alone the library hands in points and lines, which have no area.
      if (largest === undefined || !(largest.getArea() > 0)) return [];
      const coordinates = largest.getExteriorRing().getCoordinates();
      return coordinates.slice(1).map(({ x, y }): Point => [x, y]);
    } catch {
      return [];
    }
  }
}

/**
 * A polygon built again where its rings touch or cross by a hair, on which overlays fail: an opening whose corner lies on
 * the outline crosses it by the last digit, once it is moved. Itself where area is lost by that, or boundary that matters.
 */
function rebuilt(polygon: Geometry): Geometry {
  const built = BufferOp.bufferOp(polygon, 0) as Geometry;
  const isSame =
    Math.abs(built.getArea() - polygon.getArea()) <= FIGURE_TOLERANCE * polygon.getArea() &&
    Math.abs(built.getLength() - polygon.getLength()) <= DISTANCE_TOLERANCE;
  return isSame ? built : polygon;
}

/** Areas of what the blade saws around parts, mm2; not a number where the library fails at it. */
export interface SawnAreas {
  /** Of the parts and the path of the blade around them and in their openings. */
  readonly parts: number;
  /** The same, of a board alone. */
  readonly partsOn: (board: ReferenceRegion) => number;
  /** Of what falls out of their openings. */
  readonly openings: number;
}

/** Measures what a blade of so many mm saws around parts. */
export function sawnAreas(parts: readonly Region[], kerf: number): SawnAreas {
  const polygon = ({ outline, openings }: Region) =>
    factory.createPolygon(linearRing(outline), openings.map(linearRing));
  const grown = (regions: readonly Region[]) =>
    BufferOp.bufferOp(
      factory.createMultiPolygon(regions.map(polygon)),
      kerf,
      chordsInQuarter(kerf),
    ) as Geometry;
  try {
    const sawn = grown(parts);
    const area = sawn.getArea();
    const filled = parts.some(({ openings }) => openings.length > 0)
      ? grown(parts.map(({ outline }) => ({ outline, openings: [] }))).getArea()
      : area;
    return {
      parts: area,
      partsOn: (board) => (board as JstsRegion).areaOf(sawn),
      openings: filled - area,
    };
  } catch {
    return { parts: Number.NaN, partsOn: () => Number.NaN, openings: Number.NaN };
  }
}

/** Chords in a quarter of a circle that stay within a tolerance of it: so that its area, too, is told as closely at any radius. */
function chordsInQuarter(radius: number): number {
  // The middle of a chord of angle a is radius * (1 - cos(a / 2)) off the circle, radius * a ** 2 / 8 at most.
  return Math.max(LEAST_CHORDS, Math.ceil((Math.PI / 2) * Math.sqrt(radius / (8 * DISTANCE_TOLERANCE))));
}

/** What is wrong with a polygon and where, to a thousandth of a mm: as the library writes it, the place has a third coordinate. */
function faultOf(polygon: Geometry): string | undefined {
  const error = new IsValidOp(polygon).getValidationError();
  if (!error) return undefined;
  const { x, y } = error.getCoordinate();
  return `${error.getMessage()} at or near point (${x.toFixed(3)}, ${y.toFixed(3)})`;
}

/** What is measured of an overlay; NaN when the library finds the two boundaries too near to coincident to overlay. */
function measured(overlay: () => number): number {
  try {
    return overlay();
  } catch {
    return Number.NaN;
  }
}

/**
 * How wide a piece is, mm: all of it in the mean. Where that is a hair, as along an edge that two parts have in common, a tooth
 * beside it may still be deep: it is what remains when the hair is taken off all around.
 */
function depthOf(piece: Geometry): number {
  const width = meanWidth(piece);
  if (!(width > 0 && width <= DISTANCE_TOLERANCE)) return width;
  const deep = BufferOp.bufferOp(piece, -DISTANCE_TOLERANCE / 2) as Geometry;
  return deep.getArea() > 0 ? DISTANCE_TOLERANCE + meanWidth(deep) : width;
}

/** Width of a thin piece, mm: area over half its boundary; 0 for none. */
function meanWidth(piece: Geometry): number {
  const boundaryLength = piece.getLength();
  return boundaryLength > 0 ? piece.getArea() / (boundaryLength / 2) : 0;
}

function linearRing(ring: Ring): unknown {
  const coordinates = ring.map(([x, y]) => new Coordinate(x, y));
  coordinates.push(new Coordinate(ring[0][0], ring[0][1]));
  return factory.createLinearRing(coordinates);
}

/** Hands a region to the reference library. The outline needs three points at least. */
export function referenceRegion(region: Region): ReferenceRegion {
  return new JstsRegion(region);
}

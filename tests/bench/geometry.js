// Offsets and unions of organic outlines, beside general libraries that do the same; the results must agree.
import { performance } from 'node:perf_hooks';
import GeoJSONReader from 'jsts/org/locationtech/jts/io/GeoJSONReader.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import UnaryUnionOp from 'jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js';
import polygonClipping from 'polygon-clipping';
import { combineRegions, offsetRegions } from '../../dist/geometry/clipper.js';
import { regionsArea, ringArea } from '../../dist/geometry/ring.js';
import { growthExponent, median } from './median.js';

/** Points of an outline. */
const POINTS = 240;

/** Numbers of outlines: the growth is read between the least and the greatest, the libraries compared at the last. */
const SIZES = [25, 100, 400];

/** Distance in mm by which outlines are grown, and segments of a quarter turn that jsts gets for the same fineness. */
const DISTANCE = 2;
const QUADRANT_SEGMENTS = 12;

/** Areas of the same result by two libraries may differ by this share: fretlay grows by up to 0.01 mm too much on purpose. */
const AGREE = 2e-3;

/** Outlines in rows, each one overlapping its neighbours. */
function outlines(count) {
  return Array.from({ length: count }, (_, i) => {
    const [cx, cy] = [34 * (i % 20), 34 * Math.floor(i / 20)];
    return Array.from({ length: POINTS }, (_, k) => {
      const angle = (2 * Math.PI * k) / POINTS;
      const radius = 18 + 3 * Math.sin((3 + (i % 5)) * angle);
      return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
    });
  });
}

/** Each operation by fretlay and by the others, over the same outlines; every one gives the area of its result. */
function operations(rings) {
  const regions = rings.map((outline) => ({ outline, openings: [] }));
  const closed = rings.map((ring) => [...ring, ring[0]]);
  const reader = new GeoJSONReader();
  const many = () => reader.read({ type: 'MultiPolygon', coordinates: closed.map((ring) => [ring]) });
  return {
    [`each grown by ${DISTANCE} mm`]: {
      fretlay: () => regions.reduce((sum, region) => sum + regionsArea(offsetRegions([region], DISTANCE)), 0),
      jsts: () =>
        closed.reduce((sum, ring) => {
          const polygon = reader.read({ type: 'Polygon', coordinates: [ring] });
          return sum + BufferOp.bufferOp(polygon, DISTANCE, QUADRANT_SEGMENTS).getArea();
        }, 0),
    },
    'union of all': {
      fretlay: () => regionsArea(combineRegions('union', regions, [])),
      'polygon-clipping': () =>
        polygonClipping
          .union(...closed.map((ring) => [ring]))
          .reduce(
            (sum, [outer, ...holes]) => sum + ringArea(outer) - holes.reduce((s, h) => s + ringArea(h), 0),
            0,
          ),
      jsts: () => UnaryUnionOp.union(many()).getArea(),
    },
  };
}

/** Median milliseconds of every library, taken in turn, and the area each of them found. */
function compared(works, runs) {
  const times = Object.fromEntries(Object.keys(works).map((name) => [name, []]));
  const areas = {};
  for (let run = 0; run < runs; run++) {
    for (const [name, work] of Object.entries(works)) {
      const start = performance.now();
      areas[name] = work();
      times[name].push(performance.now() - start);
    }
  }
  for (const [name, area] of Object.entries(areas)) {
    if (Math.abs(area / areas.fretlay - 1) > AGREE)
      throw new Error(`${name} finds an area of ${area} mm2, fretlay ${areas.fretlay} mm2`);
  }
  return Object.fromEntries(Object.entries(times).map(([name, list]) => [name, median(list)]));
}

export function benchGeometry({ runs, json }) {
  const measured = SIZES.map((count) => {
    const works = operations(outlines(count));
    return Object.entries(works).map(([what, work]) => ({ what, count, milliseconds: compared(work, runs) }));
  });
  const rows = measured.at(-1).map(({ what, count, milliseconds }, i) => ({
    what,
    outlines: count,
    pointsEach: POINTS,
    milliseconds,
    growthExponent: growthExponent(
      SIZES,
      measured.map((operation) => operation[i].milliseconds.fretlay),
    ),
    beside: Object.entries(milliseconds)
      .filter(([name]) => name !== 'fretlay')
      .map(([name, time]) => ({ name, ratio: milliseconds.fretlay / time })),
  }));
  if (json) {
    process.stdout.write(`${JSON.stringify({ bench: 'geometry', rows }, null, 2)}\n`);
    return;
  }
  for (const row of rows) {
    process.stdout.write(
      `${row.what}, ${row.outlines} outlines of ${row.pointsEach} points: ${row.milliseconds.fretlay.toFixed(1)} ms, growth exponent ${row.growthExponent.toFixed(2)}\n`,
    );
    for (const { name, ratio } of row.beside) {
      process.stdout.write(`  ${ratio.toFixed(2)} times what ${name} takes\n`);
    }
  }
}

// How long reading takes and how it grows: drawings of organic outlines, made by a seeded generator, of 0.25 to 20 MB.
import { performance } from 'node:perf_hooks';
import { measurePattern, readPattern } from '../../dist/index.js';

/** Wavy outlines of cubics side by side on a square page, until the text is as long as asked for. */
function drawingOf(bytes) {
  let state = 7;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const paths = [];
  let length = 0;
  for (let i = 0; length < bytes; i++) {
    const [cx, cy] = [60 * (i % 40) + 30, 60 * Math.floor(i / 40) + 30];
    const points = 120;
    const radius = (k) => 20 + 6 * Math.sin((6 * Math.PI * k) / points) + 2 * next();
    const at = (k, r) => [
      cx + r * Math.cos((2 * Math.PI * k) / points),
      cy + r * Math.sin((2 * Math.PI * k) / points),
    ];
    const write = (p) => `${p[0].toFixed(3)},${p[1].toFixed(3)}`;
    let d = `M${write(at(0, 22))}`;
    for (let k = 1; k <= points; k++) {
      d += ` C${write(at(k - 0.66, radius(k)))} ${write(at(k - 0.33, radius(k)))} ${write(at(k % points, 22))}`;
    }
    paths.push(`<path id="p${i}" d="${d}Z"/>`);
    length += d.length;
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="2400mm" height="2400mm" viewBox="0 0 2400 2400">${paths.join('\n')}</svg>`;
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Median, least and greatest of `runs` readings at each size; memory is the resident set after the last one. */
export function benchImporting({ runs, json }) {
  const rows = [0.25, 1, 4, 20].map((megabytes) => {
    const text = drawingOf(megabytes * 1e6);
    let parts = 0;
    let checksum = 0;
    const times = Array.from({ length: megabytes > 4 ? Math.min(3, runs) : runs }, () => {
      const start = performance.now();
      const { pattern } = readPattern(text, { file: 'bench.svg' });
      checksum = measurePattern(pattern).area;
      parts = pattern.layers.reduce((sum, layer) => sum + layer.parts.length, 0);
      return performance.now() - start;
    });
    return {
      megabytes: text.length / 1e6,
      parts,
      milliseconds: median(times),
      least: Math.min(...times),
      greatest: Math.max(...times),
      residentMegabytes: process.memoryUsage().rss / 1e6,
      checksum,
    };
  });
  const growth =
    Math.log(rows[3].milliseconds / rows[1].milliseconds) / Math.log(rows[3].megabytes / rows[1].megabytes);
  if (json) {
    process.stdout.write(
      `${JSON.stringify({ bench: 'importing', growthExponent: growth, rows }, null, 2)}\n`,
    );
    return;
  }
  for (const row of rows) {
    process.stdout.write(
      `${row.megabytes.toFixed(2)} MB, ${row.parts} parts: median ${row.milliseconds.toFixed(0)} ms (${row.least.toFixed(0)} to ${row.greatest.toFixed(0)}), ${row.residentMegabytes.toFixed(0)} MB resident\n`,
    );
  }
  process.stdout.write(`growth exponent from 1 to 20 MB: ${growth.toFixed(2)}\n`);
}

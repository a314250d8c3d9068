// How long reading takes and how it grows: drawings of organic outlines of 0.25 to 20 MB; at 1 MB beside what general
// libraries take for less of the work.
import { performance } from 'node:perf_hooks';
import { Resvg } from '@resvg/resvg-js';
import svgpath from 'svgpath';
import { parseSync } from 'svgson';
import { measurePattern, readPattern } from '../../dist/index.js';
import { growthExponent, median } from './median.js';
import { wavyDrawing } from './wavy-drawing.js';

/** Size in MB at which the other libraries are asked to read the same drawing. */
const COMPARED_AT = 1;

/** Sizes of the drawings, MB. */
export const MEGABYTES = [0.25, COMPARED_AT, 4, 20];

/** Median, least and greatest of `runs` readings at each of the sizes. */
export function benchImporting({ runs, json }) {
  const rows = MEGABYTES.map((megabytes) => {
    const text = wavyDrawing(megabytes * 1e6);
    let found;
    const times = Array.from({ length: megabytes > 4 ? Math.min(3, runs) : runs }, () =>
      timed(() => {
        found = partsOf(text);
      }),
    );
    return {
      megabytes: text.length / 1e6,
      parts: found.parts,
      milliseconds: median(times),
      least: Math.min(...times),
      greatest: Math.max(...times),
      checksum: found.area,
    };
  });
  const large = rows.filter(({ megabytes }) => megabytes >= COMPARED_AT);
  const growth = growthExponent(
    large.map(({ megabytes }) => megabytes),
    large.map(({ milliseconds }) => milliseconds),
  );
  const beside = baselines(wavyDrawing(COMPARED_AT * 1e6), runs);
  if (json) {
    process.stdout.write(
      `${JSON.stringify({ bench: 'importing', growthExponent: growth, rows, beside }, null, 2)}\n`,
    );
    return;
  }
  for (const row of rows) {
    process.stdout.write(
      `${row.megabytes.toFixed(2)} MB, ${row.parts} parts: median ${row.milliseconds.toFixed(0)} ms (${row.least.toFixed(0)} to ${row.greatest.toFixed(0)})\n`,
    );
  }
  process.stdout.write(`growth exponent from 1 to 20 MB: ${growth.toFixed(2)}\n`);
  for (const { what, milliseconds, ratio } of beside) {
    process.stdout.write(
      `${what}: ${milliseconds.toFixed(0)} ms; fretlay takes ${ratio.toFixed(2)} times that\n`,
    );
  }
}

/** One reading, in a process of its own: what `npm run bench -- memory` holds to less and less of it. */
export function readOnce({ megabytes, json }) {
  const row = { bench: 'reading', megabytes, ...partsOf(wavyDrawing(megabytes * 1e6)) };
  process.stdout.write(json ? `${JSON.stringify(row)}\n` : `${megabytes} MB, ${row.parts} parts\n`);
}

function partsOf(text) {
  const { pattern } = readPattern(text, { file: 'bench.svg' });
  const parts = pattern.layers.reduce((sum, layer) => sum + layer.parts.length, 0);
  return { parts, area: measurePattern(pattern).area };
}

/** The same text by general libraries and by fretlay in turn, so that both meet the same machine. */
function baselines(text, runs) {
  const others = [
    ['the tags by svgson, the paths made absolute cubics by svgpath', () => pathsOf(text)],
    [
      'a picture 2,400 pixels wide by resvg',
      () => new Resvg(text, { fitTo: { mode: 'width', value: 2400 } }).render().width,
    ],
  ];
  return others.map(([what, read]) => {
    const own = [];
    const theirs = [];
    for (let run = 0; run < runs; run++) {
      own.push(timed(() => readPattern(text, { file: 'bench.svg' })));
      theirs.push(timed(read));
    }
    return { what, milliseconds: median(theirs), ratio: median(own) / median(theirs) };
  });
}

function pathsOf(text) {
  return parseSync(text).children.map(({ attributes }) => svgpath(attributes.d).abs().unshort().unarc());
}

/** Milliseconds that something takes. */
function timed(work) {
  const start = performance.now();
  work();
  return performance.now() - start;
}

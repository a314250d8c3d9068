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

/** Median, least and greatest of `runs` readings at each size; memory is the resident set after the last one. */
export function benchImporting({ runs, json }) {
  const rows = [0.25, COMPARED_AT, 4, 20].map((megabytes) => {
    const text = wavyDrawing(megabytes * 1e6);
    let parts = 0;
    let checksum = 0;
    const times = Array.from({ length: megabytes > 4 ? Math.min(3, runs) : runs }, () =>
      timed(() => {
        const { pattern } = readPattern(text, { file: 'bench.svg' });
        checksum = measurePattern(pattern).area;
        parts = pattern.layers.reduce((sum, layer) => sum + layer.parts.length, 0);
      }),
    );
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
      `${row.megabytes.toFixed(2)} MB, ${row.parts} parts: median ${row.milliseconds.toFixed(0)} ms (${row.least.toFixed(0)} to ${row.greatest.toFixed(0)}), ${row.residentMegabytes.toFixed(0)} MB resident\n`,
    );
  }
  process.stdout.write(`growth exponent from 1 to 20 MB: ${growth.toFixed(2)}\n`);
  for (const { what, milliseconds, ratio } of beside) {
    process.stdout.write(
      `${what}: ${milliseconds.toFixed(0)} ms; fretlay takes ${ratio.toFixed(2)} times that\n`,
    );
  }
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

import { Resvg } from '@resvg/resvg-js';
import { combineRegions, offsetRegions } from '../../src/geometry/clipper.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import type { Region } from '../../src/geometry/shapes.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { readDrawing } from '../../src/svg/read-drawing.ts';

/** Drawings nobody here made, measured twice: by an independent renderer's pixels, and by the parts read from them. */

export interface Painted {
  /** Share of the page that is painted. */
  readonly share: number;
  readonly pieces: number;
  readonly openings: number;
}

/** What the picture shows: 8-connected solids, 4-connected openings, as pixels are counted. */
export function paintedByPixels(text: string, size: number): Painted {
  const { pixels, width, height } = new Resvg(text, {
    fitTo: { mode: 'width', value: size },
    font: { loadSystemFonts: false },
  }).render();
  // A frame of one unpainted pixel joins everything outside.
  const w = width + 2;
  const solid = new Uint8Array(w * (height + 2));
  let covered = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const alpha = pixels[4 * (y * width + x) + 3];
      covered += alpha;
      solid[(y + 1) * w + x + 1] = alpha > 127 ? 1 : 0;
    }
  }
  const [outside, pieces] = countAreas(solid, w);
  return { share: covered / 255 / (width * height), pieces, openings: outside - 1 };
}

/** Connected areas of value 0 and of value 1. The frame is of value 0, so no solid reaches round the end of a row. */
function countAreas(cells: Uint8Array, w: number): [number, number] {
  const straight = [-1, 1, -w, w];
  const all = [...straight, -w - 1, -w + 1, w - 1, w + 1];
  const seen = new Uint8Array(cells.length);
  const stack = new Int32Array(cells.length);
  const counts: [number, number] = [0, 0];
  for (let start = 0; start < cells.length; start++) {
    if (seen[start] === 1) continue;
    const value = cells[start];
    counts[value as 0 | 1]++;
    let top = 0;
    stack[top++] = start;
    seen[start] = 1;
    while (top > 0) {
      const cell = stack[--top];
      for (const step of value === 1 ? all : straight) {
        const next = cell + step;
        if (next < 0 || next >= cells.length || seen[next] === 1 || cells[next] !== value) continue;
        seen[next] = 1;
        stack[top++] = next;
      }
    }
  }
  return counts;
}

/**
 * What the parts cover together, of the page the renderer shows.
 *
 * Parts that share an edge or a corner are kept apart for the saw but are one area to the eye, so gaps narrower than
 * a pixel of a picture `size` pixels wide are closed before pieces and openings are counted; none are without one.
 */
export function paintedByParts(text: string, file: string, size?: number): Painted {
  const { drawing } = readDrawing(text, { file });
  const [, , boxWidth, boxHeight] = (/viewBox=["']([^"']*)/.exec(text)?.[1] ?? '')
    .split(/[\s,]+/)
    .map(Number);
  // A set without a stated size is measured as if its viewBox were in pixels.
  const page = drawing.page ?? { width: (boxWidth * 25.4) / 96, height: (boxHeight * 25.4) / 96 };
  const { pattern } = patternFromDrawing({ ...drawing, page });
  const regions = pattern.layers.flatMap(({ parts }) => parts.map(({ region }) => region));
  const sheet = { outline: pageRing(page), openings: [] };
  const united = combineRegions('intersection', combineRegions('union', regions, []), [sheet]);
  const area = united.reduce((sum, region) => sum + regionArea(region), 0);
  const seen = size === undefined ? united : withoutGaps(united, page.width / size);
  return {
    share: area / (page.width * page.height),
    pieces: seen.length,
    openings: seen.reduce((sum, { openings }) => sum + openings.length, 0),
  };
}

/** The regions with every gap narrower than `width` closed. */
function withoutGaps(regions: readonly Region[], width: number): Region[] {
  const grown = offsetRegions(regions, width / 2, width / 20);
  return offsetRegions(grown, -width / 2, width / 20);
}

function pageRing({ width, height }: { width: number; height: number }) {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const;
}

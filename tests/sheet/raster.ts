import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Resvg } from '@resvg/resvg-js';

/** Drawings as pixels, by renderers foreign to the project. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** Darkness of a pixel, 0 to 255, row by row. */
  readonly dark: Uint8Array;
}

/** At 254 dots per inch a millimetre is 10 pixels (1 in = 25.4 mm exactly). */
export const DPI = 254;
export const PIXELS_PER_MM = 10;

/** An SVG drawing rendered by resvg. */
export function rasterOfSvg(svg: string): Raster {
  const image = new Resvg(svg, { dpi: DPI, background: 'white', font: { loadSystemFonts: false } }).render();
  const { width, height, pixels } = image;
  const dark = new Uint8Array(width * height);
  for (let i = 0; i < dark.length; i++) dark[i] = 255 - pixels[4 * i + 1];
  return { width, height, dark };
}

/** True when the PDF renderer of poppler is there. */
export function hasPoppler(): boolean {
  try {
    execFileSync('pdftoppm', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Pages of a PDF rendered in grey by poppler. */
export function rastersOfPdf(pdf: Uint8Array, first: number, last: number): Raster[] {
  const folder = mkdtempSync(path.join(tmpdir(), 'sheet-'));
  try {
    const file = path.join(folder, 'pages.pdf');
    writeFileSync(file, pdf);
    const range = ['-f', `${first}`, '-l', `${last}`];
    execFileSync('pdftoppm', ['-r', `${DPI}`, '-gray', ...range, file, path.join(folder, 'page')]);
    return readdirSync(folder)
      .filter((name) => name.endsWith('.pgm'))
      .sort()
      .map((name) => readPgm(readFileSync(path.join(folder, name))));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The text of a PDF as poppler extracts it, in reading order. */
export function textOfPdf(pdf: Uint8Array): string {
  return execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' });
}

/** Reads a binary portable grey map: `P5 width height 255` and the pixels. */
function readPgm(bytes: Uint8Array): Raster {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 64));
  const match = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(head);
  if (match === null) throw new Error('not a binary grey map');
  const [width, height] = [Number(match[1]), Number(match[2])];
  const dark = bytes.slice(match[0].length, match[0].length + width * height).map((grey) => 255 - grey);
  return { width, height, dark };
}

/** Darkness along a row, or down a column, at a place in mm. */
export function scan(raster: Raster, direction: 'across' | 'down', at: number): number[] {
  const fixed = Math.round(at * PIXELS_PER_MM);
  const length = direction === 'across' ? raster.width : raster.height;
  return Array.from({ length }, (_, i) =>
    direction === 'across' ? raster.dark[fixed * raster.width + i] : raster.dark[i * raster.width + fixed],
  );
}

/** Centres of the dark runs of a scan, weighted by darkness, in mm from its start. */
export function lineCentres(darkness: readonly number[]): number[] {
  const centres: number[] = [];
  let weight = 0;
  let moment = 0;
  [...darkness, 0].forEach((dark, i) => {
    if (dark > 0) {
      weight += dark;
      moment += dark * (i + 0.5);
    } else if (weight > 0) {
      centres.push(moment / weight / PIXELS_PER_MM);
      weight = 0;
      moment = 0;
    }
  });
  return centres;
}

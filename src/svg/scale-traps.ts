import { type Box, boundsOf, type Point } from '../geometry/shapes.ts';
import type { DrawingGroup } from '../model/drawing.ts';
import { paintedShapes } from '../model/painted-shapes.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { PAPER_SIZES } from '../units/paper.ts';
import { prefixedAttribute, type SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';
import type { Page } from './page.ts';

/**
 * Hints that a drawing was made at another scale than the standard's 96 px per inch. Before CSS fixed the pixel,
 * drawing programs wrote 90 (one of them up to its version 0.91) or 72 per inch; both were counted in real files.
 * Hints are notes: the standard's reading stands, and a person decides.
 */
const OLDER_PIXELS = [90, 72] as const;

/** How near a page must come to a paper size, px: programs round to whole or hundredth pixels. */
const PAPER_MATCH_PX = 0.75;

/** A physical page with both sides below this looks like inches read as millimetres, mm. */
const SMALL_PAGE = 45;
/** A physical page with a side above this looks like millimetres read as inches, mm. */
const LARGE_PAGE = 5000;

/** Adds a note for each hint that the drawing's scale is another than the one it is read at. */
export function reportScaleTraps(
  root: SvgElement,
  page: Page,
  comments: readonly string[],
  drawing: DrawingGroup,
  log: IssueLog,
): void {
  const { size } = page;
  if (size === undefined) return;
  const mmPerPx = page.frame.mmPerPx;
  if (!page.physicalUnit) {
    const width = size.width / mmPerPx;
    const height = size.height / mmPerPx;
    const older = olderPixels(root, width, height, comments);
    if (older === undefined) reportPixels(root, width, height, mmPerPx, log);
    else reportOlder(root, older.why, older.perInch, mmPerPx, log);
    return;
  }
  if (page.viewBox === undefined) reportUnitsInside(root, size, mmPerPx, drawing, log);
  const larger = Math.max(size.width, size.height);
  if (larger < SMALL_PAGE)
    reportFactor(root, 'the page is very small: were inches meant?', MM_PER_UNIT.in, log);
  if (larger > LARGE_PAGE) {
    reportFactor(root, 'the page is very large: were millimetres meant?', 1 / MM_PER_UNIT.in, log);
  }
}

interface Older {
  readonly perInch: number;
  readonly why: string;
}

function olderPixels(
  root: SvgElement,
  width: number,
  height: number,
  comments: readonly string[],
): Older | undefined {
  for (const perInch of OLDER_PIXELS) {
    for (const [name, [short, long]] of Object.entries(PAPER_SIZES)) {
      const matches = (a: number, b: number): boolean =>
        Math.abs(width - (a / MM_PER_UNIT.in) * perInch) < PAPER_MATCH_PX &&
        Math.abs(height - (b / MM_PER_UNIT.in) * perInch) < PAPER_MATCH_PX;
      if (matches(short, long) || matches(long, short)) {
        return { perInch, why: `the page is ${name} paper at ${perInch} pixels per inch` };
      }
    }
  }
  if (isVersionBefore092(root))
    return { perInch: 90, why: 'the program that drew it wrote 90 pixels per inch' };
  if (comments.some((comment) => /Adobe Illustrator/.test(comment))) {
    return { perInch: 72, why: 'the program that drew it writes 72 pixels per inch' };
  }
  return undefined;
}

/** The program that notes its version in the root changed from 90 to 96 px per inch with 0.92. */
function isVersionBefore092(root: SvgElement): boolean {
  const version = /^0\.(\d+)/.exec(prefixedAttribute(root, 'version') ?? '');
  return version !== null && Number(`0.${version[1]}`) < 0.92;
}

/** A page in mm without viewBox: user units are px, but a program or hand may have meant millimetres or older px. */
function reportUnitsInside(
  root: SvgElement,
  size: { readonly width: number; readonly height: number },
  mmPerPx: number,
  drawing: DrawingGroup,
  log: IssueLog,
): void {
  if (isVersionBefore092(root)) {
    reportOlder(root, 'the program that drew it wrote 90 pixels per inch', 90, mmPerPx, log);
    return;
  }
  const bounds = paintedBounds(drawing);
  const across = bounds.maxX / (size.width * mmPerPx);
  const down = bounds.maxY / (size.height * mmPerPx);
  // A drawing made in millimetres fills its page by its numbers; one in px only by chance.
  const fills = (share: number): boolean => share > 0.8 && share <= 1;
  if (fills(Math.max(across, down)) && Math.min(across, down) > 0) {
    reportFactor(root, 'the drawing fills the page if its numbers are millimetres', 1 / mmPerPx, log);
  }
}

function reportPixels(root: SvgElement, width: number, height: number, mmPerPx: number, log: IssueLog): void {
  const perInch = Math.round(MM_PER_UNIT.in / mmPerPx);
  log.note('size-in-pixels', `the page has no physical unit: read at ${perInch} pixels per inch`, root, {
    received: `${shortened(width)} x ${shortened(height)} px`,
    remedy: 'Check one length against the finished piece.',
  });
}

function reportOlder(root: SvgElement, why: string, perInch: number, mmPerPx: number, log: IssueLog): void {
  const factor = MM_PER_UNIT.in / perInch / mmPerPx;
  // The caller has said so already.
  if (Math.abs(factor - 1) < 0.001) return;
  log.note(
    'scale-older-pixels',
    `${why}: everything may be meant ${factor.toFixed(4)} times as large`,
    root,
    {
      remedy: `Read it at ${perInch} pixels per inch if one length of the finished piece says so.`,
    },
  );
}

function reportFactor(root: SvgElement, why: string, factor: number, log: IssueLog): void {
  log.note('scale-unit-mistaken', `${why} (factor ${factor.toFixed(4)})`, root, {
    remedy: 'Check one length against the finished piece.',
  });
}

/** The box around all that is painted, by end points: close enough for a hint. */
function paintedBounds(group: DrawingGroup): Box {
  const ends: Point[] = [];
  for (const { curves } of paintedShapes(group)) {
    for (const { start, segments } of curves) {
      ends.push(start);
      for (const { to } of segments) ends.push(to);
    }
  }
  return boundsOf(ends);
}

function shortened(value: number): string {
  return `${Number(value.toFixed(2))}`;
}

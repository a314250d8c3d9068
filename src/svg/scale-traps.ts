import { type Box, boundsOf, type Point } from '../geometry/shapes.ts';
import type { DrawingGroup } from '../model/drawing.ts';
import { paintedShapes } from '../model/painted-shapes.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { PAPER_SIZES } from '../units/paper.ts';
import type { SvgDocument } from './document.ts';
import { prefixedAttribute, type SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';
import type { Page } from './page.ts';
import type { ViewportSize } from './viewport.ts';

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

/** A program's pixel per inch other than the standard's, and what gives it away. */
interface Older {
  readonly perInch: number;
  readonly why: string;
}

/** What a root of the program that changed its pixel with version 0.92 says; see {@link isVersionBefore092}. */
const BEFORE_092: Older = { perInch: 90, why: 'the program that drew it wrote 90 pixels per inch' };

/** Adds a note for each hint that the drawing's scale is another than the one it is read at. */
export function reportScaleTraps(
  { root, comments }: SvgDocument,
  page: Page,
  drawing: DrawingGroup,
  log: IssueLog,
): void {
  const { size } = page;
  if (size === undefined) return;
  const { mmPerPx } = page.frame;
  const inPx = { width: size.width / mmPerPx, height: size.height / mmPerPx };
  if (!page.physicalUnit) {
    const older =
      paperInOlderPixels(inPx) ?? (isVersionBefore092(root) ? BEFORE_092 : olderByComment(comments));
    if (older === undefined) reportPixels(root, inPx, mmPerPx, log);
    else reportOlder(root, older, mmPerPx, log);
    return;
  }
  // A page in mm without viewBox: user units are px, but a program or hand may have meant millimetres or older px.
  if (page.viewBox === undefined) {
    if (isVersionBefore092(root)) reportOlder(root, BEFORE_092, mmPerPx, log);
    else if (fillsInMillimetres(drawing, size, mmPerPx)) {
      reportFactor(root, 'the drawing fills the page if its numbers are millimetres', 1 / mmPerPx, log);
    }
  }
  const larger = Math.max(size.width, size.height);
  if (larger < SMALL_PAGE)
    reportFactor(root, 'the page is very small: were inches meant?', MM_PER_UNIT.in, log);
  if (larger > LARGE_PAGE) {
    reportFactor(root, 'the page is very large: were millimetres meant?', 1 / MM_PER_UNIT.in, log);
  }
}

/** A page that is a sheet of paper to the pixel: the strongest hint, as chance hardly makes one. */
function paperInOlderPixels({ width, height }: ViewportSize): Older | undefined {
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
  return undefined;
}

function olderByComment(comments: readonly string[]): Older | undefined {
  return comments.some((comment) => /Adobe Illustrator/.test(comment))
    ? { perInch: 72, why: 'the program that drew it writes 72 pixels per inch' }
    : undefined;
}

/** The program that notes its version in the root changed from 90 to 96 px per inch with 0.92. */
function isVersionBefore092(root: SvgElement): boolean {
  const version = /^0\.(\d+)/.exec(prefixedAttribute(root, 'version') ?? '');
  return version !== null && Number(`0.${version[1]}`) < 0.92;
}

/** True when the drawing, its numbers read as millimetres, fills the page, whose size is in mm. */
function fillsInMillimetres(drawing: DrawingGroup, page: ViewportSize, mmPerPx: number): boolean {
  const bounds = paintedBounds(drawing);
  const across = bounds.maxX / (page.width * mmPerPx);
  const down = bounds.maxY / (page.height * mmPerPx);
  // A drawing made in millimetres fills its page by its numbers; one in px only by chance.
  const fills = (share: number): boolean => share > 0.8 && share <= 1;
  return fills(Math.max(across, down)) && Math.min(across, down) > 0;
}

function reportPixels(root: SvgElement, page: ViewportSize, mmPerPx: number, log: IssueLog): void {
  const perInch = Math.round(MM_PER_UNIT.in / mmPerPx);
  log.note('size-in-pixels', `the page has no physical unit: read at ${perInch} pixels per inch`, root, {
    received: `${shortened(page.width)} x ${shortened(page.height)} px`,
    remedy: 'Check one length against the finished piece.',
  });
}

function reportOlder(root: SvgElement, { why, perInch }: Older, mmPerPx: number, log: IssueLog): void {
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

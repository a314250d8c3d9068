import { type Affine, compose } from '../geometry/affine.ts';
import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import { ownValue, type Style } from './cascade.ts';
import type { SvgElement } from './element.ts';
import type { StyledSource } from './element-lengths.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { type LengthFrame, physicalMillimetres, readLength } from './units.ts';
import type { ViewBox } from './view-box.ts';
import { fittedMap, reportedViewBox } from './viewport.ts';

/** The page of a drawing: its size, and where user space lies on it. */
export interface Page {
  /** Size in mm; undefined when the document states none. */
  readonly size: { readonly width: number; readonly height: number } | undefined;
  /** True when the size is written in mm, inches or another physical unit. */
  readonly physicalUnit: boolean;
  /** From user units of the root to mm on the page. */
  readonly map: Affine;
  /** What lengths inside refer to. */
  readonly frame: LengthFrame;
  readonly viewBox: ViewBox | undefined;
}

/** A size in mm that the caller knows the page to have. One side is enough when there is a viewBox. */
export interface DrawnSize {
  readonly width?: number | undefined;
  readonly height?: number | undefined;
}

/**
 * Works out the page from the root element and its style (SVG 2 sections 8.1 to 8.7). Stops the reading when the page
 * has no area.
 *
 * @param source the root in a frame without a size, since nothing lies around it that a share could be of
 * @param drawnSize overrules what the document states
 */
export function readPage(source: StyledSource, drawnSize: DrawnSize | undefined): Page {
  const { element: root, style, log } = source;
  const { mmPerPx } = source.frame;
  const stated = { width: statedSide(source, 'width'), height: statedSide(source, 'height') };
  // A page without viewBox that is known to be larger or smaller than it states has to be scaled: its stated size then
  // serves as the viewBox.
  const viewBox = rootViewBox(root, log) ?? (drawnSize === undefined ? undefined : wholePage(stated));
  const known = drawnSize === undefined ? stated : inPx(drawnSize, mmPerPx);
  const { width, height } = completed(known, viewBox);
  // A page beyond the range of the geometry is as good as none; shapes out there are left out one by one.
  const sized =
    width !== undefined && height !== undefined && Math.max(width, height) * mmPerPx <= FARTHEST_MM;
  if (known.width === undefined && known.height === undefined) reportNoSize(root, log);
  const toMm: Affine = [mmPerPx, 0, 0, mmPerPx, 0, 0];
  const fit =
    viewBox === undefined
      ? undefined
      : fittedMap(viewBox, { width: width ?? viewBox.width, height: height ?? viewBox.height }, root, log);
  return {
    size: sized ? { width: width * mmPerPx, height: height * mmPerPx } : undefined,
    physicalUnit:
      drawnSize !== undefined ||
      SIDES.some((side) => physicalMillimetres(sideText(root, style, side)) !== undefined),
    map: fit === undefined ? toMm : compose(toMm, fit),
    frame: { ...source.frame, width: viewBox?.width ?? width, height: viewBox?.height ?? height },
    viewBox,
  };
}

interface Sides {
  readonly width: number | undefined;
  readonly height: number | undefined;
}

/** A side of the root in px; undefined when it is absent, `auto`, or a share of a window that a cut has not. */
function statedSide(
  { element: root, style, frame, log }: StyledSource,
  side: (typeof SIDES)[number],
): number | undefined {
  const text = sideText(root, style, side);
  if (isNoSize(text)) return undefined;
  // Not by `sizeOf`: a size of 0 paints nothing and stops the reading, where other mistakes are only passed over.
  const reading = readLength(text, side === 'width' ? 'x' : 'y', frame);
  if (reading.ok && reading.value > 0 && reading.value * frame.mmPerPx <= FARTHEST_MM) return reading.value;
  if (reading.ok && reading.value === 0) {
    log.fail('page-empty', `the page has a ${side} of 0: nothing of it is painted`, root, {
      expected: 'a length above 0',
      received: quote(text),
      remedy: `Give the drawing a ${side}.`,
    });
  }
  log.warn(
    'page-size-ignored',
    `the ${side} of the page is no length up to ${FARTHEST_MM / 1000} m: ignored`,
    root,
    {
      expected: 'a number with its unit right behind it, such as "300mm" or "11.5in"',
      received: quote(text),
    },
  );
  return undefined;
}

const SIDES = ['width', 'height'] as const;

/**
 * The text of a side. A style wins over the attribute, but not one like `width: 100%`, which fits the drawing into
 * a web page and says nothing of its size.
 */
function sideText(root: SvgElement, style: Style, side: (typeof SIDES)[number]): string {
  const styled = ownValue(style, side).trim();
  return isNoSize(styled) ? (root.attributes.get(side)?.trim() ?? 'auto') : styled;
}

function isNoSize(text: string): boolean {
  return text === '' || text === 'auto' || text.endsWith('%');
}

function rootViewBox(root: SvgElement, log: IssueLog): ViewBox | undefined {
  const reading = reportedViewBox(root, log);
  if (reading.kind === 'empty') {
    log.fail('page-empty', 'the viewBox has no area: nothing of it is painted', root, {
      expected: 'a width and a height above 0',
      received: quote(root.attributes.get('viewBox') ?? ''),
      remedy: 'Give the viewBox the size of the drawing.',
    });
  }
  return reading.kind === 'box' ? reading.box : undefined;
}

function wholePage({ width, height }: Sides): ViewBox | undefined {
  return width === undefined || height === undefined ? undefined : { x: 0, y: 0, width, height };
}

function inPx({ width, height }: DrawnSize, mmPerPx: number): Sides {
  return {
    width: width === undefined ? undefined : width / mmPerPx,
    height: height === undefined ? undefined : height / mmPerPx,
  };
}

/** A missing side follows the other through the proportions of the viewBox (SVG 2 section 8.12). */
function completed({ width, height }: Sides, box: ViewBox | undefined): Sides {
  if (box === undefined) return { width, height };
  return {
    width: width ?? (height === undefined ? undefined : (height * box.width) / box.height),
    height: height ?? (width === undefined ? undefined : (width * box.height) / box.width),
  };
}

function reportNoSize(root: SvgElement, log: IssueLog): void {
  log.warn('size-not-stated', 'the drawing states no size: its scale is not known', root, {
    expected: 'width and height such as width="300mm" on the <svg> element',
    remedy: 'State the size of the page, or the finished size of a named part.',
  });
}

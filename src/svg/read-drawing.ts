import { type Affine, compose, IDENTITY } from '../geometry/affine.ts';
import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import { number, optional, record, that, words } from '../issues/checks.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { misspelt, recordByHand } from '../issues/record-by-hand.ts';
import type { Drawing } from '../model/drawing.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { reportCapitals } from './capitals.ts';
import { Cascade, INITIAL_FONT_SIZE, INITIAL_STYLE } from './cascade.ts';
import { readDocument } from './document.ts';
import type { StyledSource } from './element-lengths.ts';
import { IssueLog } from './issue-log.ts';
import { ObjectBoxes } from './object-boxes.ts';
import { reportOffPage } from './off-page.ts';
import { type DrawnSize, type Page, readPage } from './page.ts';
import { transformOf } from './place.ts';
import { elementsById } from './references.ts';
import { reportScaleTraps } from './scale-traps.ts';
import { StyleSheets } from './style-sheets.ts';
import { about } from './transform-list.ts';
import { Walk } from './walk.ts';

/** How to read a drawing. */
export interface ReadDrawingOptions {
  /** Name of the file, for messages. */
  readonly file?: string | undefined;
  /**
   * Pixels per inch of the program that drew it (default 96, as CSS has it; some older programs wrote 90 or 72).
   * Decides the scale of drawings whose page has no physical unit.
   */
  readonly pixelsPerInch?: number | undefined;
  /** What the page truly measures, in mm, for drawings that state no size or a wrong one; one side is enough. */
  readonly drawnSize?: DrawnSize | undefined;
}

/** A drawing, or none when an issue is an error. */
export interface ReadDrawingResult {
  readonly drawing: Drawing | undefined;
  readonly issues: Issue[];
}

/**
 * Reads SVG text into a drawing in millimetres and hands back what went wrong as data; never throws on any text.
 *
 * Supported is what decides where lines lie: SVG 2 path data, basic shapes, transforms, viewports, units, `use`,
 * style sheets, visibility. What paints otherwise (text, pictures, masks, filters, markers) is left out and reported.
 */
export function tryReadDrawing(svgText: string, options: ReadDrawingOptions = {}): ReadDrawingResult {
  const wrong = inputIssues(svgText, options);
  if (wrong.length > 0) return { drawing: undefined, issues: wrong };
  const log = new IssueLog(options.file ?? 'drawing');
  try {
    return { drawing: read(svgText, options, log), issues: log.issues };
  } catch (error) {
    if (error instanceof FretlayError) return { drawing: undefined, issues: [...error.issues] };
    throw error;
  }
}

/** Reads SVG text into a drawing in millimetres. Throws a {@link FretlayError} with all issues when it cannot. */
export function readDrawing(
  svgText: string,
  options: ReadDrawingOptions = {},
): { readonly drawing: Drawing; readonly issues: Issue[] } {
  const { drawing, issues } = tryReadDrawing(svgText, options);
  if (drawing === undefined) throw new FretlayError(issues);
  return { drawing, issues };
}

function read(svgText: string, options: ReadDrawingOptions, log: IssueLog): Drawing {
  const mmPerPx = MM_PER_UNIT.in / (options.pixelsPerInch ?? 96);
  const document = readDocument(svgText, log);
  const { root } = document;
  reportCapitals(root, log);
  const cascade = new Cascade(new StyleSheets(root, log), log);
  const outside = {
    width: undefined,
    height: undefined,
    fontSize: INITIAL_FONT_SIZE,
    rootFontSize: INITIAL_FONT_SIZE,
    mmPerPx,
  };
  const style = cascade.styleOf(root, INITIAL_STYLE, outside);
  // Only the root's own font size is measured in the initial one; every length after it, in its own.
  const { fontSize } = style;
  const source = { element: root, style, frame: { ...outside, fontSize, rootFontSize: fontSize }, log };
  const page = readPage(source, options.drawnSize);
  const byId = elementsById(root);
  const boxes = new ObjectBoxes(cascade, byId);
  const walk = new Walk(cascade, byId, boxes, log);
  const map = compose(rootTransform(source, page.size, boxes), page.map);
  const group = walk.root(root, {
    map,
    style,
    frame: page.frame,
    depth: 0,
    painted: true,
    clips: [],
    reused: false,
  });
  reportOffPage(root, page.size, group, log);
  reportScaleTraps(document, page, group, log);
  return { file: log.file, page: page.size, root: group, account: walk.accountList() };
}

/**
 * The map, in mm on the page, of a transform on the root element itself. It turns the whole page, about its middle
 * unless an origin is given (CSS Transforms Level 1, section 5: the root has a layout box).
 */
function rootTransform(source: StyledSource, page: Page['size'], boxes: ObjectBoxes): Affine {
  const { mmPerPx } = source.frame;
  const turned = transformOf(source, boxes);
  if (turned === IDENTITY) return IDENTITY;
  source.log.warn('page-transformed', 'the whole page is transformed', source.element, {
    remedy: 'Check that the drawing comes out as large and as turned as meant.',
  });
  // The transform is stated in px of the page, the map ends in mm: it is done between the two.
  const inMm = compose(
    [mmPerPx, 0, 0, mmPerPx, 0, 0],
    compose(turned, [1 / mmPerPx, 0, 0, 1 / mmPerPx, 0, 0]),
  );
  const middled = page !== undefined && !source.style.own.has('transform-origin');
  return middled ? about(inMm, page.width / 2, page.height / 2) : inMm;
}

const size = optional(
  number({ least: 0, most: FARTHEST_MM, above: true }, 'Leave it out if it is not known.'),
);
const drawnSize = optional(recordByHand({ width: size, height: size }));
const slips = misspelt({ file: optional(words()), pixelsPerInch: size, drawnSize });
const text = that((value) => typeof value === 'string', 'the text of an SVG drawing');

/** What is handed in that can be no drawing, and sizes that are none. */
function inputIssues(svgText: unknown, options: ReadDrawingOptions): Issue[] {
  const issues = [...text('svgText', svgText), ...record({})('options', options)];
  if (issues.length > 0) return issues;
  const file = typeof options.file === 'string' ? options.file : 'drawing';
  return [
    ...slips('options', options),
    ...optional(words())('file', options.file),
    ...size('pixelsPerInch', options.pixelsPerInch),
    ...drawnSize('drawnSize', options.drawnSize),
  ].map((issue) => ({ ...issue, where: { file, ...issue.where } }));
}

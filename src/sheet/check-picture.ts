import { type Box, boundsOf, boxesMeet, type Point } from '../geometry/shapes.ts';
import { both, displayUnit, record, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { lengthsInText } from '../issues/lengths-in-text.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Finding, FindingGroup, PatternCheck, SawFitting } from '../model/pattern-check.ts';
import { foundCheck, patternCheck } from '../model/pattern-checks.ts';
import { formatNumber } from '../svg/number.ts';
import { element, linePath, ringsPath, type WrittenElement, writeDocument } from '../svg/write.ts';
import type { DisplayUnit } from '../units/length.ts';
import { textWidth } from './marks/text-width.ts';

/** Room around the drawing and height of a line of the list, mm. */
const MARGIN = 8;
const LINE_HEIGHT = 4.2;

/** Mean width of a letter of the list, mm, taken generously: the list has to end on the page. */
const LETTER_WIDTH = 1.6;

/** Radius of the ring around a place, mm; the number stands beside it. */
const RING_RADIUS = 2.2;
const NUMBER_SIZE = 3;

/** Least gap between two numbers side by side, mm: any closer, a 1 and a 2 are read as 12. */
const NUMBER_GAP = 0.5 * NUMBER_SIZE;

/** The picture has the name of the drawing for its title. */
const titleCheck = record({ file: words() }, 'Hand in the pattern of `readPattern`.');

/**
 * The picture of a pattern check: the parts at finished size with every place numbered, and the list of what was
 * found below, with the saw it was held against, as SVG. Places that are told together share a number. Warnings have a
 * full ring, notes a dashed one, so that print without colour tells them apart.
 *
 * @param unit unit of the lengths in the list (default mm)
 * @throws FretlayError for what is no pattern or no check of one, and for another unit
 */
export function drawCheckPicture(pattern: Pattern, check: PatternCheck, unit: DisplayUnit = 'mm'): string {
  throwOnErrors([
    ...both(patternCheck, titleCheck)('pattern', pattern),
    ...foundCheck('check', check),
    ...displayUnit('unit', unit),
  ]);
  const regions = pattern.layers.flatMap(({ parts }) => parts.map(({ region }) => region));
  if (regions.length === 0)
    throwOnErrors([
      wrongValue(
        'pattern.layers',
        pattern.layers,
        'a part in one layer at least',
        'Hand in the pattern of `readPattern`.',
      ),
    ]);
  const box = boundsOf(regions.flatMap(({ outline }) => outline));
  const listTop = box.maxY + MARGIN + LINE_HEIGHT;
  const told = [...check.groups.map(listText), sawText(check.saw)];
  const lines = told.map((text) => lengthsInText(text, unit));
  const longest = Math.max(0, ...lines.map((line) => line.length)) * LETTER_WIDTH;
  const width = Math.max(box.maxX - box.minX, longest) + 2 * MARGIN;
  const height = listTop + lines.length * LINE_HEIGHT - box.minY + 2 * MARGIN;
  const view = [box.minX - MARGIN, box.minY - MARGIN, width, height];
  return writeDocument(
    element(
      'svg',
      {
        xmlns: 'http://www.w3.org/2000/svg',
        width: `${formatNumber(width)}mm`,
        height: `${formatNumber(height)}mm`,
        viewBox: view.map(formatNumber).join(' '),
        'font-family': 'sans-serif',
      },
      [
        element('title', {}, [`${pattern.file}: what the saw meets`]),
        element('rect', { x: view[0], y: view[1], width, height, fill: 'white' }),
        ...pattern.layers.map(drawLayer),
        ...drawPlaces(check.groups),
        ...lines.map((line, i) =>
          element('text', { x: box.minX, y: listTop + i * LINE_HEIGHT, 'font-size': 2.8, fill: '#222' }, [
            line,
          ]),
        ),
      ],
    ),
  );
}

function drawLayer({ name, parts }: Pattern['layers'][number]): WrittenElement {
  return element('g', { fill: '#f3ead9', stroke: '#555', 'stroke-width': 0.2 }, [
    element('title', {}, [name]),
    ...parts.flatMap(({ region, veins }) => [
      element('path', {
        d: ringsPath([region.outline, ...region.openings]),
        'fill-rule': 'evenodd',
        'fill-opacity': 0.7,
      }),
      ...veins.map((vein) => element('path', { d: linePath(vein), fill: 'none' })),
    ]),
  ]);
}

/** Rings and numbers, no number on another: a part that is small has its weak places close together. */
function drawPlaces(groups: readonly FindingGroup[]): WrittenElement[] {
  const taken: Box[] = [];
  return groups.flatMap(({ findings }, i) =>
    findings.map((finding) => {
      const number = `${i + 1}`;
      const boxes = numberBoxes(finding.at, number);
      const box = boxes.find((each) => !taken.some((other) => boxesMeet(each, other))) ?? boxes[0];
      taken.push({ ...box, minX: box.minX - NUMBER_GAP, maxX: box.maxX + NUMBER_GAP });
      return drawPlace(finding, number, box);
    }),
  );
}

/** Where the number of a place may stand, the best first: right of its ring or left, then farther up or down. */
function numberBoxes([x, y]: Point, number: string): Box[] {
  const width = textWidth(number, NUMBER_SIZE);
  const away = RING_RADIUS + 0.4;
  return [0, 1, 2, 3].flatMap((step) =>
    [-1, 1].flatMap((side) => {
      const middle = y + side * (RING_RADIUS + 0.5 * NUMBER_SIZE + step * NUMBER_SIZE) - 0.1 * NUMBER_SIZE;
      const rows = { minY: middle - 0.4 * NUMBER_SIZE, maxY: middle + 0.4 * NUMBER_SIZE };
      return [x + away, x - away - width].map((minX): Box => ({ minX, maxX: minX + width, ...rows }));
    }),
  );
}

function drawPlace(finding: Finding, number: string, box: Box): WrittenElement {
  const [x, y] = finding.at;
  const dash = finding.severity === 'note' ? '0.8 0.6' : undefined;
  return element('g', { stroke: '#a1260d', fill: 'none', 'stroke-width': 0.35 }, [
    element('title', {}, [finding.message]),
    element('circle', { cx: x, cy: y, r: RING_RADIUS, 'stroke-dasharray': dash }),
    ...(finding.span === undefined ? [] : [element('path', { d: linePath(finding.span) })]),
    element(
      'text',
      {
        x: box.minX,
        y: box.maxY - 0.05 * NUMBER_SIZE,
        'font-size': NUMBER_SIZE,
        fill: '#a1260d',
        stroke: 'none',
        'font-weight': 'bold',
      },
      [number],
    ),
  ]);
}

function listText({ findings: [{ layer }], parts, message, advice }: FindingGroup, i: number): string {
  return `${i + 1}  ${layer}, ${parts.join(', ')}: ${message}. ${advice}`;
}

/** Another blade meets other places: what a check without a job holds a pattern against is only the common one. */
function sawText({ kerf, bladeWidth, hole }: SawFitting): string {
  return `Checked for a kerf of ${kerf.toFixed(2)} mm, a blade ${bladeWidth.toFixed(2)} mm wide and holes of ${hole.toFixed(2)} mm.`;
}

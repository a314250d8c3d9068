import { type Affine, applyToRing } from '../../geometry/affine.ts';
import { formatNumber } from '../../svg/number.ts';
import { type Attributes, element, linePath, ringsPath, type WrittenElement } from '../../svg/write.ts';
import { FONT_FAMILY, MARK_STYLES } from './mark-styles.ts';
import type {
  ClipMark,
  GroupMark,
  LineMark,
  MapMark,
  Mark,
  MarkedDrawing,
  MarkRole,
  RingsMark,
  TextMark,
} from './marks.ts';

/** How a drawing becomes an SVG element. */
export interface SvgOptions {
  /** Name of the drawing for people who cannot see it. */
  readonly title: string;
  readonly description: string;
  /** Put before every id, so that several drawings can stand in one page. Default none. */
  readonly idPrefix?: string;
}

/** The drawing as an SVG element at true scale: width and height in mm, one user unit is one millimetre. */
export function drawingToSvg(drawing: MarkedDrawing, options: SvgOptions): WrittenElement {
  const prefix = options.idPrefix ?? '';
  const { x, y, width, height } = drawing;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: `${formatNumber(width)}mm`,
      height: `${formatNumber(height)}mm`,
      viewBox: [x, y, width, height].map(formatNumber).join(' '),
      role: 'img',
      'aria-labelledby': `${prefix}title ${prefix}description`,
      'font-family': FONT_FAMILY,
      'stroke-linejoin': 'round',
      'stroke-linecap': 'round',
      fill: 'none',
    },
    [
      element('title', { id: `${prefix}title` }, [options.title]),
      element('desc', { id: `${prefix}description` }, [options.description]),
      ...markElements(drawing.marks, prefix),
    ],
  );
}

/** Marks as elements, in order. Neighbouring lines of one role become one path: hatching would be bulky else. */
function markElements(marks: Iterable<Mark>, prefix: string): WrittenElement[] {
  const elements: WrittenElement[] = [];
  let pending: { role: MarkRole; path: string } | undefined;
  const flush = () => {
    if (pending !== undefined) elements.push(element('path', { ...look(pending.role), d: pending.path }));
    pending = undefined;
  };
  for (const mark of marks) {
    if (mark.kind === 'line') {
      if (pending?.role !== mark.role) flush();
      pending = { role: mark.role, path: (pending?.path ?? '') + linePath(mark.points) };
      continue;
    }
    // Whatever is not a line ends the path, or things would be painted out of order.
    flush();
    elements.push(...elementsOf(mark, prefix));
  }
  flush();
  return elements;
}

function elementsOf(mark: Exclude<Mark, LineMark>, prefix: string): WrittenElement[] {
  if (mark.kind === 'clip') return clipElements(mark, prefix);
  return mark.kind === 'map' ? mapElements(mark, prefix) : [markElement(mark, prefix)];
}

/** Smaller by their points and not by a transform, which would make their lines thinner too. */
function mapElements({ scale, shift, marks }: MapMark, prefix: string): WrittenElement[] {
  const map: Affine = [scale, 0, 0, scale, shift[0], shift[1]];
  const smaller = marks.map((mark) =>
    mark.kind === 'line'
      ? { ...mark, points: applyToRing(map, mark.points) }
      : { ...mark, rings: mark.rings.map((ring) => applyToRing(map, ring)) },
  );
  return markElements(smaller, prefix);
}

function clipElements({ id, window, shift, marks }: ClipMark, prefix: string): WrittenElement[] {
  const rectangle = element('rect', {
    x: window.minX,
    y: window.minY,
    width: window.maxX - window.minX,
    height: window.maxY - window.minY,
  });
  return [
    element('clipPath', { id: `${prefix}${id}` }, [rectangle]),
    element('g', { 'clip-path': `url(#${prefix}${id})` }, [
      element(
        'g',
        { transform: `translate(${shift.map(formatNumber).join(' ')})` },
        markElements(marks, prefix),
      ),
    ]),
  ];
}

function markElement(mark: GroupMark | RingsMark | TextMark, prefix: string): WrittenElement {
  switch (mark.kind) {
    case 'group':
      return element('g', { id: `${prefix}${mark.id}` }, [
        element('title', {}, [mark.title]),
        ...markElements(mark.marks, prefix),
      ]);
    case 'rings':
      return element('path', { ...look(mark.role), d: ringsPath(mark.rings) });
    case 'text':
      return textElement(mark);
  }
}

function textElement(mark: TextMark): WrittenElement {
  const style = MARK_STYLES[mark.role];
  return element(
    'text',
    {
      class: mark.role,
      x: mark.at[0],
      y: mark.at[1],
      'font-size': mark.size,
      'font-weight': style.bold ? 'bold' : undefined,
      'text-anchor': mark.anchor === 'start' ? undefined : mark.anchor,
      fill: style.fill,
    },
    [mark.text],
  );
}

/** The class tells the role to programs; the look stands beside it, for printing needs no style sheet then. */
function look(role: MarkRole): Attributes {
  const { stroke, width, fill, dash } = MARK_STYLES[role];
  return {
    class: role,
    stroke,
    'stroke-width': stroke === undefined ? undefined : width,
    'stroke-dasharray': dash?.map(formatNumber).join(' '),
    fill,
    'fill-rule': fill === undefined ? undefined : 'evenodd',
  };
}

import {
  both,
  type Check,
  isRecord,
  listOf,
  number,
  oneOf,
  record,
  that,
  words,
} from '../../issues/checks.ts';
import { wrongValue } from '../../issues/wrong-value.ts';
import { MARK_STYLES } from './mark-styles.ts';

/** Checks of marks that a program hands in by itself: a number that is none would be written into the page, and end it. */

/** Farther out than any drawing reaches, and well within what a page writes without an exponent, mm. */
const FAR = 1e9;

const drawn = number({ least: -FAR, most: FAR, unit: 'mm' });
const points = that(arePoints, 'a list of points [x, y], two numbers of mm each');
const point = that(isPoint, 'a point [x, y], two numbers of mm');
const role = oneOf(Object.keys(MARK_STYLES));

const byKind: Readonly<Record<string, Check>> = {
  line: record({ role, points }),
  rings: record({ role, rings: listOf(points) }),
  text: record({ role, text: words(), at: point, size: drawn, anchor: oneOf(['start', 'middle', 'end']) }),
  group: record({ id: words(), title: words(), marks: someMarks }),
  clip: record({
    id: words(),
    window: record({ minX: drawn, minY: drawn, maxX: drawn, maxY: drawn }),
    shift: point,
    marks: listOf(mark),
  }),
  map: record({
    scale: drawn,
    shift: point,
    marks: listOf(both(record({ kind: oneOf(['line', 'rings']) }), mark)),
  }),
};

/** A drawing as it becomes a page. */
export const markedDrawingCheck: Check = record(
  { x: drawn, y: drawn, width: drawn, height: drawn, marks: listOf(mark) },
  'Hand in pages of `boardPages` or `partPages`.',
);

function mark(field: string, value: unknown): ReturnType<Check> {
  const kind = (value as { kind?: unknown } | null | undefined)?.kind;
  const check = typeof kind === 'string' && Object.hasOwn(byKind, kind) ? byKind[kind] : undefined;
  return (
    check?.(field, value) ?? [wrongValue(`${field}.kind`, kind, `one of ${Object.keys(byKind).join(', ')}`)]
  );
}

/** Marks that are made when they are asked for are made well, and would be made twice to look at them. */
function someMarks(field: string, value: unknown): ReturnType<Check> {
  const isMade = isRecord(value) && Symbol.iterator in value;
  return isMade ? [] : listOf(mark)(field, value);
}

/** Written so that NaN fails too. */
function isDrawn(value: unknown): boolean {
  return typeof value === 'number' && Math.abs(value) <= FAR;
}

function isPoint(value: unknown): boolean {
  return Array.isArray(value) && isDrawn(value[0]) && isDrawn(value[1]);
}

function arePoints(value: unknown): boolean {
  // Not by `every`, which passes over gaps in a list.
  return Array.isArray(value) && value.findIndex((each) => !isPoint(each)) < 0;
}

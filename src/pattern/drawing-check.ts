import { type Check, flag, listOf, number, oneOf, optional, record, that, words } from '../issues/checks.ts';
import { FINITE } from '../issues/number-issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';

/** The check of a drawing that is handed in: what its layers and parts are made from. */

/** Groups in one another: far more than a drawing has, and fewer than a walk through them holds. */
const DEEPEST = 1000;

const maybeWords = optional(words());

/** Points and angles of each kind of segment. */
const SEGMENTS: Readonly<
  Record<string, { readonly points: readonly string[]; readonly angles: readonly string[] }>
> = {
  line: { points: ['to'], angles: [] },
  cubic: { points: ['c1', 'c2', 'to'], angles: [] },
  arc: { points: ['centre', 'u', 'v', 'to'], angles: ['start', 'sweep'] },
};

const curve = record({
  start: that(isPoint, 'a point [x, y], two numbers'),
  // Looked at in one go: a field name for each of a million segments would take longer than their use.
  segments: (field, value) => {
    if (!Array.isArray(value)) return [wrongValue(field, value, 'a list')];
    const at = value.findIndex((segment) => !isSegment(segment));
    return at < 0
      ? []
      : [wrongValue(`${field}[${at}]`, value[at], 'a line, a cubic or an arc of finite numbers')];
  },
  closed: flag(),
});

const named = { id: maybeWords, label: maybeWords };

const shape = record({
  ...named,
  element: words(),
  line: optional(number(FINITE)),
  curves: listOf(curve),
  fill: words(),
  fillRule: oneOf(['nonzero', 'evenodd']),
  stroke: words(),
  strokeWidth: number({ ...FINITE, least: 0, unit: 'mm' }),
  isClipped: optional(flag()),
});

const kind = record({ kind: oneOf(['group', 'shape']) });

/** A group, and what is in it. */
function groupAt(depth: number): Check {
  const member: Check = (field, value) => {
    const wrong = kind(field, value);
    if (wrong.length > 0) return wrong;
    if ((value as { readonly kind: string }).kind === 'shape') return shape(field, value);
    return depth < DEEPEST
      ? groupAt(depth + 1)(field, value)
      : [wrongValue(field, value, `at most ${DEEPEST} groups in one another`)];
  };
  return record({
    ...named,
    kind: oneOf(['group']),
    visible: flag(),
    isLayer: flag(),
    children: listOf(member),
  });
}

/** A drawing as it is read. */
export const drawingCheck: Check = record(
  {
    file: words(),
    page: optional(record({})),
    root: groupAt(0),
  },
  'Hand in the drawing of `readDrawing`.',
);

function isSegment(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const segment = value as Readonly<Record<string, unknown>>;
  const { kind: form } = segment;
  if (typeof form !== 'string' || !Object.hasOwn(SEGMENTS, form)) return false;
  const { points, angles } = SEGMENTS[form];
  return (
    points.every((name) => isPoint(segment[name])) && angles.every((name) => Number.isFinite(segment[name]))
  );
}

function isPoint(value: unknown): boolean {
  return Array.isArray(value) && Number.isFinite(value[0]) && Number.isFinite(value[1]);
}

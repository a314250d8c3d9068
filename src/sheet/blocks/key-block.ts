import type { Point } from '../../geometry/shapes.ts';
import { drawnBlock, moveMarks } from '../marks/arrange.ts';
import { grainArrow } from '../marks/arrow.ts';
import type { Block } from '../marks/block.ts';
import { diamond, dot, line, type Mark, type MarkRole, rectangle, rings, text } from '../marks/marks.ts';
import { LINE_STEP, wrapped } from '../marks/text-width.ts';

/** The key of a sheet: what every line and mark on it means, with a sample of each; of marks it has not, nothing. */

const WIDTH = 79;
/** Samples are this wide, mm, and rows this far apart. */
const SAMPLE = 11;
const STEP = 4.2;
const SMALL = 2.6;
const HEAD = 10;
/** Below the last row, mm. */
const FOOT = 2;

interface KeyRow {
  /** The row is shown when any of these is drawn. */
  readonly roles: readonly MarkRole[];
  readonly words: string;
  /**
   * Drawn from (0, 0), the left end of the sample at half its height. Made when asked for: a program that draws no key
   * has none of them in memory.
   */
  readonly sample: () => readonly Mark[];
}

const FROM: Point = [0, 0];
const TO: Point = [SAMPLE, 0];
const MIDDLE: Point = [SAMPLE / 2, 0];

function across(role: MarkRole): Mark {
  return line(role, FROM, TO);
}

const ROWS: readonly KeyRow[] = [
  {
    roles: ['part-edge'],
    words: 'edge of a part; the waste is outside of it',
    sample: () => [across('part-edge')],
  },
  {
    roles: ['bright-edge'],
    words: 'edge of a part or of an opening',
    sample: () => [across('bright-edge')],
  },
  {
    roles: ['wide-edge', 'wide-edge-core'],
    words: 'edge of a part: saw along the white line',
    sample: () => [across('wide-edge'), across('wide-edge-core')],
  },
  {
    roles: ['opening-edge', 'waste-hatch'],
    words: 'opening: what is hatched falls out',
    sample: () => [
      ...[1.5, 3.5, 5.5, 7.5].map((x) => line('waste-hatch', [x, 1.4], [x + 2, -1.4])),
      rings('opening-edge', rectangle(1.5, -1.4, 8, 2.8)),
    ],
  },
  {
    roles: ['vein', 'vein-end'],
    words: 'vein: one pass, from diamond to diamond',
    sample: () => [across('vein'), ...[FROM, TO].map((at) => rings('vein-end', diamond(at, 0.5)))],
  },
  {
    roles: ['hole-centre'],
    words: 'hole to drill as ringed; no ring: to suit the blade',
    sample: () => [
      line('hole-centre', [MIDDLE[0] - 1.6, 0], [MIDDLE[0] + 1.6, 0]),
      line('hole-centre', [MIDDLE[0], -1.6], [MIDDLE[0], 1.6]),
      rings('hole-centre', dot(MIDDLE, 0.8)),
    ],
  },
  {
    roles: ['cut-number', 'cut-lead'],
    words: 'place of a cut in the order, at its start',
    sample: () => [
      text('cut-number', '12', [2.5, 0.8], 2.1, 'middle'),
      line('cut-lead', [4.2, 0], [8, 0]),
      rings('cut-number', dot([8, 0], 0.3)),
    ],
  },
  {
    roles: ['unnumbered'],
    words: 'start of a cut numbered in the cut list alone',
    sample: () => [rings('unnumbered', dot(MIDDLE, 0.3))],
  },
  { roles: ['tab'], words: 'tab that holds a small part: the last cut', sample: () => [across('tab')] },
  {
    roles: ['weak'],
    words: 'weak place (thin, or short in the grain): no force',
    sample: () => [
      line('weak', ...[0, 1, 2, 3, 4, 5, 6].map((i): Point => [2.5 + i, i % 2 === 0 ? 0.6 : -0.6])),
    ],
  },
  {
    roles: ['label', 'reported-label'],
    words: 'layer \u00b7 part \u00b7 set; in a stack its first set',
    sample: () => [text('label', 'a \u00b7 b \u00b7 1', [0, 0.8], SMALL)],
  },
  {
    roles: ['reported-label'],
    words: 'number of the part in the report',
    sample: () => [text('reported-label', 'no. 3', [0, 0.8], SMALL)],
  },
  {
    roles: ['part-number'],
    words: 'part named in the list below the board',
    sample: () => [text('part-number', 'p12', [0, 0.8], SMALL)],
  },
  {
    roles: ['leader', 'leader-end'],
    words: 'leads from a label to its part',
    sample: () => [across('leader'), rings('leader-end', dot(FROM, 0.4))],
  },
  {
    roles: ['grain', 'grain-head'],
    words: 'direction of the grain',
    sample: () => grainArrow(SAMPLE / 2, 0, SAMPLE, 2.6),
  },
  {
    roles: ['rest-edge'],
    words: 'straight edge: lay it on the ripped edge',
    sample: () => [across('rest-edge')],
  },
  { roles: ['board-edge'], words: 'end or edge of the board', sample: () => [across('board-edge')] },
  {
    roles: ['usable-edge'],
    words: 'trim the board to this line first',
    sample: () => [across('usable-edge')],
  },
  {
    roles: ['section', 'section-name'],
    words: 'cross-cut between sections: saw along it',
    sample: () => [across('section')],
  },
  { roles: ['keeper'], words: 'cut that parts off a keeper: saw along it', sample: () => [across('keeper')] },
  {
    roles: ['defect', 'defect-hatch'],
    words: 'knot or other defect: no part lies on it',
    sample: () => [
      rings('defect', rectangle(1.5, -1.4, 8, 2.8)),
      ...[3, 6].map((x) => line('defect-hatch', [x, 1.4], [x + 2.8, -1.4])),
    ],
  },
  {
    roles: ['trim', 'join'],
    words: 'trim one page here, bow tie on bow tie',
    sample: () => [
      across('trim'),
      rings('join', [MIDDLE, [MIDDLE[0] - 1.3, -1.3], [MIDDLE[0] - 1.3, 1.3]]),
      rings('join', [MIDDLE, [MIDDLE[0] + 1.3, -1.3], [MIDDLE[0] + 1.3, 1.3]]),
    ],
  },
  {
    roles: ['straight-on'],
    words: 'straight on from strip to strip, by a ruler',
    sample: () => [across('straight-on')],
  },
];

/** On which side of the line to saw: the one sentence that must not be missed. */
const THIN_LINE =
  'Saw on the waste side of each line, so that the line just stays: outside an outline, inside an opening.';
const WIDE_LINE = 'Saw along the white line in the black band: it is the edge of the part.';

/** The key to what is drawn, by the roles of its marks. */
export function keyBlock(roles: ReadonlySet<MarkRole>): Block {
  return keyBlocks(roles, { width: WIDTH, height: Number.POSITIVE_INFINITY })[0];
}

/**
 * The key in as many blocks as it takes for none to be higher than the room there is, each with the rule on its top; in smaller
 * type where it has less than its width.
 *
 * @param room in mm
 */
export function keyBlocks(
  roles: ReadonlySet<MarkRole>,
  room: { readonly width: number; readonly height: number },
): Block[] {
  const width = Math.min(WIDTH, room.width);
  const rule = wrapped(roles.has('wide-edge') ? WIDE_LINE : THIN_LINE, width - 6, SMALL);
  const head = HEAD + rule.length * LINE_STEP * SMALL + 1.6;
  const rows = ROWS.filter((row) => row.roles.some((role) => roles.has(role)));
  const most = Math.max(1, Math.min(rows.length, Math.floor((room.height - head - FOOT) / STEP)));
  const count = Math.max(1, Math.ceil(rows.length / most));
  return Array.from({ length: count }, (_, i) => {
    const own = rows.slice(i * most, (i + 1) * most);
    const height = head + own.length * STEP + FOOT;
    const named = { id: i === 0 ? 'key' : `key-${i + 1}`, title: 'Key to lines and marks' };
    return drawnBlock({ ...named, width, height }, [
      rings('frame', rectangle(0, 0, width, height)),
      text('heading', 'What the lines mean', [3, 7], 4),
      line('frame', [0, HEAD], [width, HEAD]),
      ...rule.map((words, k) => text('heading', words, [3, HEAD + 4 + k * LINE_STEP * SMALL], SMALL)),
      ...own.flatMap((row, k) => rowMarks(row, head + (k + 0.5) * STEP + 0.8, width)),
    ]);
  });
}

function rowMarks({ sample, words }: KeyRow, y: number, width: number): Mark[] {
  const left = 3 + SAMPLE + 2.5;
  const size = (SMALL * (width - left)) / (WIDTH - left);
  return [...moveMarks(sample(), 3, y), text('text', words, [left, y + 0.9], size)];
}

import { expect, test } from 'vitest';
import { boundsOf, boxHolds, type Line } from '../../src/geometry/shapes.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { keyBlock } from '../../src/sheet/blocks/key-block.ts';
import { boardMarks } from '../../src/sheet/board/board-marks.ts';
import { PartDrawer } from '../../src/sheet/board/part-marks.ts';
import { flatMarks, type Mark, type MarkRole, rolesOf } from '../../src/sheet/marks/marks.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { partMap, partPlaces } from '../../src/sheet/paper/board-map.ts';
import { boardTiles } from '../../src/sheet/paper/board-tiles.ts';
import { BoxedMarks } from '../../src/sheet/paper/boxed-marks.ts';
import { box, handBoard, handLayout } from './hand-layout.ts';

/** What explains itself: words beside a mark, and the white under a number. */
const PLAIN: ReadonlySet<MarkRole> = new Set([
  'caption',
  'section-name',
  'paper',
  'text',
  'heading',
  'frame',
]);

const board = handBoard({
  outline: box(-20, 0, 340, 120),
  trimmed: { topEdge: 0, straightEdge: 0, leftEnd: 20, rightEnd: 20 },
  offcuts: [
    {
      id: 'maple-1 keeper 1',
      region: { outline: box(240, 50, 60, 70), openings: [] },
      rectangle: { minX: 240, minY: 50, maxX: 300, maxY: 120 },
      area: 4200,
      lines: [
        [
          [240, 0],
          [240, 120],
        ],
      ],
    },
  ],
});

test('the key explains every mark that is drawn, and none that is not', () => {
  const [plan] = planCuts(handLayout({ boards: [board] }), { throat: 200, tab: 2, holdSize: 50 }).boards;
  for (const look of [{ line: 'thin' }, { line: 'wide' }] as const) {
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board, { plan }, new PartDrawer(look))), {
      // Small enough for pages to join, which alone have seams to trim along.
      paper: { width: 140, height: 200 },
    });
    const drawn = tiles.flatMap(({ marks }) => marks);
    const explained = new Set(flatMarks(keyBlock(rolesOf(drawn)).marksAt(0, 0)).map(({ role }) => role));
    const roles = new Set(flatMarks(drawn).map(({ role }) => role));
    for (const role of ['tab', 'keeper', 'usable-edge', 'trim', 'cut-number'] as const)
      expect(roles.has(role), role).toBe(true);
    expect([...roles].filter((role) => !PLAIN.has(role) && !explained.has(role))).toEqual([]);
  }
  // A map has nothing of what a saw follows: its key would be the rule alone.
  const map = partMap(board, partPlaces(board), { board: 'map', pages: '', more: '' }, [100]);
  const few = flatMarks(keyBlock(rolesOf(map.marksAt(0, 0))).marksAt(0, 0)).map(({ role }) => role);
  expect(few).not.toContain('tab');
  expect(few).not.toContain('weak');
});

test('the key says on which side to saw, and its words stay in its frame', () => {
  const drawn = boardMarks(board).marks;
  const wide = boardMarks(board, {}, new PartDrawer({ line: 'wide' })).marks;
  const words = (marks: typeof drawn) =>
    flatMarks(keyBlock(rolesOf(marks)).marksAt(0, 0)).flatMap((mark) =>
      mark.kind === 'text' ? [mark.text] : [],
    );
  expect(words(drawn).join(' ')).toContain('Saw on the waste side of each line');
  expect(words(wide).join(' ')).toContain('Saw along the white line');
  const bright = boardMarks(board, {}, new PartDrawer({ line: 'bright' })).marks;
  expect(words(bright)).toContain('edge of a part or of an opening');
  for (const marks of [drawn, wide, bright]) {
    const { width, height, marksAt } = keyBlock(rolesOf(marks));
    for (const mark of flatMarks(marksAt(0, 0))) {
      if (mark.kind !== 'text') continue;
      const around = textBox(mark);
      expect(around.maxX, mark.text).toBeLessThan(width);
      expect(around.maxY, mark.text).toBeLessThan(height);
    }
  }
});

test('the samples of a vein and of an opening look as they do on the sheet', () => {
  const vein: Line = [
    [30, 30],
    [60, 30],
  ];
  const placed = { ...handBoard().placements[0], veins: [vein] };
  const onSheet = flatMarks(boardMarks(handBoard({ placements: [placed] })).marks);
  const sample = flatMarks(
    keyBlock(new Set<MarkRole>(['vein-end', 'opening-edge', 'waste-hatch'])).marksAt(0, 0),
  );
  const cornersOf = (marks: readonly Mark[]) =>
    marks
      .flatMap((mark) => (mark.kind === 'rings' && mark.role === 'vein-end' ? mark.rings : []))
      .map((ring) => ring.length);
  expect(cornersOf(onSheet)).toEqual([4, 4]);
  expect(cornersOf(sample)).toEqual([4, 4]);
  const [frame] = sample.flatMap((mark) =>
    mark.kind === 'rings' && mark.role === 'opening-edge' ? mark.rings : [],
  );
  const hatch = sample.flatMap((mark) =>
    mark.kind === 'line' && mark.role === 'waste-hatch' ? [mark.points] : [],
  );
  expect(hatch.length).toBeGreaterThan(2);
  for (const points of hatch) expect(boxHolds(boundsOf(frame), boundsOf(points))).toBe(true);
});

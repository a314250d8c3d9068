import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { MARK_STYLES, SAW_LINE_WIDTH } from '../../src/sheet/marks/mark-styles.ts';
import { flatMarks, type GroupMark, type Mark, type MarkRole } from '../../src/sheet/marks/marks.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { drawPlacementSheet, drawPlacementSheets, placementSheet } from '../../src/sheet/placement-sheet.ts';
import { besidesKey, box, circle, HOSTILE_NAMES, handBoard, placed } from './hand-layout.ts';

const OPTIONS = {
  job: 'Lake shore, 3 sets',
  design: 'Lake shore',
  date: '2024-05-04',
  unit: 'mm',
  kerf: 1,
} as const;

interface Parsed {
  readonly tags: { name: string; attributes: Record<string, string> }[];
  readonly text: string;
}

/** Reads with a strict XML parser, foreign to the project. */
function parse(xml: string): Parsed {
  const parser = new SaxesParser();
  const tags: Parsed['tags'] = [];
  let text = '';
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) =>
    tags.push({ name: tag.name, attributes: tag.attributes as Record<string, string> }),
  );
  parser.on('text', (piece) => {
    text += piece;
  });
  parser.write(xml).close();
  return { tags, text };
}

/** How many marks of a role a sheet has besides the samples of its key. */
function countRole(xml: string, role: MarkRole): number {
  return parse(xml.replace(/<g id="key">.*?<\/g>/s, '')).tags.filter(
    ({ attributes }) => attributes.class === role,
  ).length;
}

describe('a placement sheet', () => {
  test('looks as it did (open the stored drawing to see it)', async () => {
    const sheet = drawPlacementSheet(handBoard(), { ...OPTIONS, clearance: 0.5 });
    await expect(sheet).toMatchFileSnapshot('./snapshots/hand-board.svg');
  });

  test('looks as it did for a trimmed board in copies, in inches', async () => {
    const usable = { outline: box(5, 4, 295, 112), openings: [] };
    const trimmed = { topEdge: 4, straightEdge: 0, leftEnd: 5, rightEnd: 5 };
    const board = handBoard({ copies: 3, outline: box(0, 0, 305, 116), trimmed, usable });
    const sheet = drawPlacementSheet(board, { ...OPTIONS, unit: 'in' });
    await expect(sheet).toMatchFileSnapshot('./snapshots/trimmed-board-in-inches.svg');
  });

  test('is the same byte for byte when drawn again', () => {
    expect(drawPlacementSheet(handBoard(), OPTIONS)).toBe(drawPlacementSheet(handBoard(), OPTIONS));
  });

  test('drawn with others is the same as drawn alone', () => {
    const boards = [handBoard(), handBoard({ id: 'maple-2', placements: handBoard().placements.slice(1) })];
    expect(drawPlacementSheets(boards, OPTIONS)).toEqual(
      boards.map((board) => drawPlacementSheet(board, OPTIONS)),
    );
  });

  test('is in millimetres, one user unit each, in the frame of the board', () => {
    const { attributes } = parse(drawPlacementSheet(handBoard(), OPTIONS)).tags[0];
    const [, , width, height] = attributes.viewBox.split(' ').map(Number);
    expect(attributes.width).toBe(`${width}mm`);
    expect(attributes.height).toBe(`${height}mm`);
    const outline = flatMarks(besidesKey(placementSheet(handBoard(), OPTIONS).marks)).find(
      (m) => m.role === 'board-edge',
    );
    expect(outline?.kind === 'rings' && outline.rings[0]).toEqual(box(0, 0, 300, 120));
  });

  test('has a group for each part, named in full, with unique ids', () => {
    const { tags, text } = parse(drawPlacementSheet(handBoard(), OPTIONS));
    const ids = tags.map(({ attributes }) => attributes.id).filter(Boolean);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.filter((id) => id.startsWith('part-')).length).toBe(5);
    expect(text).toContain('Figures duck, set 2, turned over');
  });

  test('draws every outline, opening, vein and defect once, and a hole centre for every opening', () => {
    const sheet = drawPlacementSheet(handBoard(), OPTIONS);
    expect(countRole(sheet, 'part-edge')).toBe(5);
    expect(countRole(sheet, 'opening-edge')).toBe(3);
    expect(countRole(sheet, 'vein')).toBe(1);
    expect(countRole(sheet, 'defect')).toBe(1);
    // A cross is one path of two lines; without a drill that is known it has no ring.
    expect(countRole(sheet, 'hole-centre')).toBe(3);
  });

  test('says what a maker needs to know', () => {
    const { text } = parse(drawPlacementSheet(handBoard({ copies: 3 }), { ...OPTIONS, clearance: 0.5 }));
    const expected = [
      'Lake shore, 3 sets',
      'maple-1, saw 3 boards like this',
      'sugar maple, 19 mm thick',
      '300 mm x 120 mm',
      '1 mm, 0.5 mm extra gap',
      'on the waste side: the line is the edge of the part',
      'Print at 100 %',
      '50 mm',
      '2 in',
      '2024-05-04',
      'Eye protection on.',
      'The manual of your saw',
      'straight edge',
      'grain',
    ];
    for (const words of expected) expect(text).toContain(words);
  });

  test('says how high a stack is, and what is planed or resawn first', () => {
    const words = (change: Parameters<typeof handBoard>[0]) =>
      parse(drawPlacementSheet(handBoard(change), OPTIONS)).text;
    expect(words({ copies: 2, pieces: ['maple-1', 'maple-2'] })).toContain(
      'maple-1, in a stack of 2 boards sawn at once',
    );
    // Neither a long name nor a long wood pushes it out of the row, and which board of its entry it is stays.
    const long = words({
      ...{
        id: 'Shelf of the old boathouse by the lake-2',
        species: 'eastern black walnut, figured and air dried',
      },
      ...{ copies: 2, pieces: ['a', 'b'] },
    });
    expect(long).toMatch(/Shelf.*\u2026ke-2, in a stack of 2 boards sawn at once/);
    expect(long).toMatch(/eastern.*\u2026, 19 mm thick/);
    expect(words({ planeTo: 16 })).toContain('to 16 mm');
    expect(words({ planeTo: 6, slices: 2 })).toContain('into 2 slices, plane each to 6 mm');
  });

  test('the blocks and what they say never lie on the board', () => {
    for (const board of [handBoard(), handBoard({ usable: { outline: box(0, 0, 40, 900), openings: [] } })]) {
      const { marks } = placementSheet(board, OPTIONS);
      const edge = boundsOf(board.usable.outline);
      for (const id of ['calibration', 'title-block', 'cautions', 'key']) {
        const group = marks.find((mark): mark is GroupMark => mark.kind === 'group' && mark.id === id);
        expect(group, id).toBeDefined();
        for (const mark of flatMarks(group?.marks ?? [])) expect(lowest(mark), id).toBeLessThan(edge.minY);
      }
    }
  });

  test('everything lies on the sheet', () => {
    for (const job of ['short', 'a long name of a job '.repeat(20)]) {
      const sheet = placementSheet(handBoard(), { ...OPTIONS, job, design: job });
      for (const mark of flatMarks(sheet.marks)) {
        const area = extent(mark);
        expect(area.minX).toBeGreaterThanOrEqual(sheet.x);
        expect(area.minY).toBeGreaterThanOrEqual(sheet.y);
        expect(area.maxX).toBeLessThanOrEqual(sheet.x + sheet.width);
        expect(area.maxY).toBeLessThanOrEqual(sheet.y + sheet.height);
      }
    }
  });

  test('names the straight edge below the edge itself, and says where a board has none', () => {
    const named = (...outline: [number, number][]) => {
      const board = handBoard({ usable: { outline, openings: [] }, placements: [] });
      const texts = flatMarks(besidesKey(placementSheet(board, OPTIONS).marks)).flatMap((mark) =>
        mark.kind === 'text' && mark.text.includes('straight edge') ? [mark] : [],
      );
      return texts.map(({ text, at }) => [text, at[0]]);
    };
    // Straight from 0 to 100 of 300 mm, then sloping; then a board that slopes from end to end.
    expect(named([0, 0], [300, 0], [300, 50], [100, 80], [0, 80])).toEqual([
      ['straight edge of the board', 50],
    ]);
    const none = [['no straight edge along the grain here', 150]];
    expect(named([0, 0], [300, 0], [300, 50], [0, 80])).toEqual(none);
    // Waney: an arch that is level to 0.5 mm for 60 mm at its lowest, in sides of 10 mm.
    const arch = Array.from({ length: 31 }, (_, i): [number, number] => [
      300 - 10 * i,
      80 - (10 * i - 150) ** 2 / 1800,
    ]);
    expect(named([0, 0], [300, 0], ...arch)).toEqual(none);
  });

  test('the rest edge is the straight edge with the largest y, drawn outside the board', () => {
    const marks = flatMarks(besidesKey(placementSheet(handBoard(), OPTIONS).marks));
    const edges = marks.filter((mark) => mark.role === 'rest-edge');
    expect(edges.length).toBe(1);
    const { minY } = extent(edges[0]);
    expect(minY - MARK_STYLES['rest-edge'].width / 2).toBeGreaterThanOrEqual(120);
  });

  test('a top edge that parts stand on is drawn outside the board as well, and named', () => {
    const hanging = placed({
      rotation: 180,
      x: 200,
      y: 30,
      region: { outline: box(170, 0, 30, 30), openings: [] },
    });
    const edgesOf = (board: LaidBoard) => {
      const marks = flatMarks(besidesKey(placementSheet(board, OPTIONS).marks));
      const named = marks.flatMap((mark) =>
        mark.kind === 'text' && mark.text.includes('straight edge') ? [mark.text] : [],
      );
      return [marks.flatMap((mark) => (mark.role === 'rest-edge' ? extent(mark).maxY : [])), named];
    };
    const half = MARK_STYLES['rest-edge'].width / 2;
    const [tops, names] = edgesOf(handBoard({ straightTopEdge: true, placements: [hanging] }));
    expect(tops).toHaveLength(2);
    expect(Math.min(...(tops as number[])) + half).toBeLessThanOrEqual(0);
    expect(names).toEqual(['straight edge; parts stand on the top edge too']);
    const plain = [[expect.any(Number)], ['straight edge of the board']];
    expect(edgesOf(handBoard({ straightTopEdge: true }))).toEqual(plain);
    expect(edgesOf(handBoard({ placements: [hanging] }))).toEqual(plain);
    // Without an edge margin any part may touch the edge.
    const touching = { ...hanging, rotation: 0, x: 170, y: 0 };
    expect(edgesOf(handBoard({ straightTopEdge: true, placements: [touching] }))).toEqual(plain);
  });

  test('the saw line is thinner than the narrowest kerf and thicker than a vein', () => {
    // 0.012 in is the kerf of a No. 2/0 blade: common practice, no source.
    expect(SAW_LINE_WIDTH).toBeLessThan(0.012 * 25.4);
    expect(MARK_STYLES.vein.width).toBeLessThan(SAW_LINE_WIDTH);
    expect(MARK_STYLES.vein.dash).toBeUndefined();
  });

  test('waste in an opening is hatched, a part that lies in it is not', () => {
    const { marks } = placementSheet(handBoard(), OPTIONS);
    const hatch = flatMarks(besidesKey(marks)).filter((mark) => mark.role === 'waste-hatch');
    expect(hatch.length).toBeGreaterThan(20);
    for (const mark of hatch) {
      if (mark.kind !== 'line') throw new Error('hatching is made of lines');
      for (const [x, y] of [mark.points[0], mark.points[1]]) {
        expect(Math.hypot(x - 50, y - 80), 'in the float that lies in the opening').toBeGreaterThan(11.9);
      }
    }
  });

  test('the opening of a part that lies in an opening itself is hatched like any other', () => {
    const ring = (radius: number) =>
      placed({ region: { outline: circle(60, 60, radius), openings: [circle(60, 60, radius - 8)] } });
    const placements = [ring(50), ring(40), ring(30)];
    const { marks } = placementSheet(handBoard({ placements }), OPTIONS);
    const middles = flatMarks(besidesKey(marks)).flatMap((mark) => {
      if (mark.kind !== 'line' || mark.role !== 'waste-hatch') return [];
      const [[ax, ay], [bx, by]] = mark.points;
      return [Math.hypot((ax + bx) / 2 - 60, (ay + by) / 2 - 60)];
    });
    const within = (least: number, most: number) => middles.filter((r) => r > least && r < most).length;
    // Between the rings, in the innermost, and on no ring.
    for (const [least, most] of [
      [40, 42],
      [30, 32],
      [0, 22],
    ]) {
      expect(within(least, most), `from ${least} to ${most} mm`).toBeGreaterThan(10);
    }
    for (const radius of [50, 40, 30]) expect(within(radius - 7.9, radius - 0.1)).toBe(0);
  });

  test('holes show the drill as a ring, but not where it would cross the line', () => {
    // The openings of the board hold circles of 15.9, 8 and 34 mm: the second is too small for 8 mm and its clearance.
    for (const [drill, rings] of [
      [1.6, 3],
      [8, 2],
      [40, 0],
    ]) {
      const { marks } = placementSheet(handBoard(), { ...OPTIONS, drill });
      const found = flatMarks(besidesKey(marks)).filter(
        (mark) => mark.role === 'hole-centre' && mark.kind === 'rings',
      );
      expect(found.length).toBe(rings);
      for (const mark of found) expect(extent(mark).maxX - extent(mark).minX).toBeCloseTo(drill, 6);
    }
    expect(drawPlacementSheet(handBoard(), { ...OPTIONS, drill: 1.6 })).toContain('1.6 mm as ringed');
  });

  test('no black band of a part that lies close covers the white line of another', () => {
    const close = [10, 50.4].map((x) => placed({ region: { outline: box(x, 10, 40, 40), openings: [] } }));
    const { marks } = placementSheet(handBoard({ placements: close }), { ...OPTIONS, line: 'wide' });
    const roles = flatMarks(besidesKey(marks)).map(({ role }) => role);
    expect(roles.filter((role) => role === 'wide-edge-core')).toHaveLength(2);
    expect(roles.lastIndexOf('wide-edge')).toBeLessThan(roles.indexOf('wide-edge-core'));
  });

  test('a wide line has a white line in it, on the edge of the part', () => {
    const sheet = drawPlacementSheet(handBoard(), { ...OPTIONS, line: 'wide' });
    expect(countRole(sheet, 'part-edge')).toBe(0);
    expect(countRole(sheet, 'wide-edge')).toBe(5);
    expect(countRole(sheet, 'wide-edge-core')).toBe(5);
    expect(sheet).toContain('along the white line');
    expect(MARK_STYLES['wide-edge-core'].width).toBeLessThan(MARK_STYLES['wide-edge'].width);
  });

  test('a line for dark wood is bright, and the key tells it', () => {
    const sheet = drawPlacementSheet(handBoard(), { ...OPTIONS, line: 'bright' });
    expect(countRole(sheet, 'part-edge') + countRole(sheet, 'opening-edge')).toBe(0);
    expect(countRole(sheet, 'bright-edge')).toBe(5);
    expect(sheet).toContain('edge of a part or of an opening');
  });

  test('hostile names end up as text, in every field', () => {
    const plain = parse(drawPlacementSheet(handBoard(), OPTIONS)).tags;
    for (const name of HOSTILE_NAMES) {
      const region = { outline: box(100, 20, 60, 50), openings: [] };
      const board = handBoard({
        id: name,
        species: name,
        placements: [placed({ part: name, layer: name, region })],
      });
      const sheet = drawPlacementSheet(board, { ...OPTIONS, job: name, design: name, date: name });
      const { tags } = parse(sheet);
      const known = new Set(plain.map((tag) => tag.name));
      expect(tags.filter((tag) => !known.has(tag.name))).toEqual([]);
      const attributes = new Set(tags.flatMap((tag) => Object.keys(tag.attributes)));
      expect(
        [...attributes].filter((attribute) => attribute.startsWith('on') || attribute === 'src'),
      ).toEqual([]);
    }
  });

  test('an empty board is still a sheet', () => {
    const sheet = drawPlacementSheet(handBoard({ placements: [] }), OPTIONS);
    expect(countRole(sheet, 'part-edge')).toBe(0);
    expect(parse(sheet).text).toContain('0 parts on sugar maple: none.');
  });
});

function lowest(mark: Mark): number {
  return extent(mark).maxY;
}

function extent(mark: Mark) {
  if (mark.kind === 'text') return textBox(mark);
  return boundsOf(mark.kind === 'line' ? mark.points : mark.kind === 'rings' ? mark.rings.flat() : []);
}

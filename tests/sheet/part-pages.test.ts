import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Box, boundsOf } from '../../src/geometry/shapes.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { MARK_STYLES } from '../../src/sheet/marks/mark-styles.ts';
import {
  flatMarks,
  type GroupMark,
  type Mark,
  shapeBox,
  type TextMark,
} from '../../src/sheet/marks/marks.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { pageToSvg } from '../../src/sheet/page-files.ts';
import { boardPages, type SheetPage } from '../../src/sheet/pages.ts';
import { shelve } from '../../src/sheet/paper/shelves.ts';
import { partPages } from '../../src/sheet/part-pages.ts';
import { box, circle, handBoard, handLayout, placed } from './hand-layout.ts';
import { handPlan } from './hand-plan.ts';
import { boxesOverlap } from './rectangles.ts';

const FACTS = { job: 'Lake shore', unit: 'mm', kerf: 1, paper: 'a4' } as const;

/** A long board with few parts far apart: dear on paper as a whole. */
function sparseBoard(): LaidBoard {
  const placements = Array.from({ length: 24 }, (_, i) =>
    placed({
      part: `disc ${i}`,
      set: i + 1,
      region: { outline: circle(40 + 140 * i, 60, 8 + i), openings: [] },
    }),
  );
  return handBoard({ usable: { outline: box(0, 0, 3400, 150), openings: [] }, placements });
}

function pieces(page: SheetPage): GroupMark[] {
  return page.drawing.marks.filter(
    (mark): mark is GroupMark => mark.kind === 'group' && mark.id.startsWith('piece-'),
  );
}

/** The box of everything in a piece, with what a strip shows of its part. */
function extent(marks: Iterable<Mark>): Box {
  const boxes = [
    ...flatMarks(marks).map((mark) => (mark.kind === 'text' ? textBox(mark) : shapeBox(mark))),
    ...[...marks].flatMap((mark) => (mark.kind === 'clip' ? [mark.window] : [])),
  ];
  return boundsOf(
    boxes.flatMap(({ minX, minY, maxX, maxY }) => [
      [minX, minY],
      [maxX, maxY],
    ]),
  );
}

describe('part pages', () => {
  test('look as they did', async () => {
    const pages = partPages(handLayout(), { ...FACTS, drill: 1.6 });
    expect(pages.map(({ name }) => name)).toEqual(['cover', 'parts 1']);
    await expect(pageToSvg(pages[1])).toMatchFileSnapshot('./snapshots/part-page.svg');
  });

  test('say at the head which woods they are for; of too many the last are counted, of one too long the name is cut', () => {
    const board = handBoard();
    const heads = (boards: LaidBoard[]) =>
      partPages(handLayout({ boards }), FACTS)
        .filter(({ name }) => name.startsWith('parts'))
        .map(({ drawing }) => flatMarks(drawing.marks).find(({ role }) => role === 'heading'))
        .map((mark) => (mark?.kind === 'text' ? mark.text : undefined));
    const other = (id: string, fields: Partial<LaidBoard>) => ({ ...board, id, ...fields });
    const walnut = { copies: 2, planeTo: 6, species: 'black walnut' };
    expect(
      heads([board, other('B-1', {}), other('D-1', { species: 'Sugar Maple' }), other('C-1', walnut)])[0],
    ).toBe(
      'sugar maple, 19 mm; black walnut, planed to 6 mm \u00b7 saw 2 alike \u00b7 grain from left to right',
    );
    const many = ['oak', 'ash', 'elm', 'yew'].map((wood) =>
      other(wood, { species: `${wood} from the far shore of the lake` }),
    );
    expect(heads(many)[0]).toBe(
      'oak from the far shore of the lake, 19 mm; ash from the far shore of the lake, 19 mm; 2 more, see the maps \u00b7 grain from left to right',
    );
    const long = other('D-1', { species: 'walnut '.repeat(20).trim(), copies: 1, planeTo: 6 });
    expect(heads([long])[0]).toMatch(/^walnut .*\u2026, planed to 6 mm \u00b7 grain from left to right$/);
  });

  test('hold every part once, at true size, named with its place', () => {
    const board = sparseBoard();
    const found = partPages(handLayout({ boards: [board] }), FACTS).flatMap(pieces);
    expect(found.length).toBe(24);
    board.placements.forEach((placement, i) => {
      const { layer, part, set } = placement;
      const title = `${layer} \u00b7 ${part} \u00b7 ${set}, ${i + 1} on ${board.id}`;
      const piece = found.find((each) => each.title === title);
      const edge = flatMarks(piece?.marks ?? []).find((mark) => mark.role === 'part-edge');
      const { minX, maxX } = boundsOf(edge?.kind === 'rings' ? edge.rings.flat() : []);
      expect(maxX - minX, title).toBeCloseTo(2 * (8 + i), 9);
    });
  });

  test('tell board and set of a small part whatever the length of the names', () => {
    const peg = (set: number) =>
      placed({
        ...{ layer: 'Figures on the jetty', part: 'lantern of the ferryman', set },
        region: { outline: box(10 * set, 10, 3, 9), openings: [] },
      });
    const board = handBoard({ id: 'Shelf of the old boathouse-2', placements: [peg(1), peg(12)] });
    const lines = partPages(handLayout({ boards: [board] }), FACTS)
      .flatMap(pieces)
      .map(({ marks }) =>
        flatMarks(marks).flatMap((mark) =>
          mark.kind === 'text' && mark.role === 'label' ? [mark.text] : [],
        ),
      );
    expect(lines.map(([on]) => on).sort()).toEqual([
      expect.stringMatching(/^1 on Shelf.*\u2026se-2$/),
      expect.stringMatching(/^2 on Shelf.*\u2026se-2$/),
    ]);
    expect(lines.map((each) => each.at(-1)).sort()).toEqual([
      expect.stringMatching(/^lantern.* \u00b7 1$/),
      expect.stringMatching(/^lantern.* \u00b7 12$/),
    ]);
  });

  test('have the thick line where they lie on the straight edge of the board, or on a top edge that is straight too', () => {
    const standing = placed({ part: 'standing', region: { outline: box(20, 90, 30, 30), openings: [] } });
    const hanging = placed({
      ...{ part: 'hanging', rotation: 180, x: 130, y: 25 },
      region: { outline: box(100, 0, 30, 25), openings: [] },
    });
    // Without an edge margin a disc touches the edge in a point.
    const free = placed({ part: 'free', region: { outline: circle(200, 110, 10), openings: [] } });
    const told = (change: Partial<LaidBoard>) => {
      const board = handBoard({ placements: [standing, hanging, free], ...change });
      const pages = partPages(handLayout({ boards: [board] }), FACTS);
      const sides = pages.flatMap(pieces).map(({ marks }) => {
        const own = flatMarks(marks);
        const edge = own.find(({ role }) => role === 'part-edge');
        const line = own.find(({ role }) => role === 'rest-edge');
        if (edge?.kind !== 'rings' || line?.kind !== 'line') return undefined;
        const [part, thick] = [boundsOf(edge.rings[0]), boundsOf(line.points)];
        expect(thick.maxX - thick.minX).toBeCloseTo(30, 9);
        expect(thick.minX).toBeCloseTo(part.minX, 9);
        const half = MARK_STYLES['rest-edge'].width / 2;
        const texts = own.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark)] : []));
        const drawn = { ...thick, minY: thick.minY - half, maxY: thick.maxY + half };
        expect(texts.filter((each) => boxesOverlap(each, drawn))).toEqual([]);
        if (drawn.minY > part.maxY) return 'below';
        return drawn.maxY < part.minY ? 'above' : 'across';
      });
      const texts = flatMarks(pages[0].drawing.marks).flatMap((mark) =>
        mark.kind === 'text' ? mark.text : [],
      );
      expect(texts).toContain('straight edge: lay it on the ripped edge');
      return sides.map(String).sort();
    };
    expect(told({ straightTopEdge: true })).toEqual(['above', 'below', 'undefined']);
    expect(told({})).toEqual(['below', 'undefined', 'undefined']);
  });

  test('have the holes and the numbers of the cuts of their part, as planned', () => {
    const board = handBoard();
    const plan = handPlan(board);
    const plans = new Map([[board.id, plan]]);
    const marks = partPages(handLayout({ boards: [board] }), { ...FACTS, plans })
      .flatMap(pieces)
      .flatMap((piece) => flatMarks(piece.marks));
    const numbers = marks.flatMap((mark) =>
      mark.kind === 'text' && mark.role === 'cut-number' ? [Number(mark.text)] : [],
    );
    expect(numbers.sort((a, b) => a - b)).toEqual(plan.cuts.map(({ number }) => number));
    const rings = marks.filter(({ kind, role }) => kind === 'rings' && role === 'hole-centre');
    expect(rings.length).toBe(plan.holes.length);
  });

  test('have the hole to a part in an opening on the paper of the part with the opening', () => {
    const opening = box(30, 30, 120, 90);
    const host = placed({ part: 'host', region: { outline: box(10, 10, 140, 110), openings: [opening] } });
    const guest = placed({ part: 'guest', region: { outline: box(60, 50, 90, 70), openings: [] } });
    const board = handBoard({ placements: [host, guest] });
    const plan = handPlan(board);
    const cut = plan.cuts.find(({ part }) => part === 'guest')?.number ?? 0;
    const plans = new Map([
      [board.id, { ...plan, holes: [{ at: [45, 60] as const, diameter: 2, least: 1, cut }] }],
    ]);
    const drilled = partPages(handLayout({ boards: [board] }), { ...FACTS, plans })
      .flatMap(pieces)
      .filter(({ marks }) =>
        flatMarks(marks).some(({ kind, role }) => kind === 'rings' && role === 'hole-centre'),
      );
    expect(drilled.map(({ title }) => title?.includes('host'))).toEqual([true]);
  });

  test('pieces lie in the window and on no other piece', () => {
    for (const board of [sparseBoard(), handBoard()]) {
      const plans = new Map([[board.id, handPlan(board)]]);
      const pages = partPages(handLayout({ boards: [board] }), { ...FACTS, plans });
      expect(pages.flatMap(pieces).length).toBeGreaterThanOrEqual(board.placements.length);
      for (const page of pages) {
        const boxes = pieces(page).map(({ marks }) => extent(marks));
        boxes.forEach((each, i) => {
          expect(boxes.slice(i + 1).some((other) => boxesOverlap(each, other))).toBe(false);
          expect(each.minX).toBeGreaterThan(6.35);
          expect(each.maxX).toBeLessThan(page.drawing.width - 6.35);
          expect(each.minY).toBeGreaterThan(6.35);
          expect(each.maxY).toBeLessThan(page.drawing.height - 6.35);
        });
      }
    }
  });

  test('take less paper than a board with few parts far apart', () => {
    const layout = handLayout({ boards: [sparseBoard()] });
    expect(partPages(layout, FACTS).length).toBeLessThan(boardPages(layout, FACTS).length / 2);
  });

  test('lie so that parts stay whole, if that takes pages more', () => {
    const bars = Array.from({ length: 9 }, (_, i) =>
      placed({ part: 'bar', set: i + 1, region: { outline: box(10, 10 + 70 * i, 245, 60), openings: [] } }),
    );
    const board = handBoard({ usable: { outline: box(0, 0, 270, 700), openings: [] }, placements: bars });
    const found = partPages(handLayout({ boards: [board] }), FACTS).flatMap(pieces);
    expect(found.map(({ title }) => title).filter((title) => title.includes('strip'))).toEqual([]);
    expect(found.length).toBe(9);
  });

  test('small parts and short boards are printed on a roll as well', () => {
    const stone = placed({ region: { outline: circle(25, 25, 20), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 50, 50), openings: [] }, placements: [stone] });
    const options = { ...FACTS, paper: { roll: 125 } };
    const layout = handLayout({ boards: [board] });
    expect(partPages(layout, options).flatMap(pieces).length).toBe(1);
    expect(boardPages(layout, options).map(({ name }) => name)).toContain('maple-1 A1');
  });

  test('a part longer than a page comes in strips that overlap and show all of it', () => {
    const bar = placed({ part: 'bar', region: { outline: box(10, 20, 500, 40), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 600, 80), openings: [] }, placements: [bar] });
    const pages = partPages(handLayout({ boards: [board] }), FACTS);
    const strips = pages.flatMap(pieces);
    expect(strips.length).toBeGreaterThan(1);
    const key = (page: SheetPage) =>
      flatMarks(page.drawing.marks).flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(key(pages[0])).toContain('trim one page here, bow tie on bow tie');
    expect(key(partPages(handLayout(), FACTS)[0])).not.toContain('trim one page here, bow tie on bow tie');
    const shown = strips.flatMap(({ marks }) =>
      [...marks].flatMap((mark) => {
        if (mark.kind !== 'clip') return [];
        return [{ from: mark.window.minX - mark.shift[0], to: mark.window.maxX - mark.shift[0] }];
      }),
    );
    shown.sort((a, b) => a.from - b.from);
    expect(shown[0].from).toBeLessThan(10);
    expect(shown[shown.length - 1].to).toBeGreaterThan(510);
    const overlaps = shown.slice(1).map((strip, i) => shown[i].to - strip.from);
    expect(Math.min(...overlaps)).toBeGreaterThanOrEqual(12 - 1e-6);
    const ids = strips.flatMap(({ marks }) =>
      [...marks].flatMap((mark) => (mark.kind === 'clip' ? [mark.id] : [])),
    );
    expect(new Set(ids).size).toBe(strips.length);
    expect(key(pages[0])).toContain('straight on from strip to strip, by a ruler');
    // As far above the part on every strip.
    const above = strips.map(({ marks }) => {
      const own = flatMarks(marks).find(({ role }) => role === 'straight-on');
      const clip = [...marks].find((mark) => mark.kind === 'clip');
      return own?.kind === 'line' && clip?.kind === 'clip'
        ? own.points.map(([, y]) => y - clip.shift[1])
        : [];
    });
    expect(above.map((ys) => ys.map((y) => 20 - y))).toEqual(
      strips.map(() => [expect.closeTo(2.5), expect.closeTo(2.5)]),
    );
  });

  test('strips one below the other have the line to lay a ruler along beside the part, on the paper', () => {
    const post = placed({ part: 'post', region: { outline: box(20, 10, 40, 490), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 80, 600), openings: [] }, placements: [post] });
    const strips = partPages(handLayout({ boards: [board] }), { ...FACTS, orientation: 'portrait' }).flatMap(
      pieces,
    );
    expect(strips.length).toBeGreaterThan(1);
    for (const { marks } of strips) {
      const own = flatMarks(marks).find(({ role }) => role === 'straight-on');
      const clip = [...marks].find((mark) => mark.kind === 'clip');
      if (own?.kind !== 'line' || clip?.kind !== 'clip') throw new Error('no line straight on');
      // 3 mm of paper are left around a part, of which the line keeps 0.5 mm from the edge: 2.5 mm left of the part.
      expect(own.points.map(([x]) => 20 - (x - clip.shift[0]))).toEqual([
        expect.closeTo(2.5),
        expect.closeTo(2.5),
      ]);
      // Over the whole height of what the strip shows.
      expect(own.points.map(([, y]) => y)).toEqual([clip.window.minY, clip.window.maxY]);
    }
  });

  test('strips tell their copy whatever the length of the names', () => {
    const bars = [1, 2].map((set) =>
      placed({
        ...{ layer: 'Jetty on the far shore', part: 'handrail of the landing', set },
        region: { outline: box(10, 20 * set, 285, 9), openings: [] },
      }),
    );
    const id = 'Shelf of the old boathouse-2';
    const board = handBoard({ id, usable: { outline: box(0, 0, 600, 80), openings: [] }, placements: bars });
    const names = partPages(handLayout({ boards: [board] }), { ...FACTS, orientation: 'landscape' })
      .flatMap(pieces)
      .map(({ marks }) => [...marks].findLast((mark) => mark.kind === 'text')?.text);
    expect(names.sort()).toEqual([
      expect.stringMatching(/^strip A1 of 2: 1 on Shelf.*\u2026se-2 \u00b7 Jetty/),
      expect.stringMatching(/^strip A1 of 2: 2 on Shelf.*\u2026se-2 \u00b7 Jetty/),
      expect.stringMatching(/^strip B1 of 2: 1 on.*\u2026se-2$/),
      expect.stringMatching(/^strip B1 of 2: 2 on.*\u2026se-2$/),
    ]);
  });

  test('the map of a crowded board prints no number over another', () => {
    const pegs = Array.from({ length: 150 }, (_, i) =>
      placed({
        part: 'peg',
        set: i + 1,
        region: { outline: box(4 + 11 * (i % 30), 4 + 26 * Math.floor(i / 30), 9, 24), openings: [] },
      }),
    );
    const board = handBoard({ usable: { outline: box(0, 0, 340, 140), openings: [] }, placements: pegs });
    const [cover] = partPages(handLayout({ boards: [board] }), FACTS);
    const map = [...cover.drawing.marks].find((mark) => mark.kind === 'group' && mark.id.startsWith('map-'));
    const numbers = flatMarks(map?.kind === 'group' ? map.marks : []).filter(
      (mark): mark is TextMark => mark.kind === 'text' && mark.role === 'heading',
    );
    const boxes = numbers.map(textBox);
    expect(boxes.some((each, i) => boxes.slice(i + 1).some((other) => boxesOverlap(each, other)))).toBe(
      false,
    );
    expect(numbers.length).toBeGreaterThan(140);
  });

  test('strips of boards whose names differ in accents only are clipped each by its own window', () => {
    const bar = placed({ part: 'bar', region: { outline: box(10, 10, 330, 20), openings: [] } });
    const usable = { outline: box(0, 0, 420, 40), openings: [] };
    const boards = ['\u00e4', '\u00f6'].map((id) => handBoard({ id, usable, placements: [bar] }));
    const svg = partPages(handLayout({ boards }), FACTS).map(pageToSvg).join('\n');
    const ids = Array.from(svg.matchAll(/<clipPath id="([^"]*)"/g), ([, id]) => id);
    expect(ids.length).toBe(4);
    expect(new Set(ids).size).toBe(4);
  });
});

test('shelved pieces never overlap, stay on the page and keep their gap', () => {
  const piece = fc.record({
    width: fc.double({ min: 1, max: 200, noNaN: true }),
    height: fc.double({ min: 1, max: 260, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 40 }), (list) => {
      const places = shelve(list, { width: 200, height: 260 }, 2);
      const boxes = places.map(({ page, x, y }, i) => ({
        page,
        minX: x,
        minY: y,
        maxX: x + list[i].width + 2,
        maxY: y + list[i].height + 2,
      }));
      boxes.forEach((each, i) => {
        expect(each.maxX).toBeLessThanOrEqual(202 + 1e-9);
        expect(each.maxY).toBeLessThanOrEqual(262 + 1e-9);
        const met = boxes.slice(i + 1).some((other) => other.page === each.page && boxesOverlap(each, other));
        expect(met).toBe(false);
      });
    }),
    { seed: 5, numRuns: 200 },
  );
});

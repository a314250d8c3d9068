import { describe, expect, test } from 'vitest';
import { ringArea } from '../../src/geometry/ring.ts';
import { boundsOf, boxHolds, type Point, type Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { boardMarks } from '../../src/sheet/board/board-marks.ts';
import { type ClipMark, flatMarks, shapeBox, type TextMark } from '../../src/sheet/marks/marks.ts';
import { drawingToSvg } from '../../src/sheet/marks/marks-to-svg.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { pageToSvg } from '../../src/sheet/page-files.ts';
import { boardPages, type SheetPage } from '../../src/sheet/pages.ts';
import { type BoardTile, boardTiles, tileName } from '../../src/sheet/paper/board-tiles.ts';
import { BoxedMarks } from '../../src/sheet/paper/boxed-marks.ts';
import type { PageOptions } from '../../src/sheet/paper/page-setup.ts';
import { writeDocument } from '../../src/svg/write.ts';
import { PAPER_SIZES } from '../../src/units/paper.ts';
import { outsideCheck } from '../outside-check.ts';
import { box, circle, handBoard, handLayout, placed } from './hand-layout.ts';
import { handPlan } from './hand-plan.ts';
import { PIXELS_PER_MM, type Raster, rasterOfSvg } from './raster.ts';
import { lineMeetsBox } from './rectangles.ts';

const FACTS = { job: 'Lake shore', unit: 'mm', kerf: 1 } as const;

/** A board of 700 x 260 mm with discs of 40 mm, some with an opening, and a long bar that no page can hold. */
function longBoard(): LaidBoard {
  const placements = Array.from({ length: 12 }, (_, i) => {
    const [x, y] = [35 + 57 * (i % 6) * 2, 40 + 70 * Math.floor(i / 6)];
    const openings = i % 3 === 0 ? [circle(x, y, 8)] : [];
    return placed({ part: `disc ${i}`, set: i + 1, region: { outline: circle(x, y, 20), openings } });
  });
  const bar = placed({ part: 'bar', region: { outline: box(10, 200, 680, 40), openings: [] } });
  return handBoard({
    id: 'long',
    usable: { outline: box(0, 0, 700, 260), openings: [] },
    placements: [...placements, bar],
  });
}

/** What of its board a page shows. */
function clipOf({ drawing }: SheetPage): ClipMark | undefined {
  return drawing.marks.find((mark): mark is ClipMark => mark.kind === 'clip');
}

describe('pages', () => {
  test('look as they did', async () => {
    const pages = boardPages(handLayout(), { ...FACTS, paper: 'letter' });
    expect(pages.map(({ name }) => name)).toEqual(['cover', 'maple-1 A1']);
    await expect(pageToSvg(pages[0])).toMatchFileSnapshot('./snapshots/page-cover.svg');
    await expect(pageToSvg(pages[1])).toMatchFileSnapshot('./snapshots/page-a1.svg');
  });

  test('have the arrow for the grain whole on each page, above what it shows of the board', () => {
    const bar = placed({ region: { outline: box(10, 10, 680, 100), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 700, 120), openings: [] }, placements: [bar] });
    const pages = boardPages(handLayout({ boards: [board] }), { ...FACTS, paper: 'a4' }).slice(1);
    const arrows = pages.map((page) => {
      const clip = clipOf(page);
      const [dx, dy] = clip?.shift ?? [0, 0];
      // The arrows of parts lie on the board, this one above it: y < 0 there.
      const points = flatMarks(clip?.marks ?? []).flatMap((mark) => {
        if (mark.role !== 'grain' && mark.role !== 'grain-head') return [];
        return mark.kind === 'line' ? mark.points : mark.kind === 'rings' ? mark.rings.flat() : [];
      });
      const above = points.filter(([, y]) => y < 0).map(([x, y]): Point => [x + dx, y + dy]);
      return { isWhole: clip !== undefined && boxHolds(clip.window, boundsOf(above)), above };
    });
    expect(arrows.length).toBeGreaterThan(2);
    expect(arrows.filter(({ above, isWhole }) => above.length > 0 && isWhole)).toEqual(arrows);
  });

  test('are drawn from where parts lie now, when a program has moved them since', () => {
    const layout = structuredClone(handLayout());
    const draw = (each: typeof layout) =>
      boardPages(each, { job: 'job', unit: 'mm', kerf: 1 }).map((page) => pageToSvg(page));
    const before = draw(layout);
    for (const { region } of layout.boards[0].placements) {
      const moved = (ring: Ring): Ring => ring.map(([x, y]) => [x + 20, y]);
      Object.assign(region, { outline: moved(region.outline), openings: region.openings.map(moved) });
    }
    const after = draw(layout);
    expect(after).not.toEqual(before);
    expect(after).toEqual(draw(structuredClone(layout)));
  });

  test('are none for the list of short numbers alone, or for what is left of a board', () => {
    const dots = Array.from({ length: 90 }, (_, i) => {
      const outline = circle(6 + 8 * (i % 15), 5 + 20 * Math.floor(i / 15), 3);
      return placed({ part: `lantern peg ${i + 1}`, region: { outline, openings: [] } });
    });
    // On either side of the parts is more of the board than a page shows.
    const usable = { outline: box(-600, 0, 1500, 120), openings: [] };
    const sparse = handBoard({ usable, placements: dots });
    const [, ...pages] = boardPages(handLayout({ boards: [sparse] }), { ...FACTS, paper: 'a4' });
    expect(pages.map(({ name }) => name)).toEqual(['maple-1 A1']);
    const texts = flatMarks(clipOf(pages[0])?.marks ?? []).flatMap((mark) =>
      mark.kind === 'text' ? [mark.text] : [],
    );
    expect(texts.filter((words) => words.startsWith('p90 '))).toHaveLength(1);
  });

  test('say on the map how thick the wood is that they are stuck on', () => {
    const map = (fields: Partial<LaidBoard>) => {
      const layout = { ...handLayout(), boards: [handBoard({ id: 'A-1', ...fields })] };
      const [cover] = boardPages(layout, FACTS);
      return flatMarks(cover.drawing.marks).flatMap((mark) =>
        mark.kind === 'text' && mark.text.startsWith('A-1: ') ? [mark.text] : [],
      );
    };
    expect(map({})[0]).toContain('19 mm thick, page');
    expect(map({ planeTo: 16 })[0]).toContain('19 mm thick, planed to 16 mm, page');
    expect(map({ planeTo: 6, slices: 2 })[0]).toContain('19 mm thick, resawn and planed to 6 mm, page');
  });

  test('say at the head of each page board, wood, thickness and stack, which narrow paper never cuts off', () => {
    const heads = (fields: Partial<LaidBoard>, paper: PageOptions['paper'] = 'a4') =>
      boardPages({ ...handLayout(), boards: [handBoard({ id: 'A-1', ...fields })] }, { ...FACTS, paper })
        .filter((page) => clipOf(page) !== undefined)
        .map((page) => {
          const clip = clipOf(page);
          const texts = page.drawing.marks.filter((mark): mark is TextMark => mark.kind === 'text');
          // Above the window, and neither line beyond it nor on the other.
          const named = texts.filter(({ role }) => role !== 'caption').map(textBox);
          const left = clip?.window.minX ?? 0;
          for (const { minX, maxY } of named) {
            expect([minX >= left - 1e-9, maxY < (clip?.window.minY ?? 0) - 3]).toEqual([true, true]);
          }
          return texts.find(({ role }) => role === 'heading')?.text;
        });
    const stack = { copies: 2, pieces: ['A-1', 'A-2'] };
    expect(new Set(heads({}))).toEqual(new Set(['A-1 \u00b7 sugar maple, 19 mm']));
    expect(heads({ ...stack, planeTo: 16 })[0]).toBe(
      'A-1 \u00b7 sugar maple, planed to 16 mm \u00b7 stack of 2',
    );
    expect(heads({ copies: 3 })[0]).toBe('A-1 \u00b7 sugar maple, 19 mm \u00b7 saw 3 alike');
    const long = { ...stack, id: 'Boathouse door, left wing', species: 'eastern black walnut, figured' };
    const [narrow] = heads(long, { width: 85, height: 110 });
    expect(narrow).toMatch(/^Boa.*\u2026wing \u00b7 east.*\u2026, 19 mm \u00b7 stack of 2$/);
  });

  test('count on the first page the boards to take, not the sheets stuck on them', () => {
    const boards = (fields: Partial<LaidBoard>) => {
      const layout = { ...handLayout(), boards: [handBoard({ id: 'A-1', stock: 'A', ...fields })] };
      const [cover] = boardPages(layout, FACTS);
      const words = flatMarks(cover.drawing.marks).flatMap((mark) =>
        mark.kind === 'text' ? [mark.text] : [],
      );
      return words[words.indexOf('boards') + 1];
    };
    expect(boards({})).toBe('1');
    expect(boards({ copies: 2, pieces: ['A-1', 'A-2'] })).toBe('2, sawn in 1 layout');
  });

  test('have the name of the design as their headline, that of the file where there is none', () => {
    const heads = (design?: string) => {
      const [cover] = boardPages(handLayout(), { ...FACTS, job: 'job.json', design });
      return flatMarks(cover.drawing.marks).flatMap((mark) =>
        mark.kind === 'text' && mark.role === 'heading' && mark.size === 5 ? [mark.text] : [],
      );
    };
    expect(heads('Lake shore')).toEqual(['Lake shore']);
    expect(heads()).toEqual(['job.json']);
  });

  test('have their names on the map off the edges of all pages', () => {
    for (const paper of ['a4', 'letter'] as const) {
      const [cover] = boardPages(handLayout({ boards: [longBoard()] }), { ...FACTS, paper });
      const marks = flatMarks(cover.drawing.marks);
      const edges = marks.flatMap((mark) =>
        mark.kind === 'rings' && mark.role === 'map-page' ? mark.rings : [],
      );
      const names = marks.filter(
        (mark): mark is TextMark => mark.kind === 'text' && /^[A-Z]\d$/.test(mark.text),
      );
      expect(names.length).toBe(edges.length);
      expect(names.length).toBeGreaterThan(1);
      for (const name of names) {
        expect(
          edges.some((edge) => lineMeetsBox(edge, true, textBox(name))),
          name.text,
        ).toBe(false);
      }
    }
  });

  test('of many boards have their maps side by side, as far as every name has room; of few one below the other', () => {
    const boards = (count: number, of = handBoard) =>
      Array.from({ length: count }, (_, i) => of({ id: `maple-${i + 1}` }));
    const covers = (all: readonly LaidBoard[]) =>
      boardPages(handLayout({ boards: [...all] }), { ...FACTS, paper: 'a4' })
        .filter(({ name }) => name.startsWith('cover'))
        .map(({ drawing }) => drawing);
    const maps = (drawn: ReturnType<typeof covers>) =>
      drawn.flatMap(({ marks }) =>
        marks.flatMap((mark) =>
          mark.kind === 'group' && mark.id.startsWith('map-') ? [flatMarks(mark.marks)] : [],
        ),
      );
    const lefts = (drawn: ReturnType<typeof covers>) =>
      new Set(maps(drawn).map(([first]) => first.kind === 'text' && first.at[0].toFixed(1)));
    expect([lefts(covers(boards(1))).size, covers(boards(1)).length]).toEqual([1, 1]);
    const many = covers(boards(18));
    expect([many.length, lefts(many).size]).toEqual([2, 3]);
    const edges = maps(many).map((marks) => {
      const lines = marks.flatMap((mark) =>
        mark.kind === 'rings' && mark.role === 'map-page' ? [shapeBox(mark)] : [],
      );
      const names = marks.filter(
        (mark): mark is TextMark => mark.kind === 'text' && /^[A-Z]\d$/.test(mark.text),
      );
      for (const name of names) {
        expect(name.size / (25.4 / 72)).toBeGreaterThanOrEqual(6);
        expect(lines.some((each) => boxHolds(each, textBox(name)))).toBe(true);
      }
      return names.length;
    });
    expect(edges).toEqual(Array.from({ length: 18 }, () => edges[0]));
    // In half the width the names of the pages of a board this long would stand over each other.
    const bar = placed({ region: { outline: box(10, 10, 4980, 100), openings: [] } });
    const long = { usable: { outline: box(0, 0, 5000, 120), openings: [] }, placements: [bar] };
    expect(lefts(covers(boards(9, (fields) => handBoard({ ...long, ...fields })))).size).toBe(1);
  });

  test('are as large as the paper, in every size and both ways round', () => {
    for (const paper of Object.keys(PAPER_SIZES) as (keyof typeof PAPER_SIZES)[]) {
      const [width, height] = PAPER_SIZES[paper];
      for (const [orientation, expected] of [
        ['portrait', [width, height]],
        ['landscape', [height, width]],
      ] as const) {
        for (const { drawing } of boardPages(handLayout(), { ...FACTS, paper, orientation })) {
          expect([drawing.width, drawing.height]).toEqual(expected);
        }
      }
    }
  });

  test('hold all that is on the cover within their margins, on small paper too', () => {
    const narrow = [
      { width: 102, height: 108 },
      { width: 82, height: 85 },
    ];
    for (const paper of [{ width: 148, height: 210 }, { width: 102, height: 152 }, { roll: 90 }, ...narrow]) {
      for (const orientation of ['portrait', 'landscape'] as const) {
        const pages = boardPages(handLayout(), { ...FACTS, paper, orientation, margin: 6 });
        const covers = pages.filter(({ name }) => name.startsWith('cover'));
        const texts = covers.flatMap(({ drawing: { marks, width, height } }) =>
          flatMarks(marks).map((mark) => {
            const { minX, minY, maxX, maxY } = mark.kind === 'text' ? textBox(mark) : shapeBox(mark);
            const inside = minX >= 6 && minY >= 6 && maxX <= width - 6 && maxY <= height - 6;
            expect(inside, mark.kind === 'text' ? mark.text : mark.role).toBe(true);
            return mark.kind === 'text' ? mark.text : '';
          }),
        );
        expect(texts).toEqual(expect.arrayContaining(['kerf', 'opening: what is hatched falls out', '2 in']));
        expect(texts.filter((words) => words.endsWith('\u2026'))).toEqual([]);
        expect(texts.join(' ')).toContain('on the waste side: the line is the edge of the part');
      }
    }
  });

  test('take the way round that needs fewer', () => {
    const layout = handLayout({ boards: [longBoard()] });
    const count = (orientation: PageOptions['orientation']) =>
      boardPages(layout, { ...FACTS, orientation }).length;
    expect(count('fewest')).toBe(Math.min(count('portrait'), count('landscape')));
  });

  test('of two ways round that need as many, take the one that shows more parts whole', () => {
    // Two columns of A4 upright or two rows of it lying: only lying is it as wide as the part.
    const part = placed({ region: { outline: box(10, 12, 250, 68), openings: [] } });
    const high = placed({ region: { outline: box(10, 100, 20, 95), openings: [] } });
    const board = handBoard({
      usable: { outline: box(0, 0, 270, 200), openings: [] },
      placements: [part, high],
    });
    const drawn = boardMarks(board);
    const tiles = (orientation?: PageOptions['orientation']) =>
      boardTiles(board, () => new BoxedMarks(drawn), { paper: 'a4', orientation });
    expect([tiles('portrait').length, tiles('landscape').length]).toEqual([2, 2]);
    expect(tiles()[0].setup).toEqual(tiles('landscape')[0].setup);
  });

  test('a roll takes the whole length of a board', () => {
    const drawn = boardMarks(longBoard());
    const tiles = boardTiles(longBoard(), () => new BoxedMarks(drawn), { paper: { roll: 420 } });
    expect(tiles.length).toBe(1);
    expect(tiles[0].setup.height).toBe(420);
    expect(tiles[0].setup.width).toBeGreaterThan(700);
  });

  test('a roll is cut behind the last part: the rest of a board takes no paper', () => {
    const part = placed({ region: { outline: box(10, 10, 200, 80), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 2400, 120), openings: [] }, placements: [part] });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: { roll: 610 } });
    expect(tiles.length).toBe(1);
    const [{ setup, window }] = tiles;
    expect(setup.width).toBeLessThan(260);
    expect(boxHolds(window, boundsOf(part.region.outline))).toBe(true);
  });

  test('a keeper whose middle no page shows is named where a page shows most of it', () => {
    const part = placed({ region: { outline: box(10, 10, 300, 80), openings: [] } });
    const keeper = {
      ...{ id: 'maple-1 keeper 1', region: { outline: box(315, 0, 785, 120), openings: [] }, area: 94_200 },
      rectangle: { minX: 315, minY: 0, maxX: 1100, maxY: 120 },
      lines: [
        [
          [315, 0],
          [315, 120],
        ],
      ] as const,
    };
    const usable = { outline: box(0, 0, 1100, 120), openings: [] };
    const board = handBoard({ usable, placements: [part], offcuts: [keeper] });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
    expect(tiles.length).toBe(2);
    const named = tiles.map(({ marks }) =>
      flatMarks(marks).filter((mark) => mark.kind === 'text' && mark.text === 'keeper 1'),
    );
    expect(named.map(({ length }) => length)).toEqual([0, 1]);
    const [, [name]] = named;
    const { minX } = textBox(name as Parameters<typeof textBox>[0]);
    expect([minX > 315, boxHolds(tiles[1].window, textBox(name as Parameters<typeof textBox>[0]))]).toEqual([
      true,
      true,
    ]);
  });

  test('a roll longer than a page of a PDF may be comes in equal pages to join', () => {
    const part = placed({ region: { outline: box(10, 10, 5400, 80), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 6000, 120), openings: [] }, placements: [part] });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: { roll: 610 } });
    expect(tiles.length).toBe(2);
    const [{ setup, window }, next] = tiles;
    expect(setup.width).toBeLessThan(2800);
    expect(window.maxX - next.window.minX).toBeCloseTo(setup.overlap);
    expect([window.minX < 10, next.window.maxX > 5410]).toEqual([true, true]);
    for (const paper of [{ roll: 5081 }, { width: 5081, height: 300 }]) {
      expect(() => boardPages(handLayout(), { ...FACTS, paper })).toThrow('5080');
    }
  });

  test('a page that would hold nothing but the edge of the board is left out', () => {
    const far = handBoard({
      usable: { outline: box(0, 0, 2000, 150), openings: [] },
      placements: [
        placed({ region: { outline: box(10, 10, 50, 50), openings: [] } }),
        placed({ region: { outline: box(1900, 10, 50, 50), openings: [] } }),
      ],
    });
    const tiles = boardTiles(far, () => new BoxedMarks(boardMarks(far)), { paper: 'a4' });
    expect(tiles[0].columns).toBeGreaterThan(6);
    expect(tiles.length).toBe(2);
  });

  test('a page that would hold nothing but knots, or the tip of a part that its neighbour shows as well, is left out', () => {
    // The disc ends 3 mm beyond the seam of the two columns, and there is nothing else in the lower right window.
    const disc = circle(147, 350, 40);
    const board = handBoard({
      usable: { outline: box(0, 0, 900, 600), openings: [circle(700, 100, 20), circle(290, 400, 20)] },
      placements: [box(10, 10, 150, 80), box(230, 10, 60, 80), disc].map((outline) =>
        placed({ region: { outline, openings: [] } }),
      ),
    });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), {
      ...{ paper: 'a4', orientation: 'portrait' },
    });
    expect(tiles.map(tileName)).toEqual(['A1', 'B1', 'A2']);
    const [, { window: right }, { window: left }] = tiles;
    expect([boundsOf(disc).maxX > (left.maxX + right.minX) / 2, boxHolds(left, boundsOf(disc))]).toEqual([
      true,
      true,
    ]);
  });

  test('a page that would hold nothing but what its neighbour shows beyond the seam is left out', () => {
    // A row of low parts along the straight edge, their tips in what the upper pages share with the lower ones.
    const tip = 168;
    const board = handBoard({
      usable: { outline: box(0, 0, 500, 320), openings: [] },
      placements: [10, 250, 400].map((x) => {
        const y = x === 10 ? 5 : tip;
        return placed({ region: { outline: box(x, y, 50, 314 - y), openings: [] } });
      }),
    });
    const tiles = (each: LaidBoard) =>
      boardTiles(each, () => new BoxedMarks(boardMarks(each)), {
        paper: 'a4',
        orientation: 'landscape',
        overlap: 40,
      });
    const above = (found: readonly BoardTile[]) => found.filter(({ row }) => row === 0);
    const [first] = tiles(board);
    expect(first.window.maxY, 'the tips reach into the upper row').toBeGreaterThan(tip + 5);
    expect(above(tiles(board)).map(({ column }) => column)).toEqual([0]);
    expect(first.skipped.map(({ row, column }) => [row, column])).toContainEqual([0, 1]);
    const joins = first.marks.filter((mark) => mark.kind === 'rings' && mark.role === 'join');
    const ahead = joins.filter((mark) => mark.kind === 'rings' && mark.rings[0][0][1] < tip - 20);
    expect(
      [joins.length > 0, ahead],
      'marks to join it to the page below, none to one that is left out',
    ).toEqual([true, []]);
  });

  test('a page that would hold nothing but a cross-cut is left out: the map tells it by measure', () => {
    const sections = [
      { number: 1, from: 0, to: 600 },
      { number: 2, from: 603, to: 2000 },
    ];
    const board = handBoard({
      sections,
      usable: { outline: box(0, 0, 2000, 150), openings: [] },
      placements: [placed({ region: { outline: box(10, 10, 50, 50), openings: [] } })],
    });
    const plans = new Map([[board.id, { ...handPlan(board), sections }]]);
    const [cover, ...pages] = boardPages(handLayout({ boards: [board] }), { ...FACTS, plans });
    expect(pages.map(({ name }) => name)).toEqual(['maple-1 A1']);
    const words = flatMarks(cover.drawing.marks).flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(words).toContain('cross-cut 601.5 mm from the left end, to the middle of the kerf');
  });

  test('a page begins before the cross-cut that its first part lies by: where no page lies beside it, the sheet is laid by that', () => {
    const sections = [
      { number: 1, from: 0, to: 398.4 },
      { number: 2, from: 401.6, to: 900 },
    ];
    const board = handBoard({
      sections,
      usable: { outline: box(0, 0, 900, 150), openings: [] },
      placements: [box(3, 40, 150, 107), box(404.6, 40, 220, 107)].map((outline) =>
        placed({ region: { outline, openings: [] } }),
      ),
    });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'letter' });
    expect(tiles.map(tileName)).toEqual(['A1', 'C1']);
    expect(tiles[1].window.minX).toBeCloseTo(400 - 1, 6);
    expect(tiles[1].window.maxX).toBeGreaterThan(404.6 + 220);
  });

  test('a cross-cut beside its part is worth no page more, also where the names of parts are not given up for one', () => {
    const ends = [0, 144.2, 338.3, 485.9, 621.4, 753];
    const board = handBoard({
      sections: ends.slice(1).map((to, i) => ({ number: i + 1, from: i === 0 ? 0 : ends[i] + 3.2, to })),
      usable: { outline: box(0, 0, 753, 263.4), openings: [] },
      placements: [
        box(5.6, 88.8, 80, 54.2),
        box(5.6, 174.6, 80, 59.8),
        box(345, 3, 80, 97),
        box(493.4, 3, 40, 237),
        box(629.9, 3, 120.1, 232),
      ].map((outline) => placed({ region: { outline, openings: [] } })),
    });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'letter' });
    expect(tiles).toHaveLength(3);
  });

  test('a page that would hold nothing but how an edge runs on past the last part is left out', () => {
    // The row ends 6 mm before what four pages show; the edge that it stands on goes on for 15 mm within reach of it.
    const bars = Array.from({ length: 4 }, (_, i) => box(5 + 267 * i, 140, 264, 40));
    const board = handBoard({
      usable: { outline: box(0, 0, 1200, 180), openings: [] },
      placements: bars.map((outline) => placed({ region: { outline, openings: [] } })),
    });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
    expect(tiles.map(tileName)).toEqual(['A1', 'B1', 'C1', 'D1']);
    expect(tiles[3].window.maxX - boundsOf(bars[3]).maxX).toBeGreaterThan(1);
  });

  test('rows that cover all of a board are taken where fewer of them have to be printed', () => {
    // Two rows would do for the three parts, and each of them would show something in both columns.
    const board = handBoard({
      usable: { outline: box(0, 0, 760, 510), openings: [] },
      placements: [box(432, 449, 100, 20), box(677, 309, 60, 60), box(555, 45, 90, 60)].map((outline) =>
        placed({ region: { outline, openings: [] } }),
      ),
    });
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
    expect(tiles.length).toBe(3);
  });

  test('ends and edges of the board beside a part are on the paper, whatever the size of the board', () => {
    const room = 6;
    for (let length = 150; length < 420; length += 3) {
      const width = length / 2 + 80;
      const sides = [40, 20] as const;
      // One part near every corner, as far from both sides as a margin to the edge puts it.
      const corners = [room, length - room - sides[0]].flatMap((x) =>
        [room, width - room - sides[1]].map((y) => box(x, y, ...sides)),
      );
      const board = handBoard({
        usable: { outline: box(0, 0, length, width), openings: [] },
        placements: corners.map((outline) => placed({ region: { outline, openings: [] } })),
      });
      const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
      const isSeen = (x: number, y: number) =>
        tiles.some(({ window }) => x > window.minX && x < window.maxX && y > window.minY && y < window.maxY);
      for (const [[x, y]] of corners) {
        const end = x < length / 2 ? -0.2 : length + 0.2;
        const edge = y < width / 2 ? -0.2 : width + 1.2;
        const along = [x, x + sides[0] / 2, x + sides[0]];
        const across = [y, y + sides[1] / 2, y + sides[1]];
        expect(
          along.filter((each) => !isSeen(each, edge)),
          `edge of ${length} x ${width} mm`,
        ).toEqual([]);
        expect(
          across.filter((each) => !isSeen(end, each)),
          `end of ${length} x ${width} mm`,
        ).toEqual([]);
      }
    }
  });

  test('parts that fit on a page are whole on one', () => {
    const board = longBoard();
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
    const fitting = board.placements.filter(({ part }) => part !== 'bar');
    expect(fitting).not.toEqual([]);
    for (const { part, region } of fitting) {
      const whole = tiles.some(({ window }) =>
        region.outline.every(
          ([x, y]) => x > window.minX && x < window.maxX && y > window.minY && y < window.maxY,
        ),
      );
      expect(whole, part).toBe(true);
    }
  });

  test('what leaves no room for a window is refused, and said why', () => {
    for (const wrong of [{ margin: 90 }, { overlap: 150 }, { paper: { width: 50, height: 70 } }]) {
      const attempt = () => boardPages(handLayout(), { ...FACTS, ...wrong });
      expect(attempt).toThrow(FretlayError);
      expect(attempt).toThrow(/paper.*margin.*overlap/);
    }
  });
});

/**
 * ISO 216: A0 has 1 m2 and sides as 1 to the square root of 2; each size halves the one before, rounded down to
 * whole millimetres. ANSI/ASME Y14.1: A is 8.5 x 11 in, B is 11 x 17 in.
 */
test('paper sizes are those of the standards', () => {
  const side = (n: number) => Math.floor(1000 * 2 ** (-0.25 - n / 2) + 0.2);
  const iso = 'ISO 216: A0 has 1 m2 and sides as 1 to the square root of 2, each size half the one before';
  const ansi = 'ANSI/ASME Y14.1';
  const inches = (name: 'letter' | 'tabloid') => PAPER_SIZES[name].map((mm) => mm / 25.4);
  outsideCheck({ what: 'A4, mm', source: iso, expected: [side(4), side(3)], found: PAPER_SIZES.a4 });
  outsideCheck({ what: 'A3, mm', source: iso, expected: [side(3), side(2)], found: PAPER_SIZES.a3 });
  outsideCheck({
    what: 'Letter (ANSI A), in',
    source: ansi,
    expected: [8.5, 11],
    found: inches('letter'),
    tolerance: 1e-9,
  });
  outsideCheck({
    what: 'Tabloid (ANSI B), in',
    source: ansi,
    expected: [11, 17],
    found: inches('tabloid'),
    tolerance: 1e-9,
  });
});

describe('the cover', () => {
  test('keeps all that is on it within the margins of the printer', () => {
    const boards = ['A-1', 'B-1', 'C-1', 'D-1', 'E-1'].map((id) => handBoard({ id }));
    const margin = 9;
    const pages = boardPages(handLayout({ boards }), { ...FACTS, paper: 'a4', margin });
    const covers = pages.filter(({ name }) => name.startsWith('cover'));
    expect(covers.length).toBeGreaterThan(0);
    for (const { drawing } of covers) {
      expect([drawing.width, drawing.height].sort((a, b) => a - b)).toEqual([210, 297]);
      const boxes = flatMarks(drawing.marks).map((mark) =>
        mark.kind === 'text' ? textBox(mark) : shapeBox(mark),
      );
      const whole = boundsOf(
        boxes.flatMap(({ minX, minY, maxX, maxY }): Point[] => [
          [minX, minY],
          [maxX, maxY],
        ]),
      );
      expect(whole.minX).toBeGreaterThanOrEqual(margin - 1e-6);
      expect(whole.minY).toBeGreaterThanOrEqual(margin - 1e-6);
      expect(whole.maxX).toBeLessThanOrEqual(drawing.width - margin + 1e-6);
      expect(whole.maxY).toBeLessThanOrEqual(drawing.height - margin + 1e-6);
    }
  });
});

describe('joined pages', () => {
  test('have the same bow ties on either side of a seam, in the middle of what both show', () => {
    const board = longBoard();
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), {
      paper: 'a4',
      orientation: 'portrait',
    });
    const beside = tiles.flatMap((tile) =>
      tiles
        .filter(({ row, column }) => row === tile.row && column === tile.column + 1)
        .map((next) => [tile, next]),
    );
    expect(beside.length).toBeGreaterThan(1);
    for (const [left, right] of beside) {
      const seam = (left.window.maxX + right.window.minX) / 2;
      const ties = ({ marks }: BoardTile) =>
        flatMarks(marks).flatMap((mark) =>
          mark.kind === 'rings' && mark.role === 'join' && Math.abs(mark.rings[0][0][0] - seam) < 1e-6
            ? [mark.rings]
            : [],
        );
      expect(ties(left).length).toBeGreaterThan(1);
      expect(ties(right)).toEqual(ties(left));
      for (const [one, other] of ties(left)) {
        // Two triangles of one size that meet in a point on the seam, one on either side of it.
        expect(one[0]).toEqual(other[0]);
        const [a, b] = [boundsOf(one), boundsOf(other)];
        expect([a.maxX, b.minX]).toEqual([one[0][0], one[0][0]]);
        expect([b.maxX - b.minX, b.maxY - b.minY]).toEqual([
          expect.closeTo(a.maxX - a.minX, 9),
          expect.closeTo(a.maxY - a.minY, 9),
        ]);
        expect((a.minY + a.maxY) / 2).toBeCloseTo(one[0][1], 9);
        expect((b.minY + b.maxY) / 2).toBeCloseTo(one[0][1], 9);
        expect(ringArea(one)).toBeGreaterThan(1);
        expect(ringArea(other)).toBeCloseTo(ringArea(one), 9);
      }
    }
  });

  test('have their marks below the lines to saw along', () => {
    const board = longBoard();
    const tiles = boardTiles(board, () => new BoxedMarks(boardMarks(board)), { paper: 'a4' });
    expect(tiles.length).toBeGreaterThan(3);
    for (const { marks } of tiles) {
      const roles = flatMarks(marks).map(({ role }) => role);
      expect(roles.indexOf('join')).toBeGreaterThan(-1);
      expect(roles.lastIndexOf('join')).toBeLessThan(roles.indexOf('part-edge'));
    }
  });

  for (const paper of ['a4', 'letter'] as const) {
    test(`give the board back pixel for pixel within one pixel, on ${paper}`, () => {
      const board = longBoard();
      const drawn = boardMarks(board);
      const tiles = boardTiles(board, () => new BoxedMarks(drawn), { paper });
      expect(tiles.length).toBeGreaterThan(3);
      const { minX, minY, maxX, maxY } = drawn.box;
      const joins = tiles.flatMap(({ marks }) =>
        flatMarks(marks).filter(({ role }) => role === 'trim' || role === 'join'),
      );
      const area = { x: minX, y: minY, width: maxX - minX, height: maxY - minY };
      const whole = rendered({ ...area, marks: [...drawn.marks, ...joins] });
      const pages = boardPages(handLayout({ boards: [board] }), { ...FACTS, paper }).filter(
        ({ name }) => !name.startsWith('cover'),
      );
      pages.forEach(({ drawing }, i) => {
        const page = rendered(drawing);
        expect(strayPixels(page, whole, tiles[i], drawn.box)).toBe(0);
      });
    });
  }
});

function rendered(drawing: Parameters<typeof drawingToSvg>[0]): Raster {
  return rasterOfSvg(writeDocument(drawingToSvg(drawing, { title: '', description: '' })));
}

/**
 * Dark pixels in a page's window that the board does not have within a pixel, and the other way round. A margin of
 * 0.5 mm inside the window is left out: there the frame of the page lies.
 */
function strayPixels(
  page: Raster,
  whole: Raster,
  { window, setup }: BoardTile,
  box: BoardTile['window'],
): number {
  const dx = Math.round((window.minX - setup.window.x - box.minX) * PIXELS_PER_MM);
  const dy = Math.round((window.minY - setup.window.y - box.minY) * PIXELS_PER_MM);
  const edge = 0.5;
  const x0 = Math.ceil((setup.window.x + edge) * PIXELS_PER_MM);
  const x1 = Math.floor((setup.window.x + setup.window.width - edge) * PIXELS_PER_MM);
  const y0 = Math.ceil((setup.window.y + edge) * PIXELS_PER_MM);
  const y1 = Math.floor((setup.window.y + setup.window.height - edge) * PIXELS_PER_MM);
  let stray = 0;
  for (let y = y0; y < y1; y++) {
    for (let x = x0; x < x1; x++) {
      const [bx, by] = [x + dx, y + dy];
      if (bx < 2 || by < 2 || bx > whole.width - 3 || by > whole.height - 3) continue;
      if (isDark(page, x, y) && !nearDark(whole, bx, by)) stray++;
      if (isDark(whole, bx, by) && !nearDark(page, x, y)) stray++;
    }
  }
  return stray;
}

function isDark({ dark, width }: Raster, x: number, y: number): boolean {
  return dark[y * width + x] > 110;
}

function nearDark({ dark, width }: Raster, x: number, y: number): boolean {
  for (let dy = -1; dy <= 1; dy++) {
    for (let dx = -1; dx <= 1; dx++) if (dark[(y + dy) * width + x + dx] > 40) return true;
  }
  return false;
}

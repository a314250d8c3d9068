import { describe, expect, test } from 'vitest';
import { insideRegion } from '../../src/geometry/ring.ts';
import { boundsOf, boxesMeet, type Point } from '../../src/geometry/shapes.ts';
import { crossCuts } from '../../src/model/cross-cuts.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { partPlanMarks } from '../../src/sheet/board/plan-marks.ts';
import { mapWords } from '../../src/sheet/board-words.ts';
import { crossCutWords } from '../../src/sheet/cross-cut-words.ts';
import { MARK_STYLES } from '../../src/sheet/marks/mark-styles.ts';
import { flatMarks, type MarkRole, type TextMark } from '../../src/sheet/marks/marks.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { boardPages } from '../../src/sheet/pages.ts';
import { drawPlacementSheet, placementSheet } from '../../src/sheet/placement-sheet.ts';
import { preparingWords } from '../../src/sheet/preparing-words.ts';
import { besidesKey, box, circle, handBoard, handLayout, placed } from './hand-layout.ts';
import { handPlan } from './hand-plan.ts';
import { boxesOverlap, corners, lineMeetsBox, segmentMeetsBox, segmentsCross } from './rectangles.ts';

const board = handBoard();
const OPTIONS = { job: 'plan', unit: 'mm', kerf: 1, plan: handPlan(board) } as const;
const marks = flatMarks(besidesKey(placementSheet(board, OPTIONS).marks));
const numbers = marks.filter((mark): mark is TextMark => mark.kind === 'text' && mark.role === 'cut-number');

describe('a sheet with a cut plan', () => {
  test('looks as it did', async () => {
    await expect(drawPlacementSheet(board, OPTIONS)).toMatchFileSnapshot('./snapshots/planned-board.svg');
  });

  test('names the sections above a board that is trimmed, not across its edge', () => {
    const trimmed = handBoard({ outline: box(0, -2, 300, 122) });
    const drawn = flatMarks(besidesKey(placementSheet(trimmed, OPTIONS).marks));
    const names = drawn.flatMap((mark) =>
      mark.kind === 'text' && mark.role === 'section-name' ? [textBox(mark)] : [],
    );
    expect(names.length).toBe(2);
    expect(names.filter(({ maxY }) => maxY > -2)).toEqual([]);
  });

  test('names them above the thick line of a top edge that parts stand on', () => {
    const hanging = placed({ rotation: 180, region: { outline: box(170, 0, 30, 30), openings: [] } });
    const both = { ...board, straightTopEdge: true, placements: [...board.placements, hanging] };
    const drawn = flatMarks(besidesKey(placementSheet(both, OPTIONS).marks));
    const names = drawn.flatMap((mark) => (mark.role === 'section-name' ? [textBox(mark as TextMark)] : []));
    const lines = drawn.flatMap((mark) =>
      mark.role === 'rest-edge' && mark.kind === 'line' ? mark.points.map(([, y]) => y) : [],
    );
    const highest = Math.min(...lines) - MARK_STYLES['rest-edge'].width / 2;
    expect(highest).toBeLessThan(0);
    expect(names.length).toBe(2);
    expect(names.filter(({ maxY }) => maxY > highest)).toEqual([]);
  });

  test('names the drills of the plan, not of the saw, in the words of the report; rings are as wide as they', () => {
    const { holes } = OPTIONS.plan;
    const plan = {
      ...OPTIONS.plan,
      copies: 4,
      holes: [
        { ...holes[0], diameter: 1.57 },
        { ...holes[0], diameter: 0.89, least: 0.7 },
        { ...holes[0], diameter: 0.9, least: 0.7 },
        // Wanted as wide as the first, but there is room for no more than 1 mm.
        { ...holes[0], diameter: 1.57, least: 0.7, room: 1.04 },
      ],
    };
    const words = '4 holes: 2 with 0.9 mm, 1 with 1.0 mm, 1 with 1.6 mm';
    const sheet = placementSheet(board, { ...OPTIONS, drill: 1.57, plan });
    const texts = flatMarks(sheet.marks).flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(texts.join(' ')).toContain(words);
    expect(texts.join(' ')).not.toContain('a smaller one');
    const rings = flatMarks(besidesKey(sheet.marks)).flatMap((mark) =>
      mark.role === 'hole-centre' && mark.kind === 'rings' ? [boundsOf(mark.rings.flat())] : [],
    );
    expect(rings.map(({ minX, maxX }) => (maxX - minX).toFixed(3))).toEqual([
      '1.600',
      '0.900',
      '0.900',
      '1.000',
    ]);
    // In inches the drill is the next 1/64 in: 0.045 in is drilled 3/64 in, and the ring is no finer.
    const inches = placementSheet(board, {
      ...OPTIONS,
      unit: 'in',
      plan: { ...plan, holes: [{ ...holes[0], diameter: 0.045 * 25.4 }] },
    });
    expect(JSON.stringify([...flatMarks(inches.marks)])).toContain('1 hole, 3/64 in (0.0469)');
    // The cover is of all boards: each hole counts as often as its board is sawn.
    const pages = boardPages(handLayout({ boards: [board] }), {
      job: 'plan',
      unit: 'mm',
      kerf: 1,
      plans: new Map([[board.id, plan]]),
    });
    expect(JSON.stringify([...flatMarks(pages[0].drawing.marks)])).toContain('16 holes: 8 with 0.9 mm');
  });

  test('numbers cuts at their start, in their order', () => {
    expect(numbers.length).toBe(OPTIONS.plan.cuts.length);
    numbers.forEach((mark, i) => {
      expect(mark.text).toBe(`${i + 1}`);
      const [x, y] = OPTIONS.plan.cuts[i].line[0];
      const { minX, minY, maxX, maxY } = textBox(mark);
      expect(Math.hypot((minX + maxX) / 2 - x, (minY + maxY) / 2 - y)).toBeLessThan(9);
    });
  });

  test('no number lies on a saw line, on another text or on a hole', () => {
    const texts = marks.filter((mark): mark is TextMark => mark.kind === 'text').map(textBox);
    const holes = marks.flatMap((mark) =>
      mark.role === 'hole-centre' && mark.kind === 'rings' ? [boundsOf(mark.rings.flat())] : [],
    );
    for (const mark of numbers) {
      const number = textBox(mark);
      expect(texts.filter((other) => boxesOverlap(number, other)).length, mark.text).toBe(1);
      expect(holes.some((hole) => boxesMeet(number, hole))).toBe(false);
      for (const { region, veins } of board.placements) {
        for (const ring of [region.outline, ...region.openings])
          expect(lineMeetsBox(ring, true, number)).toBe(false);
        for (const vein of veins) expect(lineMeetsBox(vein, false, number)).toBe(false);
      }
    }
  });

  test('a number stands in its own part, or a lead joins it to its start and crosses nothing', () => {
    const leads = marks.flatMap((mark) =>
      mark.role === 'cut-lead' && mark.kind === 'line' ? [mark.points] : [],
    );
    const texts = marks.filter((mark): mark is TextMark => mark.kind === 'text');
    numbers.forEach((mark, i) => {
      const { placement, kind, piece, line } = OPTIONS.plan.cuts[i];
      const { region } = board.placements[placement];
      const own = kind === 'opening' ? { outline: region.openings[piece], openings: [] } : region;
      const lead = leads.find((points) => points[1] === line[0]);
      if (lead === undefined) {
        expect(corners(textBox(mark)).every((corner) => insideRegion(corner, own))).toBe(true);
        return;
      }
      const [end, [x, y]] = lead;
      const shortOfStart: Point = [x + 0.05 * (end[0] - x), y + 0.05 * (end[1] - y)];
      expect(texts.filter((other) => segmentMeetsBox(end, shortOfStart, textBox(other)))).toEqual([]);
      for (const each of board.placements.flatMap(({ region: { outline, openings } }) => [
        outline,
        ...openings,
      ]))
        each.forEach((to, k) => {
          expect(segmentsCross(end, shortOfStart, each[k === 0 ? each.length - 1 : k - 1], to)).toBe(false);
        });
    });
    expect(leads.length).toBe(1);
  });

  test('an eye in a small head is numbered in small type beside it, or outside with a lead over no other part', () => {
    const heads = [
      { at: [20, 20], radius: 5 },
      { at: [60, 20], radius: 2.6 },
      // No number may stand on this one, nor its lead run over it.
      { at: [60, 30], radius: 7 },
    ] as const;
    const placements = heads.map(({ at: [x, y], radius }, i) =>
      placed({
        ...{ part: `head ${i + 1}`, layer: 'Front', set: 1 },
        region: { outline: circle(x, y, radius), openings: i === 2 ? [] : [circle(x, y, 1.1)] },
      }),
    );
    const crowd = { ...board, placements };
    const whole = handPlan(crowd);
    const holes = [0, 1].map((i) => {
      const at: Point = [heads[i].at[0], heads[i].at[1]];
      return { at, diameter: 1.19, least: 1, cut: 1 + 2 * i };
    });
    const plan = { ...whole, sections: [{ from: 0, to: 300 }], holes };
    const drawn = flatMarks(besidesKey(placementSheet(crowd, { ...OPTIONS, plan }).marks));
    const found = drawn.flatMap((mark) =>
      mark.kind === 'text' && mark.role === 'cut-number' ? [{ number: mark.text, box: textBox(mark) }] : [],
    );
    expect(found.map(({ number }) => number)).toEqual(plan.cuts.map(({ number }) => `${number}`));
    const [beside, , outside] = found;
    expect(corners(beside.box).every((corner) => insideRegion(corner, placements[0].region))).toBe(true);
    expect(boxesMeet(outside.box, boundsOf(placements[1].region.outline))).toBe(false);
    const leads = drawn.flatMap((mark) =>
      mark.role === 'cut-lead' && mark.kind === 'line' ? [mark.points] : [],
    );
    const lead = leads.find(([, start]) => start === plan.cuts[2].line[0]);
    const ring = placements[2].region.outline;
    expect(lead).toBeDefined();
    expect(lineMeetsBox(ring, true, outside.box)).toBe(false);
    for (const [i, to] of ring.entries())
      expect(lead && segmentsCross(lead[0], lead[1], ring.at(i - 1) ?? to, to)).toBe(false);
  });

  test('beside a wide line numbers keep off the whole band', () => {
    const wide = flatMarks(besidesKey(placementSheet(board, { ...OPTIONS, line: 'wide' }).marks));
    const found = wide.flatMap((mark) =>
      mark.kind === 'text' && mark.role === 'cut-number' ? [textBox(mark)] : [],
    );
    expect(found.length).toBe(OPTIONS.plan.cuts.length);
    for (const { minX, minY, maxX, maxY } of found) {
      const band = { minX: minX - 0.6, minY: minY - 0.6, maxX: maxX + 0.6, maxY: maxY + 0.6 };
      for (const { region } of board.placements)
        for (const ring of [region.outline, ...region.openings])
          expect(lineMeetsBox(ring, true, band)).toBe(false);
    }
  });

  test('holes are those of the plan, with their diameter', () => {
    const holes = marks.filter((mark) => mark.role === 'hole-centre' && mark.kind === 'rings');
    expect(holes.length).toBe(1);
    const { minX, maxX } = boundsOf(holes[0].kind === 'rings' ? holes[0].rings.flat() : []);
    expect([minX, maxX]).toEqual([34, 36]);
  });

  test('sections are parted by a line and named', () => {
    const lines = marks.filter((mark) => mark.role === 'section');
    expect(lines.map((mark) => mark.kind === 'line' && mark.points)).toEqual([
      [
        [170, 0],
        [170, 120],
      ],
    ]);
    const names = marks.flatMap((mark) =>
      mark.kind === 'text' && mark.text.startsWith('section') ? [mark.text] : [],
    );
    expect(names).toEqual(['section 1', 'section 2']);
  });

  test('a cross-cut is drawn in the middle of what the saw takes, and said by measure from the left end', () => {
    const sections = [
      { number: 1, from: 0, to: 168 },
      { number: 2, from: 171, to: 298 },
    ];
    // The board goes on by 2 mm, less than the width of a cut, and begins 10 mm to the left of what may be used.
    const untrimmed = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
    const trimmed = { ...untrimmed, leftEnd: 10 };
    const parted = handBoard({ sections, outline: box(-10, 0, 310, 120), trimmed });
    expect(crossCuts(parted)).toEqual([169.5, 299]);
    const measured =
      'cross-cut 179.5 mm, 309 mm from the left end before it is trimmed, to the middle of the kerf';
    expect(crossCutWords(parted, 'mm')).toBe(measured);
    const whole = handBoard({ sections, outline: box(0, 0, 300, 120) });
    expect(crossCutWords(whole, 'mm')).toBe(
      'cross-cut 169.5 mm, 299 mm from the left end, to the middle of the kerf',
    );
    expect(crossCutWords(board, 'mm')).toBe('');
    // A slope from end to end: the line below the board that says so may lie on no page.
    const outline = [
      [0, 0],
      [300, 0],
      [300, 90],
      [0, 120],
    ] as const;
    const sloping = { ...parted, usable: { outline, openings: [] } };
    expect(mapWords(sloping, 'mm')).toBe(
      `no straight edge along the grain; trim 10 mm off the left end; ${measured}`,
    );
    expect([mapWords(parted, 'mm'), mapWords(board, 'mm')]).toEqual([
      `trim 10 mm off the left end; ${measured}`,
      '',
    ]);
    // Parts on both edges float on one of them where the board is wider or tapers.
    const hanging = placed({ rotation: 180, region: { outline: box(170, 0, 30, 30), openings: [] } });
    const both = handBoard({ straightTopEdge: true, placements: [hanging] });
    expect(mapWords(both, 'mm')).toBe('check that both edges are straight, 120 mm apart');
    expect(preparingWords(both, 'in')).toEqual([['check', 'that both edges are straight, 4-23/32 in apart']]);
    // A slab tells the most that comes off.
    const waney = [
      [0, -5],
      [150, 0],
      [300, -5],
      [300, 121],
      [150, 127],
      [0, 121],
    ] as const;
    const edges = { ...untrimmed, topEdge: 5, straightEdge: 7 };
    expect(
      preparingWords(handBoard({ outline: waney, trimmed: edges }), 'mm').map((words) => words.join(' ')),
    ).toEqual(['trim up to 5 mm off the top edge', 'trim up to 7 mm off the straight edge']);
  });

  test('a cut without room for its number has a dot at its start, and the key says so; none has where all have room', () => {
    const pegs = [0, 1, 2, 3, 4].flatMap((row) =>
      Array.from({ length: 12 }, (_, i) =>
        placed({ set: i, region: { outline: circle(10 + 3 * i, 10 + 3 * row, 1), openings: [] } }),
      ),
    );
    const crowd = { ...board, placements: pegs };
    const plan = handPlan(crowd);
    const sheet = placementSheet(crowd, { ...OPTIONS, plan });
    const drawn = flatMarks(besidesKey(sheet.marks));
    const count = (role: MarkRole) =>
      drawn.filter((mark) => mark.role === role && mark.kind !== 'rings').length;
    const dots = drawn.flatMap((mark) =>
      mark.role === 'unnumbered' && mark.kind === 'rings' ? [boundsOf(mark.rings[0])] : [],
    );
    expect([dots.length > 0, dots.length + count('cut-number')]).toEqual([true, plan.cuts.length]);
    for (const { minX, maxX, minY, maxY } of dots) {
      const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
      expect(plan.cuts.some(({ line: [at] }) => Math.hypot(at[0] - x, at[1] - y) < 1e-9)).toBe(true);
    }
    const words = 'start of a cut numbered in the cut list alone';
    const said = (of: typeof sheet) =>
      flatMarks(of.marks).filter((mark) => mark.kind === 'text' && mark.text === words).length;
    expect([said(sheet), said(placementSheet(board, OPTIONS))]).toEqual([1, 0]);
  });
});

describe('the paper of a single part', () => {
  test('shows the holes in its own openings: that to parts in an opening is on the paper of the part around it', () => {
    const frame = (name: string, outline: number, opening: number) =>
      placed({
        part: name,
        region: {
          outline: box(200 - outline / 2, 200 - outline / 2, outline, outline),
          openings: [box(200 - opening / 2, 200 - opening / 2, opening, opening)],
        },
      });
    const outer = frame('outer', 300, 260);
    const middle = frame('middle', 230, 180);
    const medal = placed({ part: 'medal', region: { outline: circle(200, 200, 60), openings: [] } });
    const nested = handBoard({
      usable: { outline: box(0, 0, 400, 400), openings: [] },
      placements: [outer, middle, medal],
    });
    const [plan] = planCuts(handLayout({ boards: [nested] })).boards;
    // The medal comes out through the opening of the middle frame, that frame through the opening of the outer one.
    expect(plan.holes).toHaveLength(2);
    const holesOn = (index: number) => {
      const { region } = nested.placements[index];
      const paper = { outline: region.outline, drawn: [], unit: 'mm' } as const;
      return partPlanMarks(nested, index, plan, paper).flatMap((mark) =>
        mark.kind === 'rings' && mark.role === 'hole-centre' ? [boundsOf(mark.rings.flat())] : [],
      );
    };
    expect([0, 1, 2].map((index) => holesOn(index).length)).toEqual([1, 1, 0]);
    const half = ({ minX, maxX, minY, maxY }: ReturnType<typeof boundsOf>) =>
      Math.max(Math.abs((minX + maxX) / 2 - 200), Math.abs((minY + maxY) / 2 - 200));
    // Between 115 and 130 mm from the middle across the sides, and between the medal of 60 mm and 90 mm.
    const [[around], [inside]] = [holesOn(0), holesOn(1)].map((boxes) => boxes.map(half));
    expect(around > 115 && around < 130).toBe(true);
    expect(inside < 90).toBe(true);
  });
});

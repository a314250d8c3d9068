import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { applyToRegion, applyToRing, placementMap } from '../../src/geometry/affine.ts';
import { insideRegion, locateInRing } from '../../src/geometry/ring.ts';
import { type Box, boundsOf, boxesMeet, type Point } from '../../src/geometry/shapes.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import type { LaidBoard, Placement } from '../../src/model/layout.ts';
import { keyBlock } from '../../src/sheet/blocks/key-block.ts';
import { boardMarks } from '../../src/sheet/board/board-marks.ts';
import { FreeSpace } from '../../src/sheet/board/free-space.ts';
import { FAR, Gutters, NO_ROWS } from '../../src/sheet/board/label-rows.ts';
import { placeOutside } from '../../src/sheet/board/outside-labels.ts';
import { numberBlocks } from '../../src/sheet/board/part-label.ts';
import { printedNames } from '../../src/sheet/board/part-names.ts';
import { encodable } from '../../src/sheet/marks/base-font-text.ts';
import { flatMarks, type GroupMark, type Mark, rolesOf, type TextMark } from '../../src/sheet/marks/marks.ts';
import { textBox, textWidth } from '../../src/sheet/marks/text-width.ts';
import { seeded } from '../seeded.ts';
import { box, circle, handBoard, placed } from './hand-layout.ts';
import { boxesOverlap, corners, lineMeetsBox, segmentMeetsBox, segmentsCross } from './rectangles.ts';

function partGroups(board: LaidBoard): GroupMark[] {
  return boardMarks(board).marks.filter(
    (mark): mark is GroupMark => mark.kind === 'group' && mark.id.startsWith('part-'),
  );
}

function labelsOf(group: GroupMark): TextMark[] {
  return flatMarks(group.marks).filter(
    (mark): mark is TextMark =>
      mark.kind === 'text' && (mark.role === 'label' || mark.role === 'part-number'),
  );
}

/** Every line that is sawn on a board. */
function sawnLines(board: LaidBoard): { points: readonly Point[]; closed: boolean; around: Box }[] {
  const lines = board.placements.flatMap(({ region, veins }) => [
    ...[region.outline, ...region.openings].map((points) => ({ points, closed: true })),
    ...veins.map((points) => ({ points, closed: false })),
  ]);
  return lines.map((each) => ({ ...each, around: boundsOf(each.points) }));
}

function insidePart(label: Box, placement: Placement): boolean {
  return corners(label).every((corner) => insideRegion(corner, placement.region));
}

/** The leader of a group: from inside the part to the edge of the label. */
function leaderJoins(marks: Iterable<Mark>, label: Box, placement: Placement): boolean {
  const leader = flatMarks(marks).find((mark) => mark.kind === 'line' && mark.role === 'leader');
  if (leader?.kind !== 'line') return false;
  const [from, to] = leader.points;
  const e = 0.01;
  const touches =
    to[0] >= label.minX - e && to[0] <= label.maxX + e && to[1] >= label.minY - e && to[1] <= label.maxY + e;
  return touches && insideRegion(from, placement.region);
}

/** True when a leader that ends on the board runs over a part that is not its own; looked at every 0.2 mm. */
function leaderStrays(marks: Iterable<Mark>, own: Placement, board: LaidBoard): boolean {
  const leader = flatMarks(marks).find((mark) => mark.kind === 'line' && mark.role === 'leader');
  if (leader?.kind !== 'line') return false;
  const [from, to] = leader.points;
  if (locateInRing(to, board.usable.outline) !== 1) return false;
  const steps = Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 0.2);
  const way = boundsOf([from, to]);
  const others = board.placements.filter(
    (each) => each !== own && boxesMeet(boundsOf(each.region.outline), way),
  );
  return Array.from({ length: steps }, (_, i): Point => {
    const t = i / steps;
    return [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
  }).some((point) => others.some(({ region }) => locateInRing(point, region.outline) === 1));
}

/** Leaders that run through a label of another part, or cross another leader; by the titles of the parts. */
function tangledLeaders(board: LaidBoard): string[] {
  const groups = partGroups(board).map((group) => ({
    title: group.title,
    labels: labelsOf(group).map(textBox),
    leaders: flatMarks(group.marks).flatMap((mark) =>
      mark.kind === 'line' && mark.role === 'leader' ? [mark.points] : [],
    ),
  }));
  return groups.flatMap(({ title, leaders }, i) =>
    leaders.flatMap(([from, to]) =>
      groups
        .filter((_, j) => j !== i)
        .filter(
          (other) =>
            other.labels.some((label) => segmentMeetsBox(from, to, label)) ||
            other.leaders.some(([a, b]) => segmentsCross(from, to, a, b)),
        )
        .map((other) => `${title} through ${other.title}`),
    ),
  );
}

function distanceToWay(x: number, y: number, [[ax, ay], [bx, by]]: readonly Point[]): number {
  const squared = (bx - ax) ** 2 + (by - ay) ** 2;
  const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

/** Checks every label of a board and gives how many stand inside their part and how many beside it. */
function checkLabels(board: LaidBoard): { inside: number; beside: number } {
  const count = { inside: 0, beside: 0 };
  const lines = sawnLines(board);
  const taken: Box[] = [];
  partGroups(board).forEach((group, i) => {
    const placement = board.placements[i];
    const boxes = labelsOf(group).map(textBox);
    expect(boxes.length, `labels of ${group.title}`).toBeGreaterThan(0);
    for (const label of boxes) {
      const inside = insidePart(label, placement);
      const joined = leaderJoins(group.marks, label, placement);
      expect(inside || joined, `${group.title}: inside or with a leader`).toBe(true);
      const crossed = lines.some(
        ({ points, closed, around }) => boxesMeet(around, label) && lineMeetsBox(points, closed, label),
      );
      expect(crossed, `${group.title}: on a line to saw along`).toBe(false);
      expect(
        taken.some((other) => boxesOverlap(other, label)),
        `${group.title}: on another label`,
      ).toBe(false);
      if (inside) count.inside++;
      else count.beside++;
    }
    expect(leaderStrays(group.marks, placement, board), `${group.title}: leader over another part`).toBe(
      false,
    );
    taken.push(...boxes);
  });
  expect(tangledLeaders(board)).toEqual([]);
  return count;
}

describe('labels', () => {
  test('on a board typed by hand: inside where they fit, else with a leader', () => {
    const groups = partGroups(handBoard());
    const texts = groups.map((group) => labelsOf(group).map(({ text }) => text));
    expect(texts[2]).toEqual(['Figures \u00b7 duck \u00b7 2', 'turned over']);
    expect(texts[3]).toEqual(['Figures \u00b7 peg \u00b7 12']);
    expect(checkLabels(handBoard())).toEqual({ inside: 5, beside: 2 });
  });

  test('a leader leads to the text, however much narrower that is than the room kept for it', () => {
    // Letters that print as question marks, half as wide as what they may be; parts to the left, the right and both sides of waste.
    const reeds = [20, 130, 230, 290].map((x) =>
      placed({
        ...{ layer: '\u05d0\u05d2\u05dd', part: '\u05e1\u05d9\u05e8\u05d4' },
        region: { outline: box(x, 5, 3, 110), openings: [] },
      }),
    );
    const ends = partGroups(handBoard({ placements: reeds })).map((group) => {
      const [label] = labelsOf(group);
      const leader = flatMarks(group.marks).find(({ role }) => role === 'leader');
      const [, [x]] = leader?.kind === 'line' ? leader.points : [];
      const width = textWidth(encodable(label.text), label.size) / 1.12;
      const from = label.at[0] - { start: 0, middle: width / 2, end: width }[label.anchor];
      return x >= from - 0.1 && x <= from + width + 0.1;
    });
    expect(ends).toEqual([true, true, true, true]);
  });

  test('a label that finds no waste on the board stands in a row beside it', () => {
    const pegs = Array.from({ length: 30 }, (_, i) =>
      placed({ part: 'peg', set: i + 1, region: { outline: box(1 + 4 * i, 1, 2, 18), openings: [] } }),
    );
    const board = handBoard({
      usable: { outline: box(0, 0, 122, 20), openings: [] },
      placements: pegs,
    });
    expect(checkLabels(board)).toEqual({ inside: 0, beside: 30 });
    const { box: drawn } = boardMarks(board);
    for (const group of partGroups(board)) {
      for (const label of labelsOf(group).map(textBox)) {
        expect(label.maxY <= 0 || label.minY >= 20).toBe(true);
        expect(label.minY >= drawn.minY && label.maxY <= drawn.maxY).toBe(true);
      }
    }
  });

  test('that find no way out make no other part lose its name', () => {
    const pegs = [20, 80, 120].map((x, i) =>
      placed({ part: `peg ${i + 1}`, region: { outline: box(x - 2, 1, 4, 18), openings: [] } }),
    );
    const walls = [0, 22, 82, 122].map((x, i) => box(x, 1, [18, 56, 36, 18][i], 18));
    const board = handBoard({
      usable: { outline: box(0, 0, 140, 20), openings: [] },
      placements: [
        ...pegs,
        ...walls.map((outline) => placed({ part: 'wall', region: { outline, openings: [] } })),
      ],
    });
    const wanted = pegs.map((placement, i) => ({
      placement,
      anchor: [[20, 80, 120][i], 10] as const,
      number: i + 1,
    }));
    /** The words on each peg and the numbers to be listed, with texts of some width above and below the place of the first peg. */
    const written = (width: number, ...roomy: number[]) => {
      const { marks, listed, above, below } = placeOutside(wanted, board, {
        taken: [6, 13].map((y) => boundsOf(box(20 - width / 2, y, width, 1))),
        roomIn: (placement, [block]) => {
          const peg = pegs.indexOf(placement);
          return roomy.includes(peg)
            ? { block, box: boundsOf(box([18.5, 78.5, 118.5][peg], 9, 3, 2)) }
            : undefined;
        },
      });
      const boxes = [...marks.values()]
        .flat()
        .flatMap((mark) => (mark.kind === 'text' ? [textBox(mark)] : []));
      expect(boxes.every(({ minY, maxY }) => minY > -above && maxY < 20 + below)).toBe(true);
      const words = (each: Iterable<Mark>) =>
        [...flatMarks(each)].flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
      return {
        pegs: pegs.flatMap((peg) => words(marks.get(peg) ?? [])),
        listed: listed.map(({ number }) => number),
      };
    };
    const [first, ...others] = pegs.map(({ layer, part, set }) => [layer, part, set].join(' \u00b7 '));
    // Past narrow texts there is a way to a place aside; past wide ones there is none.
    expect(written(8, 0, 2)).toEqual({ pegs: [first, ...others], listed: [] });
    expect(written(60, 0)).toEqual({ pegs: ['p1', ...others], listed: [1] });
    // Where there is a list, no name stands beside the board whose part has room for a number.
    expect(written(60, 0, 2)).toEqual({ pegs: ['p1', others[0], 'p3'], listed: [1, 3] });
    // A number whose leader would have to run through a text is that of a crowd.
    expect(written(60).pegs).toEqual(['p1', 'p2', 'p3']);
  });

  test('of a crowd of small parts are in a list below the board, which takes no more pages for them', () => {
    const board = crowdedBoard();
    const { inside } = checkLabels(board);
    expect(inside).toBeGreaterThan(25);
    const drawing = boardMarks(board);
    expect(drawing.box.maxY - drawing.box.minY).toBeLessThan(186);
    const list = drawing.marks.find((mark): mark is GroupMark => mark.kind === 'group' && mark.id === 'list');
    const lines = flatMarks(list?.marks ?? []).flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
    const boxes = lines.map(textBox);
    expect(boxes.some((each, i) => boxes.slice(i + 1).some((other) => boxesOverlap(each, other)))).toBe(
      false,
    );
    expect(boxes.every(({ minY, maxY }) => minY > 140 && maxY < drawing.box.maxY)).toBe(true);
    partGroups(board).forEach((group, i) => {
      const { layer, part, set } = board.placements[i];
      const name = [layer, part, set].join(' \u00b7 ');
      const written = labelsOf(group)
        .map(({ text }) => text)
        .join(' ');
      const isListed = lines.some(({ text }) => text === `p${i + 1} ${name}`);
      // Either the part has its name, or its number, which the list tells.
      expect([written, isListed]).toEqual(isListed ? [`p${i + 1}`, true] : [name, false]);
    });
  });

  test('in rows far aside begin right of no last part, where no page may be but for them', () => {
    const edges = { minX: 0, minY: 0, maxX: 200, maxY: 50 };
    const part = { placement: placed({ region: { outline: box(90, 22, 6, 6), openings: [] } }) };
    const parts = [{ ...part, box: boundsOf(part.placement.region.outline) }];
    const around = { waste: new FreeSpace(edges, 1), parts, texts: [], leaders: [] };
    const gutters = new Gutters(edges, around, 6, { rows: NO_ROWS, right: 0 });
    const [block] = numberBlocks(1);
    expect(gutters.take([95, 25], block, [FAR])?.minX).toBeCloseTo(93.5);
    // Within the parts the first place is on the right.
    expect(gutters.take([92, 25], block, [FAR])?.minX).toBeCloseTo(93.5);
  });

  test('of a crowd too dense even for numbers are left out and counted: no leader runs on top of another', () => {
    const beads = Array.from({ length: 60 }, (_, i) =>
      placed({
        part: 'bead',
        set: i + 1,
        region: { outline: circle(2.5 + 3 * (i % 10), 2.5 + 3 * Math.floor(i / 10), 1, 12), openings: [] },
      }),
    );
    const board = handBoard({ usable: { outline: box(0, 0, 32, 20), openings: [] }, placements: beads });
    const wanted = beads.map((placement, i) => {
      const { minX, minY, maxX, maxY } = boundsOf(placement.region.outline);
      return { placement, anchor: [(minX + maxX) / 2, (minY + maxY) / 2] as const, number: i + 1 };
    });
    const { marks, listed, nameless, above, below } = placeOutside(wanted, board);
    expect(nameless).toBeGreaterThan(5);
    expect([marks.size, listed.length]).toEqual([60 - nameless, 60 - nameless]);
    expect(Math.max(above, below)).toBeLessThan(50);
    const leaders = [...marks.values()]
      .flat()
      .flatMap((mark) => (mark.kind === 'line' && mark.role === 'leader' ? [mark.points] : []));
    expect(
      leaders.flatMap(([a, b], i) => leaders.slice(i + 1).filter(([c, d]) => segmentsCross(a, b, c, d))),
    ).toEqual([]);
  });

  test('in rows end where the board ends, rather than ask for one page more', () => {
    const post = placed({ part: 'mooring post', region: { outline: box(155, 2, 20, 5), openings: [] } });
    const rail = placed({ part: 'rail', region: { outline: box(2, 2, 151, 5), openings: [] } });
    const usable = { outline: box(0, 0, 180, 9), openings: [] };
    const board = handBoard({ usable, placements: [rail, post] });
    const { marks, right } = placeOutside([{ placement: post, anchor: [165, 4.5], number: 1 }], board);
    expect(right).toBeCloseTo(180, 6);
    const [label] = flatMarks(marks.get(post) ?? []).filter((mark) => mark.kind === 'text');
    expect(textBox(label).minX).toBeLessThan(165);
    expect(leaderJoins(marks.get(post) ?? [], textBox(label), post)).toBe(true);
  });

  test('in rows stand off the edges of a board that is trimmed, not across them', () => {
    for (const [trim, y] of [
      [3, 2],
      [4, 15],
    ]) {
      const post = placed({ part: 'mooring post', region: { outline: box(5, y, 8, 5), openings: [] } });
      const board = handBoard({
        outline: box(-10, -trim, 38, 22 + 2 * trim),
        usable: { outline: box(0, 0, 18, 22), openings: [] },
        placements: [post],
      });
      const { marks } = placeOutside([{ placement: post, anchor: [9, y + 2.5], number: 1 }], board);
      const [label] = flatMarks(marks.get(post) ?? []).filter((mark) => mark.kind === 'text');
      const { minX, minY, maxY } = textBox(label);
      expect(y < 11 ? maxY < -trim : minY > 22 + trim).toBe(true);
      // The end that is trimmed off may be on no page.
      expect(minX).toBeCloseTo(0, 6);
    }
  });

  test('in rows that are longer than the board begin where it begins, for left of it there is no page', () => {
    const post = placed({ part: 'mooring post', region: { outline: box(5, 2, 8, 5), openings: [] } });
    const board = handBoard({ usable: { outline: box(0, 0, 18, 9), openings: [] }, placements: [post] });
    const { marks } = placeOutside([{ placement: post, anchor: [9, 4.5], number: 1 }], board);
    const [label] = flatMarks(marks.get(post) ?? []).filter((mark) => mark.kind === 'text');
    expect(textBox(label).minX).toBeCloseTo(0, 6);
    expect(textBox(label).maxX).toBeGreaterThan(18);
  });

  test('in rows stand on the side where their leaders run over no other part, though its inner rows are taken', () => {
    const walls = [2, 35, 68].map((y) =>
      placed({ part: 'wall', region: { outline: box(2, y, 296, 32), openings: [] } }),
    );
    const chimneys = [2, 12, 22].map((x, i) =>
      placed({ part: `chimney ${i + 1}`, region: { outline: box(x, 102, 9, 16), openings: [] } }),
    );
    const shed = placed({ part: 'shed', region: { outline: box(32, 102, 266, 16), openings: [] } });
    const board = handBoard({ usable: handBoard().usable, placements: [...walls, ...chimneys, shed] });
    const leaders = flatMarks(boardMarks(board).marks).flatMap((mark) =>
      mark.kind === 'line' && mark.role === 'leader' ? [mark.points] : [],
    );
    expect(leaders.length).toBe(3);
    expect(leaders.filter(([from, to]) => to[1] < from[1])).toEqual([]);
  });

  test('of a crowd of dots are their numbers, most of them inside, and no two leaders run as one', () => {
    const dots = Array.from({ length: 60 }, (_, i) => {
      const at = [5 + 8 * (i % 10), 5 + 7 * Math.floor(i / 10)] as const;
      const region = { outline: circle(at[0], at[1], 2 + (i % 5) * 0.4), openings: [] };
      return placed({ part: `lantern peg ${i + 1}`, set: 1, region });
    });
    const board = handBoard({ usable: { outline: box(0, 0, 140, 72), openings: [] }, placements: dots });
    const key = flatMarks(keyBlock(rolesOf(boardMarks(board).marks)).marksAt(0, 0));
    expect(key.some((mark) => mark.kind === 'text' && mark.text === 'p12')).toBe(true);
    const groups = partGroups(board);
    const labels = groups.map((group) => labelsOf(group).map(textBox));
    expect(labels.every(({ length }) => length === 1)).toBe(true);
    expect(labels.filter(([label], i) => insidePart(label, dots[i])).length).toBeGreaterThan(5);
    expect(
      groups.every(
        (g, i) => insidePart(labels[i][0], dots[i]) || leaderJoins(g.marks, labels[i][0], dots[i]),
      ),
    ).toBe(true);
    const leaders = groups.flatMap(({ marks }) =>
      flatMarks(marks).flatMap((mark) =>
        mark.kind === 'line' && mark.role === 'leader' ? [mark.points] : [],
      ),
    );
    const ends = (i: number, j: number) => leaders[i].map(([x, y]) => distanceToWay(x, y, leaders[j]));
    leaders.forEach(([from, to], i) => {
      for (let j = 0; j < i; j++) {
        expect(segmentsCross(from, to, leaders[j][0], leaders[j][1])).toBe(false);
        expect(Math.min(...ends(i, j), ...ends(j, i))).toBeGreaterThan(0.7);
      }
    });
  });

  test('on 50 random boards no label lies on a line, and each is in its part or has a leader', () => {
    const sum = { inside: 0, beside: 0 };
    for (let seed = 1; seed <= 50; seed++) {
      const { inside, beside } = checkLabels(randomBoard(seed));
      sum.inside += inside;
      sum.beside += beside;
    }
    // The boards have both kinds in plenty, or the check above would check little.
    expect(sum.inside).toBeGreaterThan(200);
    expect(sum.beside).toBeGreaterThan(200);
  });

  test('on the parts of the lake-shore scene, upright, upside down and turned over', () => {
    const { inside, beside } = checkLabels(sceneBoard());
    expect(inside).toBeGreaterThan(30);
    expect(beside).toBeGreaterThan(3);
  });

  test('the grain arrow lies inside its part', () => {
    for (const board of [handBoard(), randomBoard(3), randomBoard(4)]) {
      partGroups(board).forEach((group, i) => {
        const arrow = flatMarks(group.marks).filter(
          (mark) => mark.role === 'grain' || mark.role === 'grain-head',
        );
        const points = arrow.flatMap((mark) =>
          mark.kind === 'line' ? mark.points : mark.kind === 'rings' ? mark.rings.flat() : [],
        );
        for (const point of points) {
          expect(locateInRing(point, board.placements[i].region.outline), group.title).toBe(1);
        }
      });
    }
  });
});

/** A board 140 mm high with a crowd of 36 small parts beside a large one, and no waste for their names. */
function crowdedBoard(): LaidBoard {
  // Of as many kinds: no two of them share a line of the list.
  const placements = Array.from({ length: 36 }, (_, i) => {
    const outline = box(4 + 14.6 * Math.floor(i / 6), 4 + 22 * (i % 6), 12.8, 20.2);
    const region = { outline, openings: [] };
    return placed({ layer: 'Small figures', part: `duckling no. ${i + 1}`, region });
  });
  const hills = placed({ part: 'hills', region: { outline: box(95, 4, 205, 132), openings: [] } });
  const usable = { outline: box(0, 0, 305, 140), openings: [] };
  return handBoard({ usable, placements: [...placements, hills] });
}

/** Every part of the scene three times, in rows: as drawn, upside down, and turned over. */
function sceneBoard(): LaidBoard {
  const file = new URL('../../fixtures/lake-shore/pattern.svg', import.meta.url);
  const { pattern } = readPattern(readFileSync(file, 'utf8'));
  const placements: Placement[] = [];
  let y = 0;
  for (const [rotation, turnedOver] of [
    [0, false],
    [180, false],
    [0, true],
  ] as const) {
    for (const { parts } of pattern.layers) {
      let x = 0;
      let tallest = 0;
      for (const part of parts) {
        const turned = placementMap([0, 0], rotation, turnedOver);
        const { minX, minY, maxX, maxY } = boundsOf(applyToRegion(turned, part.region).outline);
        const map = placementMap([x - minX, y - minY], rotation, turnedOver);
        const region = applyToRegion(map, part.region);
        const veins = part.veins.map((vein) => applyToRing(map, vein));
        placements.push(
          placed({ layer: part.layer, part: part.name, rotation, turnedOver, region, veins, set: 12 }),
        );
        x += maxX - minX + 2;
        tallest = Math.max(tallest, maxY - minY);
      }
      y += tallest + 2;
    }
  }
  return handBoard({ usable: { outline: box(-5, -5, 700, y + 10), openings: [] }, placements });
}

/** A board with a grid of star-shaped parts of 4 to 50 mm, some with an opening and a vein. */
function randomBoard(seed: number): LaidBoard {
  const random = seeded(seed);
  const cell = 26 + 30 * random();
  const placements: Placement[] = [];
  for (let y = cell / 2; y < 160; y += cell) {
    for (let x = cell / 2; x < 400; x += cell)
      placements.push(randomPart(x, y, cell, placements.length, random));
  }
  const outline = box(-cell / 2, -cell / 2, 400 + 1.5 * cell, 160 + 1.5 * cell);
  return handBoard({ id: `random-${seed}`, usable: { outline, openings: [] }, placements });
}

function randomPart(x: number, y: number, cell: number, index: number, random: () => number): Placement {
  const radius = cell * (0.15 + 0.34 * random());
  const points = 5 + Math.floor(20 * random());
  const outline = Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / points;
    const reach = radius * (0.45 + 0.54 * random());
    return [x + reach * Math.cos(angle), y + reach * Math.sin(angle)];
  });
  const opened = random() < 0.3;
  return placed({
    layer: ['Far shore', 'Figures', 'L'][index % 3],
    part: ['a', 'heron', 'dog on the jetty', 'a name longer than any part can hold in one line'][index % 4],
    set: 1 + index,
    turnedOver: random() < 0.2,
    region: { outline, openings: opened ? [circle(x, y, radius * 0.3, 12)] : [] },
    veins: opened
      ? []
      : [
          [
            [x - radius * 0.3, y],
            [x + radius * 0.25, y + radius * 0.1],
          ],
        ],
  });
}

test('a name from right to left ends in a left-to-right mark, so that the set behind it stays there and nothing is printed for it', () => {
  const { layer, part } = printedNames({ layer: 'Lake', part: 'כלב ים' }, 1);
  expect([layer, part]).toEqual(['Lake', 'no. 1 כלב ים\u200e']);
  expect(encodable(part)).toBe('no. 1 ??? ??');
  expect(textWidth('\u200e', 3)).toBe(0);
});

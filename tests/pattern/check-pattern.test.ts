import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/geometry/curve.ts';
import { lengthsInText } from '../../src/issues/lengths-in-text.ts';
import type { PatternCheckOptions } from '../../src/model/pattern-check.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { blocksJoinedBy, box, circle, drawing, group, polygon, shape } from './drawn.ts';

const check = (curves: Curve[], options?: PatternCheckOptions) => {
  const layer = group([shape(curves, { id: 'p', fillRule: 'evenodd' })], { label: 'L', isLayer: true });
  return checkPattern(patternFromDrawing(drawing([layer])).pattern, options);
};
const kinds = (curves: Curve[], options?: PatternCheckOptions) =>
  check(curves, options).findings.map(({ kind }) => kind);

const bar = blocksJoinedBy(2.4);

describe('necks and grain', () => {
  it('passes a neck along the grain that it flags across the grain', () => {
    expect(kinds([bar])).toEqual([]);
    const [finding] = check([bar], { grain: { L: 'across' } }).findings;
    expect(finding).toMatchObject({ kind: 'neck-short-grain', layer: 'L', part: 'p', severity: 'warning' });
    expect(finding.size).toBeCloseTo(2.4, 3);
    expect(finding.limit).toBeCloseTo(3.2, 6);
    expect(finding.at[0]).toBeGreaterThan(59);
    expect(finding.at[0]).toBeLessThan(81);
    expect(kinds([bar], { grain: { L: 'free' } })).toEqual([]);
  });

  it('takes a layer of which no grain is stated for one along it, also where that of others is', () => {
    expect(kinds([bar], { grain: { Other: 'across' } })).toEqual([]);
  });

  it('holds a neck at a slant against a limit between the two: at 45 degrees half way, 1.6 + (3.2 - 1.6) / 2', () => {
    // The bar again, turned: a neck of 2.4 mm at 45 degrees is just wide enough, one of 2.3 mm is not.
    const slanting = (width: number) => {
      const at = (x: number, y: number): [number, number] => [
        100 + (x - y) / Math.SQRT2,
        (x + y) / Math.SQRT2,
      ];
      const [upper, lower] = [30 - width / 2, 30 + width / 2];
      return polygon(
        ...[at(0, 0), at(60, 0), at(60, upper), at(80, upper), at(80, 0), at(140, 0)],
        ...[at(140, 60), at(80, 60), at(80, lower), at(60, lower), at(60, 60), at(0, 60)],
      );
    };
    expect(kinds([slanting(2.41)])).toEqual([]);
    const [finding, ...others] = check([slanting(2.3)]).findings;
    expect(others).toEqual([]);
    expect(finding.size).toBeCloseTo(2.3, 3);
    expect(finding.limit).toBeCloseTo(2.4, 3);
  });

  it('flags a neck that is too thin whatever the grain', () => {
    expect(kinds([bar], { neckAlong: 3 })).toEqual(['neck-thin']);
    const { parts } = check([bar], { neckAlong: 3 });
    expect(parts[0].thinnestNeck).toBeCloseTo(2.4, 3);
  });

  it('finds each of two necks once', () => {
    const double = polygon(
      [0, 0],
      [60, 0],
      [60, 9],
      [80, 9],
      [80, 0],
      [140, 0],
      [140, 60],
      [80, 60],
      [80, 51],
      [60, 51],
      [60, 60],
      [0, 60],
    );
    const findings = check([double, box(58, 10, 24, 40)]).findings.filter(({ kind }) => kind === 'neck-thin');
    expect(findings).toHaveLength(2);
    for (const { size } of findings) expect(size).toBeCloseTo(1, 3);
  });
});

describe('openings that touch', () => {
  it('are told as such, whatever the grain, and take no wood', () => {
    const layer = group(
      [
        shape([polygon([0, 0], [100, 7], [100, 70], [0, 70])]),
        shape([polygon([50, 3.5], [60, 20], [40, 20])], { fill: 'none', stroke: 'black' }),
      ],
      { label: 'L', isLayer: true },
    );
    for (const grain of ['along', 'across', 'free'] as const) {
      const { pattern } = patternFromDrawing(drawing([layer]));
      const [finding, ...others] = checkPattern(pattern, { grain: { L: grain } }).findings;
      expect(others).toEqual([]);
      expect(finding).toMatchObject({ kind: 'neck-thin', size: 0, at: [50, 3.5] });
      expect(finding.message).toContain('touches');
    }
  });
});

describe('turns', () => {
  it('counts the corners of polygons and none on a circle', () => {
    expect(check([box(0, 0, 60, 60)]).parts[0].sharpTurns).toBe(4);
    expect(check([polygon([0, 0], [60, 0], [30, 60])]).parts[0].sharpTurns).toBe(3);
    expect(check([circle(50, 50, 30)]).parts[0].sharpTurns).toBe(0);
  });

  it('reports the radius of a bend tighter than the blade', () => {
    const [finding] = check([box(0, 0, 60, 60), circle(30, 30, 1.5)]).findings;
    expect(finding.kind).toBe('turn-tight');
    expect(finding.size).toBeCloseTo(1.5, 1);
    expect(kinds([box(0, 0, 60, 60), circle(30, 30, 3)])).toEqual([]);
    expect(kinds([box(0, 0, 60, 60), circle(30, 30, 1.5)], { saw: { bladeWidth: 0.6 } })).toEqual([]);
  });
});

describe('corners and bends', () => {
  const corners = (curves: Curve[], kerf: number) => check(curves, { saw: { kerf } }).parts[0].sharpTurns;

  it('takes two turns within a kerf for one corner', () => {
    // Corners cut off by 0.3 x 0.2 mm, 0.36 mm along: turns of 34 and 56 degrees.
    const cut = polygon(
      ...([
        [0.3, 0],
        [59.7, 0],
        [60, 0.2],
        [60, 59.8],
        [59.7, 60],
        [0.3, 60],
        [0, 59.8],
        [0, 0.2],
      ] as [number, number][]),
    );
    expect(corners([cut], 0.5)).toBe(4);
    // A gentle bow before a corner, a turn of 19 degrees 30 mm away, is none of it.
    const bowed = polygon([0.3, 0], [30, -5], [59.7, 0], [60, 0.2], [60, 60], [0, 60], [0, 0.2]);
    expect(corners([bowed], 0.5)).toBe(4);
    const hexagon = polygon([15, 0], [45, 0], [60, 26], [45, 52], [15, 52], [0, 26]);
    expect(corners([hexagon], 0.5)).toBe(6);
  });

  it('takes a hole narrower than the kerf for one corner, all round', () => {
    expect(corners([box(0, 0, 60, 60), circle(30, 30, 0.3)], 0.5)).toBe(5);
  });

  it('tells of several tight bends the tightest, and where it is', () => {
    const [finding, ...others] = check([
      box(0, 0, 60, 60),
      circle(15, 30, 1.5),
      circle(45, 30, 1.2),
    ]).findings;
    expect(others).toEqual([]);
    expect(finding.message).toContain('2 bends tighter than the blade follows');
    expect(finding.message).toContain('down to a radius of 1.2');
    expect(finding.size).toBeCloseTo(1.2, 1);
    expect(Math.hypot(finding.at[0] - 45, finding.at[1] - 30)).toBeCloseTo(1.2, 1);
    // 0.97 mm wide, and 0.05 mm of play: 0.97 x 0.97 / (8 x 0.05).
    expect(finding.limit).toBeCloseTo(2.352, 3);
  });

  it('tells of a rounded corner its middle', () => {
    const rounded: Curve = {
      start: [0, 0],
      segments: [
        { kind: 'line', to: [58.5, 0] },
        {
          ...{ kind: 'arc', centre: [58.5, 1.5], u: [1.5, 0], v: [0, 1.5] },
          ...{ start: -Math.PI / 2, sweep: Math.PI / 2, to: [60, 1.5] },
        },
        { kind: 'line', to: [60, 60] },
        { kind: 'line', to: [0, 60] },
        { kind: 'line', to: [0, 0] },
      ],
      closed: true,
    };
    const { findings, parts } = check([rounded]);
    expect(parts[0].sharpTurns).toBe(3);
    expect(findings.map(({ kind }) => kind)).toEqual(['turn-tight']);
    expect(findings[0].message).toContain('a bend tighter');
    // 1.5 mm from its middle at 45 degrees; the points of the outline are 0.3 mm apart.
    const { at } = findings[0];
    expect(Math.hypot(at[0] - (58.5 + 1.5 / Math.SQRT2), at[1] - (1.5 - 1.5 / Math.SQRT2))).toBeLessThan(0.3);
  });
});

describe('openings, slots and small parts', () => {
  it('needs room for the drilled hole in every opening', () => {
    const [finding] = check([box(0, 0, 60, 60), box(20, 20, 20, 1.2)]).findings;
    expect(finding.kind).toBe('opening-small');
    expect(finding.size).toBeCloseTo(1.2, 1);
    expect(finding.message).toContain('takes a hole of 1.20 mm at most; the blade needs 1.60 mm');
    expect(kinds([box(0, 0, 60, 60), box(20, 20, 20, 1.2)], { saw: { hole: 1 } })).toEqual([]);
  });

  it('takes a hole as wide as the opening', () => {
    const sixteenth = 25.4 / 16;
    const saw = { hole: sixteenth, bladeWidth: 0.5 };
    const eye = (width: number) => [box(0, 0, 60, 60), circle(30, 30, width / 2)];
    const slot = (width: number) => [box(0, 0, 60, 60), box(20, 20, 20, width)];
    for (const opening of [eye, slot]) {
      expect(kinds(opening(sixteenth), { saw })).toEqual([]);
      // The usual 1.6 mm is a drill of 1/16 in too.
      expect(kinds(opening(sixteenth), { saw: { bladeWidth: 0.5 } })).toEqual([]);
      expect(kinds(opening(sixteenth - 0.1), { saw })).toEqual(['opening-small']);
    }
  });

  it('finds a slot the kerf would fill, not the end of a notch', () => {
    const slot = polygon([0, 0], [60, 0], [60, 60], [30.3, 60], [30.3, 30], [30, 30], [30, 60], [0, 60]);
    const [finding] = check([slot]).findings;
    expect(finding.kind).toBe('lost-in-kerf');
    expect(finding.size).toBeCloseTo(0.3, 3);
    const notch = polygon([0, 0], [60, 0], [60, 60], [36, 60], [30, 40], [24, 60], [0, 60]);
    expect(kinds([notch])).toEqual([]);
  });

  it('tells slots 3 mm apart one by one', () => {
    const comb = polygon(
      ...[0, 60].map((x): [number, number] => [x, 0]),
      ...[60, 33.3].map((x): [number, number] => [x, 60]),
      ...[33.3, 33].map((x): [number, number] => [x, 30]),
      ...[33, 30.3].map((x): [number, number] => [x, 60]),
      ...[30.3, 30].map((x): [number, number] => [x, 30]),
      ...[30, 0].map((x): [number, number] => [x, 60]),
    );
    const { findings } = check([comb], { grain: { L: 'free' } });
    expect(findings.map(({ kind }) => kind)).toEqual(['lost-in-kerf', 'lost-in-kerf']);
    expect(findings.map(({ at }) => at[0]).sort((a, b) => a - b)).toEqual([
      expect.closeTo(30.15, 6),
      expect.closeTo(33.15, 6),
    ]);
  });

  it('ends for limits of nothing and next to nothing, and flags nothing by them', () => {
    for (const size of [0, 1e-12, 1e-4]) {
      expect(kinds([bar], { saw: { kerf: size }, neckAlong: size, neckAcross: size })).toEqual([]);
    }
  });

  it('asks for a carrier for a part under two inches', () => {
    expect(kinds([box(0, 0, 50, 30)])).toEqual(['part-small']);
    expect(kinds([box(0, 0, 51, 30)])).toEqual([]);
  });

  it('asks for one under the size that the maker states', () => {
    expect(kinds([box(0, 0, 45, 30)], { holdSize: 40 })).toEqual([]);
    const [finding] = check([box(0, 0, 55, 30)], { holdSize: 60 }).findings;
    expect(finding).toMatchObject({ kind: 'part-small', limit: 60, at: [27.5, 15] });
    expect(finding.size).toBeCloseTo(55, 6);
  });

  it('measures a part along itself, however it is turned in the drawing', () => {
    const turned = (length: number, degrees: number) => {
      const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const at = (x: number, y: number): [number, number] => [50 + c * x - s * y, 50 + s * x + c * y];
      return polygon(at(0, 0), at(length, 0), at(length, 10), at(0, 10));
    };
    for (const degrees of [0, 30, 45]) {
      const [finding] = check([turned(40, degrees)]).findings;
      expect(finding.message).toContain('40.00 mm at its longest');
      // Longer than two inches, though the box along the axes is not at 45 degrees.
      expect(kinds([turned(58, degrees)])).toEqual([]);
    }
  });

  it('tells how long a small part is as finely as other lengths, for inches are made of it', () => {
    const [{ message }] = check([box(0, 0, 33.454, 15)]).findings;
    expect(message).toContain('33.45 mm at its longest');
    expect(lengthsInText(message, 'in')).toContain('1.317 in');
  });

  it('finds nothing wrong with a plain board', () => {
    expect(check([box(0, 0, 100, 60)]).findings).toEqual([]);
  });
});

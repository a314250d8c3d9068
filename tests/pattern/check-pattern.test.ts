import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/geometry/curve.ts';
import { lengthsInText } from '../../src/issues/lengths-in-text.ts';
import type { PatternCheckOptions } from '../../src/model/pattern-check.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { box, circle, drawing, group, polygon, shape } from './drawn.ts';

const check = (curves: Curve[], options?: PatternCheckOptions) => {
  const layer = group([shape(curves, { id: 'p', fillRule: 'evenodd' })], { label: 'L', isLayer: true });
  return checkPattern(patternFromDrawing(drawing([layer])).pattern, options);
};
const kinds = (curves: Curve[], options?: PatternCheckOptions) =>
  check(curves, options).findings.map(({ kind }) => kind);

/** Two blocks of 60 x 60 joined by a bar 20 mm long and 2.4 mm wide, lying along x. */
const bar = polygon(
  [0, 0],
  [60, 0],
  [60, 29],
  [80, 29],
  [80, 0],
  [140, 0],
  [140, 60],
  [80, 60],
  [80, 31.4],
  [60, 31.4],
  [60, 60],
  [0, 60],
);

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

describe('openings, slots and small parts', () => {
  it('needs room for the drilled hole in every opening', () => {
    const [finding] = check([box(0, 0, 60, 60), box(20, 20, 20, 1.2)]).findings;
    expect(finding.kind).toBe('opening-small');
    expect(finding.size).toBeCloseTo(1.2, 1);
    expect(finding.message).toContain('takes a hole of 1.20 mm at most; the blade needs 1.60 mm');
    expect(kinds([box(0, 0, 60, 60), box(20, 20, 20, 1.2)], { saw: { hole: 1 } })).toEqual([]);
  });

  it('finds a slot the kerf would fill, not the end of a notch', () => {
    const slot = polygon([0, 0], [60, 0], [60, 60], [30.3, 60], [30.3, 30], [30, 30], [30, 60], [0, 60]);
    const [finding] = check([slot]).findings;
    expect(finding.kind).toBe('lost-in-kerf');
    expect(finding.size).toBeCloseTo(0.3, 3);
    const notch = polygon([0, 0], [60, 0], [60, 60], [36, 60], [30, 40], [24, 60], [0, 60]);
    expect(kinds([notch])).toEqual([]);
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

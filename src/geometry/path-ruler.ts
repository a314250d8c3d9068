import { svgPathProperties } from 'svg-path-properties';
import type { Curve, Segment } from './curve.ts';
import type { Point } from './shapes.ts';

/**
 * The only door to svg-path-properties: a second ruler for curve lengths, and points at a length along a line.
 * It is given absolute M L C Z data only, for which it was found right: it misreads arcs of zero radius, and an
 * arc here may be any affine image of a circle. Cubics with a cusp come out up to 0.6 % too long.
 */

/** Length of a curve in mm by the second ruler. Arcs are handed over as cubics of at most 1/16 turn. */
export function lengthBySecondRuler(curve: Curve): number {
  return new svgPathProperties(pathData(curve)).getTotalLength();
}

function pathData(curve: Curve): string {
  const write = (p: Point) => `${p[0]} ${p[1]}`;
  const commands = curve.segments.map((segment) =>
    segment.kind === 'line'
      ? `L${write(segment.to)}`
      : (segment.kind === 'arc' ? cubicsOfArc(segment) : [segment])
          .map(({ c1, c2, to }) => `C${write(c1)} ${write(c2)} ${write(to)}`)
          .join(''),
  );
  return `M${write(curve.start)}${commands.join('')}${curve.closed ? 'Z' : ''}`;
}

type Cubic = Extract<Segment, { kind: 'cubic' }>;

/** Cubics with the arc's end tangents; the handle length 4/3 tan(step/4) is the standard choice. */
function cubicsOfArc({ centre, u, v, start, sweep }: Extract<Segment, { kind: 'arc' }>): Cubic[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 8)));
  const step = sweep / pieces;
  const handle = (4 / 3) * Math.tan(step / 4);
  const at = (angle: number, along: number): Point => {
    const cos = Math.cos(angle) - along * Math.sin(angle);
    const sin = Math.sin(angle) + along * Math.cos(angle);
    return [centre[0] + u[0] * cos + v[0] * sin, centre[1] + u[1] * cos + v[1] * sin];
  };
  return Array.from({ length: pieces }, (_, i) => ({
    kind: 'cubic',
    c1: at(start + i * step, handle),
    c2: at(start + (i + 1) * step, -handle),
    to: at(start + (i + 1) * step, 0),
  }));
}

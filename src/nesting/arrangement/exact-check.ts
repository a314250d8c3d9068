import { applyToRegion } from '../../geometry/affine.ts';
import type { Hazard } from '../problem/container.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { Arrangement } from './arrangement.ts';
import { better, scoreOf } from './score.ts';
import { keepApart, liesWithin, SHORTFALL, type Solid, solidOf } from './solids.ts';

/**
 * The exact acceptance test: distances between the outlines themselves, edge by edge, without any no-fit polygon. A
 * layout is only ever handed on when it passes.
 */

/**
 * See the top of the file. Oriented outlines are kept, and what has not moved since the last arrangement that passed is
 * not compared again, so that a check of hundreds of copies costs about a millisecond.
 */
export class ExactCheck {
  private readonly problem: NestingProblem;
  private readonly listed: (Solid | undefined)[];
  private readonly walls = new Map<Hazard, Solid>();
  /** Whether any copy may turn: its fields then say nothing of where it lies between the listed angles. */
  private readonly turns: boolean;
  /** The last arrangement that passed: copies that both lie as they do there have been compared. */
  private readonly passed: Arrangement;

  constructor(problem: NestingProblem) {
    this.problem = problem;
    this.passed = new Arrangement(problem.shapeOf.length);
    this.turns = problem.orientations.some(({ twist: [least, most] }) => most > least);
    this.listed = new Array<Solid | undefined>(problem.orientations.length);
  }

  /** True for an arrangement that is better than another by its score, and passes. */
  isBetter(arrangement: Arrangement, other: Arrangement): boolean {
    const { problem } = this;
    return better(scoreOf(problem, arrangement), scoreOf(problem, other)) && this.passes(arrangement);
  }

  /** True when every two copies in one container keep the gap, and all lie inside and off the defects. */
  passes(arrangement: Arrangement): boolean {
    const all = Array.from(arrangement.container, (k, i) =>
      k < 0 ? undefined : this.turned(arrangement, i),
    );
    const still = all.map((_, i) => liesAlike(arrangement, this.passed, i));
    for (const [i, a] of all.entries()) {
      if (a === undefined) continue;
      for (let j = 0; j < i; j++) {
        const b = all[j];
        if (b === undefined || arrangement.container[j] !== arrangement.container[i]) continue;
        if (still[i] && still[j]) continue;
        const dx = arrangement.x[j] - arrangement.x[i];
        const dy = arrangement.y[j] - arrangement.y[i];
        if (!keepApart(a, b, dx, dy, this.problem.gap)) return false;
      }
      if (!still[i] && !this.keepsInside(arrangement, i, a)) return false;
    }
    this.passed.copyFrom(arrangement);
    return true;
  }

  /** True when a copy lies in its container, off the margin and off the hazards there. */
  private keepsInside({ container, orientation, x, y }: Arrangement, i: number, turned: Solid): boolean {
    const { containers, margin, orientations } = this.problem;
    const { edge } = orientations[orientation[i]];
    const { box, hazards } = containers[container[i]];
    const inset = margin - SHORTFALL;
    if (x[i] + turned.box.minX < box.minX + inset || x[i] + turned.box.maxX > box.maxX - inset) return false;
    // Parts with a rest edge stand on an edge of the board.
    const above = edge === 'top' ? -SHORTFALL : inset;
    const below = edge === 'straight' ? -SHORTFALL : inset;
    if (y[i] + turned.box.minY < box.minY + above || y[i] + turned.box.maxY > box.maxY - below) return false;
    // They never turn: exact depths are at hand, and cost less than comparing edges.
    if (edge !== undefined || !this.turns)
      return hazards.every((hazard) => {
        const field = this.problem.pairs.hazard(hazard, orientation[i]);
        return field !== null && field.depth(x[i], y[i]) <= SHORTFALL;
      });
    return hazards.every((hazard) => {
      const { region, frame, distance = margin } = hazard;
      const wall = this.walls.get(hazard) ?? solidOf(region);
      this.walls.set(hazard, wall);
      const keeps = frame ? liesWithin : keepApart;
      return keeps(wall, turned, x[i], y[i], distance);
    });
  }

  /** The outline of a copy as it is turned. */
  private turned({ orientation, twist }: Arrangement, i: number): Solid {
    const { degrees, turnedOver, shape } = this.problem.orientations[orientation[i]];
    const turnedBy = (more: number) =>
      solidOf(applyToRegion(turn(degrees + more, turnedOver), this.problem.shapes[shape].region));
    if (twist[i] !== 0) return turnedBy(twist[i]);
    const known = this.listed[orientation[i]] ?? turnedBy(0);
    this.listed[orientation[i]] = known;
    return known;
  }
}

/** True when a copy lies to the last bit as it does in another arrangement. */
function liesAlike(a: Arrangement, b: Arrangement, i: number): boolean {
  if (a.container[i] !== b.container[i] || a.orientation[i] !== b.orientation[i]) return false;
  return a.x[i] === b.x[i] && a.y[i] === b.y[i] && a.twist[i] === b.twist[i];
}

import { describe, expect, it } from 'vitest';
import { drillFor } from '../../src/units/drills.ts';
import { outsideCheck } from '../outside-check.ts';

describe('drills', () => {
  it('of fractional inches are as wide as their name says: 1/64 in is 0.0156, 1/16 in 0.0625, 5/64 in 0.0781', () => {
    const inches = [0.0156, 0.0312, 0.0469, 0.0625, 0.0781];
    const drills = inches.map((hole) => drillFor({ diameter: hole * 25.4, least: 0.1 }, 'in'));
    expect(drills.map(({ name }) => name)).toEqual([
      '1/64 in (0.0156)',
      '1/32 in (0.0313)',
      '3/64 in (0.0469)',
      '1/16 in (0.0625)',
      '5/64 in (0.0781)',
    ]);
    outsideCheck({
      what: 'Diameter of fractional drills 1/64, 1/32, 3/64, 1/16, 5/64 in, mm',
      source: 'The inch of 25.4 mm (international yard agreement, 1959), divided',
      expected: [0.396875, 0.79375, 1.190625, 1.5875, 1.984375],
      found: drills.map(({ diameter }) => diameter),
      tolerance: 1e-12,
    });
  });

  it('are the next size up: a hole of 0.043 in takes 3/64 in, one of 1.19 mm 1.2 mm, one of just 1/16 in that', () => {
    expect(drillFor({ diameter: 0.043 * 25.4, least: 0.9 }, 'in').name).toBe('3/64 in (0.0469)');
    expect(drillFor({ diameter: 1.19, least: 0.9 }, 'mm').name).toBe('1.2 mm');
    expect(drillFor({ diameter: 1.5875, least: 1 }, 'in').name).toBe('1/16 in (0.0625)');
    expect(drillFor({ diameter: 1.5875, least: 1 }, 'mm').name).toBe('1.6 mm');
  });

  it('keep within an opening as long as the blade passes', () => {
    // The next size up, 3/64 in = 1.19 mm, is too wide; 1/32 in = 0.79 mm fits, if the blade goes through it.
    expect(drillFor({ diameter: 0.9, least: 0.7, room: 1 }, 'in').name).toBe('1/32 in (0.0313)');
    // No step of 1/64 in lies between 0.85 and 1 mm: a metric drill does.
    expect(drillFor({ diameter: 0.9, least: 0.85, room: 1 }, 'in').name).toBe('1.0 mm');
    expect(drillFor({ diameter: 0.9, least: 0.85, room: 0.8 }, 'in').name).toBe(
      '3/64 in (0.0469), wider than the opening has room for',
    );
    expect(drillFor({ diameter: 0.9, least: 0.85, room: 1 }, 'mm').name).toBe('0.9 mm');
  });

  it('go beyond an inch by the same steps', () => {
    expect(drillFor({ diameter: 27.1, least: 1 }, 'in').name).toBe('1-5/64 in (1.0781)');
  });
});

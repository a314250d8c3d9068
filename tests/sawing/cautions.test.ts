import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { outsideCheck } from '../outside-check.ts';
import { board, disc, layoutOf, part, rectangle } from './boards.ts';

describe('cautions', () => {
  it('name the woods ACGIH lists and the limit NIOSH recommends (1 mg/m3)', () => {
    const walnut = planCuts(layoutOf(board([part('plate', rectangle(10, 10, 90, 90))]))).cautions.join('\n');
    expect(walnut).toContain('the dust of black walnut as suspected of causing cancer (A2)');
    outsideCheck({
      what: 'Limits of wood dust over a shift as cautioned: OSHA total and respirable, NIOSH and ACGIH, cedar, mg/m3',
      source: 'OSHA, "Wood dust: evaluating exposure" (PEL, NIOSH REL, ACGIH TLV 2007)',
      expected: [15, 5, 1, 0.5],
      found:
        /OSHA (\d+) mg\/m3 in all and (\d+) respirable; .* (\d+) \(ACGIH ([\d.]+)/
          .exec(walnut)
          ?.slice(1)
          .map(Number) ?? [],
    });
    const pine = planCuts(layoutOf(board([part('plate', rectangle(10, 10, 90, 90))], { species: 'pine' })));
    expect(pine.cautions.join('\n')).not.toContain('ACGIH lists');
    expect(pine.issues.map(({ kind }) => kind)).toEqual(['species-without-facts']);
  });

  it('count the parts too small for fingers, and defer to the manual', () => {
    const { cautions } = planCuts(
      layoutOf(board([part('dot', disc(20, 20, 8)), part('dot', disc(60, 20, 8))])),
    );
    expect(cautions[0]).toMatch(/^2 parts are too small/);
    expect(cautions.at(-1)).toMatch(/manual of your saw/);
  });

  it('warn when a blade saws wider than the layout left room for', () => {
    const layout = { ...layoutOf(board([part('plate', rectangle(10, 10, 90, 90))])), kerf: 0.3 };
    expect(planCuts(layout).issues.map(({ kind }) => kind)).toEqual(['kerf-below-blade']);
  });
});

import { describe, expect, it } from 'vitest';
import { readJob, tryReadJob } from '../../src/job/read-job.ts';
import { boardsOfGrade, HARDWOOD_GRADES } from '../../src/stock/hardwood-grades.ts';
import { outsideCheck } from '../outside-check.ts';

const SOURCE =
  'NHLA rules as summed up by the American Hardwood Export Council, "Summary of US hardwood lumber grades"';

const job = (offer: object) => ({ pattern: 'p.svg', forSale: [offer] });
const offer = {
  id: 'Walnut',
  species: 'black walnut',
  grade: 'FAS',
  nominal: '4/4',
  price: { amount: 12, per: 'board foot' },
};

describe('hardwood by grade', () => {
  it.each([
    ['FAS', 6, 8],
    ['Selects', 4, 6],
    ['No. 1 Common', 3, 4],
    ['No. 2A Common', 3, 4],
  ] as const)('counts on the least board of %s', (grade, inches, feet) => {
    const [least] = boardsOfGrade(grade);
    outsideCheck({
      what: `least width of ${grade}, in`,
      source: SOURCE,
      expected: inches,
      found: least.width / 25.4,
      tolerance: 1e-9,
    });
    outsideCheck({
      what: `least length of ${grade}, ft`,
      source: SOURCE,
      expected: feet,
      found: least.length / 304.8,
      tolerance: 1e-9,
    });
  });

  it('looks at no length beyond 16 ft', () => {
    for (const grade of HARDWOOD_GRADES) expect(boardsOfGrade(grade).at(-1)?.feet).toBe(16);
  });

  it('makes one offer of each length, surfaced on two sides', () => {
    const { forSale } = readJob(JSON.stringify(job(offer)));
    expect(forSale.map(({ id }) => id)).toEqual([
      'Walnut 8 ft',
      'Walnut 10 ft',
      'Walnut 12 ft',
      'Walnut 14 ft',
      'Walnut 16 ft',
    ]);
    expect(forSale[0]).toMatchObject({ species: 'black walnut', length: 2438.4 });
    expect(forSale[0].width).toBeCloseTo(152.4, 9);
    // 4/4 surfaced on two sides is 13/16 in (the thickness table of the same rules).
    expect(forSale[0].thickness).toBeCloseTo(20.6375, 9);
  });

  it('is for what a supplier offers: a board at hand has a size', () => {
    const { issues } = tryReadJob(JSON.stringify({ pattern: 'p.svg', boards: [offer] }));
    expect(issues.map(({ where }) => where?.field)).toContain('boards[0].grade');
    const unknown = tryReadJob(JSON.stringify(job({ ...offer, grade: 'Best' }))).issues;
    expect(unknown[0].where?.field).toBe('forSale[0].grade');
    expect(unknown[0].expected).toContain('"Selects"');
  });
});

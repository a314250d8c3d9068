import { describe, expect, it } from 'vitest';
import { throatIssues } from '../../src/job/throat-issues.ts';
import { board, part, rectangle } from '../sawing/boards.ts';

const small = board([part('plate', rectangle(20, 20, 100, 100))]);
/** The blade is farthest from a corner of the wood at a corner of the plate: 580 by 130 mm, which is 594.4 mm. */
const long = { ...small, id: 'Long-1' };
/** Shorter, so that the corner is 280 by 130 mm away: 308.7 mm. */
const short = { ...small, id: 'Short-1', usable: { outline: rectangle(0, 0, 300, 150), openings: [] } };

describe('how far wood reaches from the blade', () => {
  it('is told of the board on which it is farthest where the job states no throat, above 16 in', () => {
    const told = (boards: readonly (typeof small)[]) => throatIssues({ boards }, {}, 'mm');
    for (const boards of [
      [short, long],
      [long, short],
    ])
      expect(told(boards)).toEqual([
        expect.objectContaining({
          kind: 'throat-unstated',
          severity: 'note',
          message:
            'the job states no throat, so the boards stay whole; on Long-1 the wood reaches 594.4 mm from the blade',
        }),
      ]);
    expect(told([short])).toEqual([]);
    // 386 by 130 mm are 407.3 mm, 385 by 130 mm are 406.4 mm: 16 in.
    const reaching = (length: number) => [
      { ...short, usable: { outline: rectangle(0, 0, length, 150), openings: [] } },
    ];
    expect([told(reaching(406)).length, told(reaching(404.9)).length]).toEqual([1, 0]);
    expect(throatIssues({ boards: [long] }, { longest: 700 }, 'mm')).toEqual([]);
  });

  it('is held against the throat, of each section by itself, and told with the farthest', () => {
    const two = board([part('near', rectangle(20, 20, 100, 100)), part('far', rectangle(320, 20, 100, 100))]);
    // From the left part to the right end 594.4 mm; from the right one, at 420, to the left end 420 by 130: 439.7 mm.
    const [issue, ...others] = throatIssues({ boards: [two] }, { throat: 450 }, 'mm');
    expect(others).toEqual([]);
    expect(issue).toMatchObject({
      kind: 'part-beyond-throat',
      message: '1 of its 2 parts cannot be swung all the way round in the throat',
      received: '594.4 mm',
      where: { board: 'A-1' },
    });
    const [both] = throatIssues({ boards: [two] }, { throat: 430 }, 'mm');
    expect(both).toMatchObject({
      message: '2 of its 2 parts cannot be swung all the way round in the throat',
      received: '594.4 mm',
    });
    const sections = [
      { number: 1, from: 0, to: 300 },
      { number: 2, from: 303, to: 600 },
    ];
    // Each section is 300 mm long: 280 by 130 mm in either, which is 308.7 mm.
    expect(throatIssues({ boards: [{ ...two, sections }] }, { throat: 309 }, 'mm')).toEqual([]);
    expect(throatIssues({ boards: [{ ...two, sections }] }, { throat: 308 }, 'mm')).toHaveLength(1);
  });
});

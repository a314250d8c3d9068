import { describe, expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const BANK =
  '<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="60mm" viewBox="0 0 160 60"><g id="Shore"><path d="M5 5H155V55H5Z"/></g></svg>';

/** Kinds of what is told of a part of 150 x 50 mm on a board so wide, with margins of 3 mm. */
function told(width: number, restEdge: boolean) {
  const boards = [{ id: 'A', species: 'maple', thickness: 6, length: 400, width }];
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, layers: { Shore: { restEdge } } }));
  return batchFromJob(job, readPattern(BANK, job.pattern).pattern, 'job.json').issues.map(({ kind }) => kind);
}

it('a part that stands on the straight edge asks for one margin, any other for two', () => {
  expect([told(53, true), told(56, false)]).toEqual([[], []]);
  expect([told(52.9, true), told(55.9, false)]).toEqual([
    ['part-larger-than-boards'],
    ['part-larger-than-boards'],
  ]);
});

it('along the grain a margin is kept at either end: 150 mm on boards of 156 mm', () => {
  const toldAlong = (length: number) => {
    const boards = [{ id: 'A', species: 'maple', thickness: 6, length, width: 100 }];
    const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, layers: {} }));
    return batchFromJob(job, readPattern(BANK, job.pattern).pattern, 'job.json').issues.map(
      ({ kind }) => kind,
    );
  };
  expect(toldAlong(156)).toEqual([]);
  expect(toldAlong(155.9)).toEqual(['part-larger-than-boards']);
});

describe('a part longer than every board', () => {
  /** Kinds of what is told of a part so large, on a board of 250 x 200 mm without margins. */
  const free = (width: number, height: number, fields: object) => {
    const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="600mm" viewBox="0 0 600 600"><g id="Shore"><path d="M5 5h${width}v${height}h-${width}Z"/></g></svg>`;
    const boards = [{ id: 'A', species: 'maple', thickness: 6, length: 250, width: 200 }];
    const layers = { Shore: { restEdge: false, ...fields } };
    const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, layers, edgeMargin: 0 }));
    return batchFromJob(job, readPattern(drawing, job.pattern).pattern, 'job.json').issues.map(
      ({ kind }) => kind,
    );
  };

  it('may lie at a slant where its grain is free, and is left to the search: the diagonal is 320 mm long', () => {
    expect(free(300, 10, { grain: 'free' })).toEqual([]);
    expect(free(10, 300, { grain: 'free' })).toEqual([]);
    expect(free(300, 10, { grain: 'along' })).toEqual(['part-larger-than-boards']);
    expect(free(300, 10, { grain: 'along', grainTolerance: 20 })).toEqual([]);
  });

  it('has room in no way where it is wider than the board too', () => {
    expect(free(300, 200, { grain: 'free' })).toEqual([]);
    expect(free(300, 200.1, { grain: 'free' })).toEqual(['part-larger-than-boards']);
    expect(free(200.1, 300, { grain: 'free' })).toEqual(['part-larger-than-boards']);
  });
});

import { expect, it } from 'vitest';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readBatch } from '../../src/job/read-batch.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path id="hull" d="M5 5H50V50H5Z"/></svg>';

const told = (board: object, fields: object = {}) => {
  const boards = [{ id: 'Oak', thickness: '19 mm', length: '400 mm', width: '200 mm', ...board }];
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, ...fields }));
  const { issues } = batchFromJob(job, readPattern(SQUARE, job.pattern).pattern, 'job.json');
  return issues.filter(({ kind }) => kind === 'size-unlikely');
};

it('a board of inches where millimetres were meant is remarked on, side by side', () => {
  const issues = told({ length: '300 in', width: '150 in' });
  expect(issues.map(({ severity, where }) => [severity, where])).toEqual([
    ['warning', { file: 'job.json', board: 'Oak' }],
    ['warning', { file: 'job.json', board: 'Oak' }],
  ]);
  expect(issues.map(({ received }) => received)).toEqual(['7620 mm', '3810 mm']);
  expect(issues[0].remedy).toContain('If "300 mm" was meant');
});

it('guesses inches where a thickness or a finished size is small', () => {
  expect(told({ thickness: 0.5 })[0].remedy).toContain('If "0.5 in" was meant');
  const finished = told({}, { pattern: { file: 'p.svg', finishedSize: { length: 8 } } });
  expect(finished.map(({ remedy, where }) => [remedy, where?.field])).toEqual([
    ['If "8 in" was meant, write that; if the size is right, leave it.', 'pattern.finishedSize.length'],
  ]);
});

it('a finished size that makes every part larger than every board is told as an error, before the parts', () => {
  const refused = (length: string) => {
    const boards = [{ id: 'Oak', thickness: '19 mm', length: '400 mm', width: '200 mm' }];
    const job = readJob(
      JSON.stringify({ pattern: { file: 'p.svg', finishedSize: { side: 'width', length } }, boards }),
    );
    try {
      readBatch(job, SQUARE, {}, 'job.json');
    } catch (error) {
      if (error instanceof FretlayError)
        return error.issues.map(({ kind, remedy }) => [kind, remedy?.includes('If "180 mm" was meant')]);
    }
    return [];
  };
  expect(refused('180 in')).toEqual([
    ['size-unlikely', true],
    ['part-larger-than-boards', false],
  ]);
  // Large for these boards, and not for a scene.
  expect(refused('1.8 m')).toEqual([['part-larger-than-boards', false]]);
  expect(refused('180 mm')).toEqual([]);
});

it('gaps of inches where millimetres were meant are remarked on', () => {
  const gaps = told({}, { clearance: '0.6 in', edgeMargin: '3 in' });
  expect(gaps.map(({ remedy, where }) => [where?.field, remedy])).toEqual([
    ['clearance', 'If "0.6 mm" was meant, write that; if the size is right, leave it.'],
    ['edgeMargin', 'If "3 mm" was meant, write that; if the size is right, leave it.'],
  ]);
  expect(told({}, { clearance: '3/8 in', edgeMargin: '1-1/2 in' })).toEqual([]);
});

it('a tolerance and a straight cut that no shop has are remarked on', () => {
  const sizes = told({}, { thicknessTolerance: '5 mm', crosscutKerf: '3 in' });
  expect(sizes.map(({ remedy, where }) => [where?.field, remedy])).toEqual([
    ['thicknessTolerance', 'Look at its unit; if the size is right, leave it.'],
    ['crosscutKerf', 'If "3 mm" was meant, write that; if the size is right, leave it.'],
  ]);
  expect(told({}, { thicknessTolerance: '1/8 in', crosscutKerf: '1/4 in' })).toEqual([]);
});

it('a board whose length and width changed places is remarked on', () => {
  const [issue] = told({ length: '187 mm', width: '1835 mm' });
  expect(issue).toMatchObject({ received: '187 mm long, 1835 mm wide', where: { board: 'Oak' } });
  expect(issue.remedy).toContain('changed places');
  expect(told({ length: '150 mm', width: '390 mm' })).toEqual([]);
});

it('a board of which the trim leaves nothing is told', () => {
  const job = { boards: [{ id: 'Oak', length: 400, width: 200, trim: { ends: '1 m' } }] };
  const spare = { id: 'Ash', thickness: 19, length: 400, width: 200 };
  const read = readJob(JSON.stringify({ pattern: 'p.svg', boards: [...job.boards, spare] }));
  const { issues } = batchFromJob(read, readPattern(SQUARE, read.pattern).pattern, 'job.json');
  const [issue] = issues.filter(({ kind }) => kind === 'size-unlikely');
  expect(issue).toMatchObject({ severity: 'warning', where: { board: 'Oak' } });
  expect(issue.message).toContain('leaves nothing');
});

it('says nothing of what shops have: long boards, large sheets, veneer, scraps', () => {
  for (const board of [
    { length: '20 ft', width: '12 in' },
    { length: '10 ft', width: '5 ft', thickness: '1/4 in' },
    { thickness: '0.6 mm' },
    { thickness: '4 in' },
    { length: '3 in', width: '2 in' },
  ])
    expect(told(board)).toEqual([]);
});

it('a drawing that is refused says with its warnings why', () => {
  const refused = (svg: string) => {
    const issues: (string | undefined)[][] = [];
    expect(() => {
      try {
        readPattern(svg);
      } catch (error) {
        if (error instanceof FretlayError)
          for (const { kind, received } of error.issues) issues.push([kind, received]);
        throw error;
      }
    }).toThrow(FretlayError);
    return issues;
  };
  const spaced = SQUARE.replaceAll('60mm', '60 mm');
  expect(refused(spaced)).toEqual([
    ['page-size-ignored', '"60 mm"'],
    ['page-size-ignored', '"60 mm"'],
    ['size-not-stated', undefined],
    ['no-physical-size', undefined],
  ]);
  const open = SQUARE.replace('d="M5 5H50V50H5Z"', 'fill="none" stroke="red" d="M5 5H50V50H5"');
  expect(refused(open)[0]).toEqual(['open-line-left-out', 'ends 45.00 mm apart']);
});

it('asks for no size of a drawing whose finished size is stated', () => {
  const unsized = SQUARE.replace('width="60mm" height="60mm" ', '');
  const { pattern, issues } = readPattern(unsized, { finishedSize: { side: 'width', length: 90 } });
  expect(issues).toEqual([]);
  expect(pattern.scale * 45).toBeCloseTo(90 / (25.4 / 96), 6);
});

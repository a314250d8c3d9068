import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readBatch } from '../../src/job/read-batch.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import { speciesIssues } from '../../src/job/species-issues.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="Hull"><path d="M5 5H50V50H5Z"/></g></svg>';

it('boards of a misspelt wood are told by the job once, with the wood that was meant', () => {
  const board = { thickness: 19, length: 400, width: 200 };
  const boards = [
    { ...board, id: 'Walnut 1', species: 'wallnut' },
    { ...board, id: 'Walnut 2', species: 'Wallnut' },
    { ...board, id: 'Scrap', species: 'walnut' },
    { ...board, id: 'Beech', species: 'beech' },
  ];
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, layers: { Hull: { species: 'walnut' } } }));
  const { issues } = batchFromJob(job, readPattern(SQUARE, job.pattern).pattern, 'job.json');
  const told = issues.filter(({ kind }) => kind === 'species-unlikely');
  expect(told).toHaveLength(1);
  expect(told[0]).toMatchObject({
    severity: 'warning',
    message: expect.stringMatching(/left aside, and 1 more of it; did you mean "walnut"\?$/),
    received: '"wallnut"',
    where: { file: 'job.json', board: 'Walnut 1' },
  });
});

it('a board of the rack is told with the file it stands in, and so is its size', () => {
  const board = { species: 'walnut', thickness: 19, length: 400, width: 200 };
  const rack = [
    { ...board, id: 'R', species: 'wallnut' },
    { ...board, id: 'S', length: 9000 },
  ];
  const job = readJob(
    JSON.stringify({
      pattern: 'p.svg',
      rack: 'rack.json',
      boards: [{ ...board, id: 'J', length: 9000 }],
      layers: { Hull: { species: 'walnut' } },
    }),
  );
  const { issues } = readBatch(job, SQUARE, { 'rack.json': JSON.stringify({ boards: rack }) }, 'job.json');
  const told = issues.filter(({ where }) => where?.board !== undefined).map(({ where }) => where);
  expect(told).toEqual([
    { file: 'rack.json', board: 'R' },
    { file: 'rack.json', board: 'S' },
    { file: 'job.json', board: 'J' },
  ]);
});

const meant = (species: string, ...woods: string[]) =>
  speciesIssues([{ id: 'A', species }], woods, 'job.json').map(
    ({ message }) => /did you mean "(.*)"/.exec(message)?.[1],
  );

it.each([
  ['walnit', 'walnut'],
  ['wlanut', 'walnut'],
  ['mapel', 'maple'],
  ['chery', 'cherry'],
  ['bass wood', 'basswood'],
  ['red oack', 'red oak'],
  ['walnut', 'black walnut'],
  ['hard maple', 'sugar maple'],
])('takes %s for a slip of the hand, or for another name', (written, wood) => {
  expect(meant(written, 'teak', wood)).toEqual([wood]);
});

it('says nothing of woods of their own', () => {
  for (const [species, wood] of [
    ['koa', 'oak'],
    ['birch', 'beech'],
    ['white oak', 'white ash'],
    ['red oak', 'white oak'],
    ['black walnut', 'english walnut'],
    ['apple', 'maple'],
    ['ash', 'aspen'],
    ['oak 1', 'oak 2'],
    ['birch plywood', 'birch'],
    ['Walnut', 'walnut'],
  ])
    expect(meant(species, wood), species).toEqual([]);
});

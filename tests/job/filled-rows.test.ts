import { expect, it } from 'vitest';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import { runJob } from '../../src/job/run-job.ts';

const MARGIN = 1 / 8;
const GAP = 1 / 32 + 1 / 64;

/** So many parts in rows that fill a board between its margins, all in inches, and how many of them find a place. */
async function laid(part: string, [width, height]: readonly number[], along: number, across: number) {
  const filled = (count: number, side: number) => count * side + (count - 1) * GAP + 2 * MARGIN;
  const job = {
    pattern: 'p.svg',
    sets: along * across,
    kerf: '1/32 in',
    clearance: '1/64 in',
    edgeMargin: `${MARGIN} in`,
    effort: 5,
    boards: [{ id: 'Ash', length: `${filled(along, width)} in`, width: `${filled(across, height)} in` }],
  };
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="8in" height="8in" viewBox="0 0 8 8"><g id="Bank">${part}</g></svg>`;
  const { layout, verification, pattern } = await runJob(readJob(JSON.stringify(job)), svg);
  expect(verification.ok).toBe(true);
  return [layout.figures.completeSets, pattern.tolerance];
}

it.each([
  [2.25, 1.125],
  [1.375, 2.03125],
  [3.3, 1.7],
])('straight parts of %s x %s in lie in rows that leave nothing between the margins', async (...size) => {
  const rectangle = `<rect x="0.3" y="0.7" width="${size[0]}" height="${size[1]}"/>`;
  for (const [along, across] of [
    [4, 1],
    [11, 1],
    [5, 4],
  ])
    expect(await laid(rectangle, size, along, across)).toEqual([along * across, 0]);
});

it('of bent parts, which are drawn to a tolerance, the last of such a row is left out', async () => {
  const stone = '<path d="M1 1H3V2Q2 2.4 1 2Z"/>';
  expect(await laid(stone, [2, 1.2], 4, 1)).toEqual([3, 0.01]);
});

it('a clip path flattens what it cuts: only parts that it leaves alone are exact', () => {
  const tolerance = (radius: number) =>
    readPattern(
      `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="80mm" viewBox="0 0 80 80">
        <clipPath id="disc"><circle cx="40" cy="40" r="${radius}"/></clipPath>
        <g id="Bank"><rect x="20" y="20" width="40" height="40" clip-path="url(#disc)"/></g></svg>`,
    ).pattern.tolerance;
  // The corners of the square lie 28.3 mm from the middle.
  expect([tolerance(29), tolerance(25)]).toEqual([0, 0.01]);
});

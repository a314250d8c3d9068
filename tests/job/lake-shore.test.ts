import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawJob } from '../../src/job/draw-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';
import { boundingBoxes, boxPackingYield } from './box-packing.ts';
import { staggeredBoxes } from './staggered-pairs.ts';

const fixture = (name: string) => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), 'utf8');

describe('the lake-shore batch', async () => {
  const job = readJob(fixture('lake-shore/job.json'));
  const result = await runJob(job, fixture('lake-shore/pattern.svg'));
  const { layout, verification, batch, pattern } = result;
  const drawings = await drawJob(job, result);

  it('reads four layers, with no warning, and notes that no throat is stated', () => {
    expect(pattern.layers.map(({ name }) => name)).toEqual([
      'Far shore',
      'Boathouse',
      'Figures',
      'Near shore',
    ]);
    expect(result.issues.map(({ kind }) => kind)).toEqual(['throat-unstated']);
  });

  it('places all twelve sets, and the independent check finds nothing wrong', () => {
    expect(verification.breaches).toEqual([]);
    expect(layout.figures.completeSets).toBe(12);
    expect(layout.unplaced).toEqual([]);
    expect(verification.leastDistance).toBeGreaterThanOrEqual(layout.kerf + layout.clearance - 0.01);
    expect(verification.leastEdgeDistance).toBeGreaterThanOrEqual(layout.edgeMargin - 0.01);
  });

  it('yields clearly more of each species than boxes do, and than pairs staggered by hand', () => {
    const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
    const lines = Object.entries(layout.figures.bySpecies).map(([species, totals]) => {
      const boxes = boxPackingYield(batch, species, totals.partArea, boundingBoxes);
      const pairs = boxPackingYield(batch, species, totals.partArea, staggeredBoxes);
      expect(totals.yield / boxes).toBeGreaterThan(1.1);
      expect(totals.yield).toBeGreaterThan(pairs);
      return `${species}: ${percent(totals.yield)}, boxes ${percent(boxes)}, staggered pairs ${percent(pairs)}`;
    });
    expect(lines).toHaveLength(3);
    const bounds = result.bounds.map(
      ({ species, boards, atLeast, savedAtMost }) =>
        `${species}: ${boards} boards, at least ${atLeast}; at most ${percent(savedAtMost)} of the wood in use can be saved`,
    );
    console.info(['Yield of true shapes', ...lines, 'Against the least possible', ...bounds].join('\n'));
  });

  it('draws a sheet for every board that carries something, and a report', () => {
    expect(drawings.sheets).toHaveLength(layout.figures.boards);
    for (const { svg } of drawings.sheets) expect(svg).toMatch(/<svg[^>]* width="[\d.]+mm"/);
    expect(drawings.report).toContain('Lake shore');
    expect(drawings.pdfs.map(({ of }) => of)).toEqual(['boards']);
    expect(new TextDecoder().decode(drawings.pdfs[0].pdf.slice(0, 5))).toBe('%PDF-');
    expect(drawings.partsCsv.trim().split('\n')).toHaveLength(1 + layout.figures.parts);
  });
});

describe('the first cut', () => {
  it('runs with nothing but a pattern and a board', async () => {
    const result = await runJob(readJob(fixture('first-cut/job.json')), fixture('first-cut/pattern.svg'));
    expect(result.issues).toEqual([]);
    expect(result.verification.ok).toBe(true);
    expect(result.layout.figures).toMatchObject({ boards: 1, parts: 1, completeSets: 1, openings: 1 });
  });

  it('refuses paper without room on a page before anything is searched', async () => {
    const job = readJob(fixture('first-cut/job.json'));
    const searched: unknown[] = [];
    const run = runJob(
      { ...job, paper: { ...job.paper, margin: 6 * 25.4 } },
      fixture('first-cut/pattern.svg'),
      {
        onProgress: (progress) => searched.push(progress),
      },
    );
    await expect(run).rejects.toMatchObject({
      issues: [
        {
          kind: 'page-too-small',
          received: expect.stringContaining('margin 152.4 mm,'),
          where: { file: 'job.json', field: 'paper' },
        },
      ],
    });
    expect(searched).toEqual([]);
  });
});

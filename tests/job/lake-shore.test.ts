import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawJob } from '../../src/job/draw-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';
import { boxPackingYield } from './box-packing.ts';

const fixture = (name: string) => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), 'utf8');

describe('the lake-shore batch', async () => {
  const job = readJob(fixture('lake-shore/job.json'));
  const result = await runJob(job, fixture('lake-shore/pattern.svg'));
  const { layout, verification, batch, pattern } = result;
  const drawings = await drawJob(job, result);

  it('reads four layers, with no warning', () => {
    expect(pattern.layers.map(({ name }) => name)).toEqual([
      'Far shore',
      'Boathouse',
      'Figures',
      'Near shore',
    ]);
    expect(result.issues).toEqual([]);
  });

  it('places all twelve sets, and the independent check finds nothing wrong', () => {
    expect(verification.breaches).toEqual([]);
    expect(layout.figures.completeSets).toBe(12);
    expect(layout.unplaced).toEqual([]);
    expect(verification.leastDistance).toBeGreaterThanOrEqual(layout.kerf + layout.clearance - 0.01);
    expect(verification.leastEdgeDistance).toBeGreaterThanOrEqual(layout.edgeMargin - 0.01);
  });

  it('yields clearly more of each species than packing bounding boxes does', () => {
    const lines = Object.entries(layout.figures.bySpecies).map(([species, totals]) => {
      const boxes = boxPackingYield(batch, species, totals.partArea);
      expect(totals.yield / boxes).toBeGreaterThan(1.1);
      return `${species}: ${(100 * totals.yield).toFixed(1)} % against ${(100 * boxes).toFixed(1)} % for boxes`;
    });
    expect(lines).toHaveLength(3);
    console.info(`Yield of true shapes against bounding boxes\n${lines.join('\n')}`);
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
});

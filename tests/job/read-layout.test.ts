import { expect, test } from 'vitest';
import { readRack } from '../../src/job/rack.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readLayout } from '../../src/job/read-layout.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from '../nesting/plain-batch.ts';
import { rectangle } from '../rectangle.ts';

const demands = [plainDemand('square', rectangle(20, 20))];
const text = JSON.stringify(
  await soundLayout({ ...PLAIN_GAPS, sets: 1, demands, boards: [plainBoard('B', 100, 50)] }),
);

test('reads what was laid out of parts that carry more than the library asks for', async () => {
  const wider = plainDemand('square', rectangle(20, 20));
  const region = { ...wider.region, drawnBy: 'hand' };
  const layout = await soundLayout({
    ...PLAIN_GAPS,
    sets: 1,
    demands: [{ ...wider, region }],
    boards: [plainBoard('B', 100, 50)],
  });
  expect(readLayout(JSON.stringify(layout)).setContents[0].region).toEqual(wider.region);
});

/** The first fault of a layout file in which a field is changed. */
function fault(change: (layout: ReturnType<typeof JSON.parse>) => void): unknown {
  const layout = JSON.parse(text);
  change(layout);
  try {
    return readLayout(JSON.stringify(layout));
  } catch (error) {
    return (error as { issues?: unknown[] }).issues?.[0] ?? error;
  }
}

test('refuses counts over which the work of a plan would never end', () => {
  readLayout(text);
  expect(fault((layout) => (layout.boards[0].copies = 1e15))).toMatchObject({
    kind: 'layout-field-invalid',
    where: { field: 'boards[0].copies' },
  });
  expect(fault((layout) => (layout.sets = 10_001))).toMatchObject({ where: { field: 'sets' } });
});

test('refuses coordinates beyond those that can be drawn', () => {
  expect(fault((layout) => (layout.boards[0].placements[0].region.outline[1][0] = 1e300))).toMatchObject({
    kind: 'layout-field-invalid',
    where: { field: 'boards[0].placements[0].region.outline[1][0]' },
  });
  expect(fault((layout) => (layout.boards[0].placements[0].x = -1e300))).toMatchObject({
    where: { field: 'boards[0].placements[0].x' },
  });
});

test('refuses fields that the format does not know, and tells which one was meant', () => {
  const boards = fault((layout) => (layout.boards[0].colour = 'red'));
  expect(boards).toMatchObject({
    kind: 'layout-field-invalid',
    message: 'there is no such field',
    expected: expect.stringMatching(/^one of "id", "stock", .*"areas"$/),
    where: { field: 'boards[0].colour' },
  });
  expect(fault((layout) => (layout.edgemargin = 1))).toMatchObject({
    message: 'there is no such field; did you mean "edgeMargin"?',
    where: { field: 'edgemargin' },
  });
  const figures = fault((layout) => (layout.figures.bySpecies.maple.yeild = 1));
  expect(figures).toMatchObject({ where: { field: 'figures.bySpecies.maple.yeild' } });
});

test('tells a file of another kind by one fault, in a layout, a job and a rack', () => {
  const job = JSON.stringify({ pattern: 'p.svg', boards: [] });
  const rack = JSON.stringify({ format: 'fretlay-rack', version: 1, boards: [] });
  expect(() => readLayout(job)).toThrow(/this is a job file, not a layout file\. Name a layout file[^\n]*$/);
  expect(() => readLayout(rack)).toThrow('this is a rack file, not a layout file');
  expect(() => readJob(text)).toThrow(/this is a layout file, not a job file\. Write a job[^\n]*$/);
  expect(() => readJob(rack)).toThrow('this is a rack file, not a job file');
  expect(() => readRack(job)).toThrow('this is a job file, not a rack file');
});

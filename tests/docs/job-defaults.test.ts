import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { COMMON_RATES } from '../../src/costing/rates.ts';
import { readJob } from '../../src/job/read-job.ts';
import { COMMON_TIMES, TIME_NAMES } from '../../src/sawing/time/time-constants.ts';

const read = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../docs/${name}`, import.meta.url)), 'utf8');

/** The cells of the first table behind a place in a text, without its head. */
function table(markdown: string, behind: string): string[][] {
  const from = markdown.indexOf(behind);
  const [, rows] = /\n\|[^\n]*\n\|[-|]+\|\n((?:\|[^\n]*\n)+)/.exec(markdown.slice(from)) ?? [];
  return (rows ?? '')
    .trimEnd()
    .split('\n')
    .map((row) =>
      row
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
}

/** What a cell of the column "default" says, in mm where it is a length; undefined for what is told in words. */
function stated(cell: string): unknown {
  const length = /^(\d+(?:\.\d+)?|1\/8) (mm|in)$/.exec(cell);
  if (length !== null)
    return (length[1] === '1/8' ? 1 / 8 : Number(length[1])) * (length[2] === 'in' ? 25.4 : 1);
  const rate = /^(\d+) a (?:m2|kg)$/.exec(cell);
  if (rate !== null) return Number(rate[1]);
  if (/^\d+(\.\d+)?(, \d+(\.\d+)?)*$/.test(cell)) {
    const numbers = cell.split(', ').map(Number);
    return numbers.length === 1 ? numbers[0] : numbers;
  }
  if (cell === 'true' || cell === 'false') return cell === 'true';
  return undefined;
}

/** Fields that stay away from what is read where they are left out, as that says the same. */
const LEFT_OUT = ['scale', 'pixelsPerInch', 'straightTopEdge', 'lengths'];

const job = readJob(
  JSON.stringify({
    pattern: 'p.svg',
    boards: [{ id: 'Shelf', length: 600, width: 120 }],
    layers: { Lake: {} },
  }),
);
const page = read('job-file.md');

it.each<[heading: string, of: object, inWords: Record<string, unknown>]>([
  [
    '1,200 mm',
    job,
    {
      design: 'Untitled design',
      unit: 'mm',
      keep: { length: 203.2, width: 76.2 },
      pinned: [],
    },
  ],
  ['## pattern', job.pattern, { innerShapes: 'unite' }],
  ['## layers', job.layers.Lake, { grain: 'along' }],
  ['## boards', job.boards[0], { species: 'wood' }],
  ['## paper', job.paper, { orientation: 'fewest', print: 'boards', line: 'thin' }],
  ['## work', job.work, {}],
  ['## costs', { ...COMMON_RATES, batchSizes: job.costs.batchSizes }, { currency: '$' }],
  ['## costs', job.costs, { currency: '$', channels: [{ name: 'direct', fee: 0, perPiece: 0 }] }],
])('docs/job-file.md tells the defaults that a job is read with: below %j', (heading, of, inWords) => {
  const found = of as Record<string, unknown>;
  const told = table(page, heading).flatMap(([names, cell]) => {
    const fields = [...names.matchAll(/`(\w+)`/g)].map(([, field]) => field);
    const value = stated(cell);
    if (Array.isArray(value) && value.length === fields.length)
      return fields.map((field, i) => [field, value[i]]);
    return value === undefined ? [] : [[fields[0], value]];
  });
  expect(told.length).toBeGreaterThan(0);
  for (const [field, value] of told as [string, unknown][]) {
    if (LEFT_OUT.includes(field)) continue;
    expect([field, found[field]]).toEqual([
      field,
      typeof value === 'number' ? expect.closeTo(value, 9) : value,
    ]);
  }
  for (const [field, value] of Object.entries(inWords)) expect([field, found[field]]).toEqual([field, value]);
});

it('docs/sawing.md tells the common times that hours are reckoned with', () => {
  const rows = table(read('sawing.md'), '## Time').map(([name, , likely, range]) => {
    const [, most, unit] = /^([\d.]+) (min|s)$/.exec(likely) ?? [];
    const share = unit === 's' ? 1 / 60 : 1;
    const [low, high] = range.split(' to ').map((each) => share * Number(each));
    return [name.replaceAll('`', ''), low, share * Number(most), high];
  });
  expect(rows).toEqual(
    TIME_NAMES.map((name) => {
      const { low, likely, high } = COMMON_TIMES[name].minutes;
      return [name, expect.closeTo(low, 9), expect.closeTo(likely, 9), expect.closeTo(high, 9)];
    }),
  );
});

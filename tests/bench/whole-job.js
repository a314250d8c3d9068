// The whole job from the drawing to the printed pages, for more and more sets: how time and memory grow, and the yield
// beside that of boxes packed by a general rectangle packer.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { drawJob, readJob, runJob } from '../../dist/index.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const fixture = (name) => readFileSync(`${root}/fixtures/lake-shore/${name}`, 'utf8');

/** Thousands of moves of the search: a fixed effort, so that what grows is the job and not the search. */
const EFFORT = 2;

/** Sets of the batches that time and memory are told of. */
export const BATCHES = [1, 10, 50, 200];

/** One run of the lake-shore batch with `sets` sets. */
export async function benchWholeJob({ sets, json }) {
  const job = jobOf(sets);
  const clock = stopwatch();
  const result = await runJob(job, fixture('pattern.svg'), { effort: EFFORT });
  const laidOut = clock();
  const drawings = await drawJob(job, result);
  const drawn = clock();
  const { layout, verification } = result;
  const row = {
    bench: 'whole-job',
    sets,
    effort: EFFORT,
    completeSets: layout.figures.completeSets,
    parts: layout.figures.parts,
    boards: layout.figures.boards,
    pages: drawings.pdfs.reduce((sum, { pages }) => sum + pages, 0),
    verified: verification.ok,
    layOutSeconds: laidOut,
    drawSeconds: drawn - laidOut,
    processorSeconds: drawn,
    yields: sets <= BOXED_UP_TO ? await yieldsBesideBoxes(result) : [],
  };
  process.stdout.write(
    json
      ? `${JSON.stringify(row, null, 2)}\n`
      : `${sets} sets, ${row.parts} parts on ${row.boards} boards, ${row.pages} pages: ${drawn.toFixed(1)} s of processor time (${laidOut.toFixed(1)} to lay out)${row.verified ? '' : ', NOT VERIFIED'}\n${row.yields.map(({ species, shapes, boxes }) => `  ${species}: yield ${(100 * shapes).toFixed(1)} %, boxes ${(100 * boxes).toFixed(1)} %\n`).join('')}`,
  );
}

/** Every order of the boards is tried for the boxes, so the comparison is for the batch of the example only. */
const BOXED_UP_TO = 12;

/** The example with as many times its boards as it has to have more sets than it was written for. */
function jobOf(sets) {
  const job = JSON.parse(fixture('job.json'));
  const times = Math.ceil(sets / job.sets);
  const boards = job.boards.map((board) => ({ ...board, quantity: times * (board.quantity ?? 1) }));
  return readJob(JSON.stringify({ ...job, sets, boards }));
}

/** Seconds of processor time, of all threads, since it was made: what a busy machine blurs least. */
function stopwatch() {
  const start = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1e6;
  };
}

async function yieldsBesideBoxes({ batch, layout }) {
  const { boxPackingYield, boundingBoxes } = await boxPacking();
  return Object.entries(layout.figures.bySpecies).map(([species, totals]) => ({
    species,
    shapes: totals.yield,
    boxes: boxPackingYield(batch, species, totals.partArea, boundingBoxes),
  }));
}

/** The box packing of the tests, which is TypeScript: bundled to be imported here. */
async function boxPacking() {
  const bundle = await rolldown({
    input: `${root}/tests/job/box-packing.ts`,
    platform: 'node',
    logLevel: 'silent',
  });
  const { output } = await bundle.generate({ format: 'esm' });
  return import(`data:text/javascript,${encodeURIComponent(output[0].code)}`);
}

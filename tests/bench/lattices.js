// What whole lattices of copies gain against a search by single moves alone: density against processor time, same moves.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Searcher } from '../../dist/nesting/workers/search-task.js';
import { densityOf, judged } from './check.js';
import { problemOf } from './instance.js';

/** Processor seconds at which density is read. */
const CURVE = [1, 3, 10, 30, 60];

/** A search that is past its beginning tries no lattices: it takes the one before it to have done so. */
const PAST_THE_BEGINNING = 1e-9;

/** Moves that compile the engine before anything is measured. */
const WARMING_MOVES = 300;

/** Runs the benchmark and prints it. */
export async function benchLattices({ folder, only, seeds, moves, json }) {
  const rows = [];
  // A first run of each on a cold engine would be charged for what the second then finds compiled.
  for (const name of only) await runOnce(problemOf(readInstance(folder, name)), true, 1, WARMING_MOVES);
  for (const name of only) {
    const instance = readInstance(folder, name);
    for (const lattices of [true, false]) {
      const runs = [];
      for (let seed = 1; seed <= seeds; seed++)
        runs.push(await runOnce(problemOf(instance), lattices, seed, moves));
      const mean = (of) => runs.reduce((sum, run) => sum + of(run), 0) / runs.length;
      rows.push({
        name,
        lattices,
        first: mean((run) => run.first),
        curve: CURVE.map((at, i) => ({ at, density: mean(({ curve }) => curve[i] ?? Number.NaN) })),
        processorSeconds: mean((run) => run.seconds),
        density: mean((run) => run.density),
        verified: runs.every(({ verified }) => verified),
      });
      process.stderr.write(`${JSON.stringify(rows.at(-1))}\n`);
    }
  }
  if (json) process.stdout.write(`${JSON.stringify({ seeds, moves, rows }, null, 1)}\n`);
  else for (const row of rows) process.stdout.write(`${line(row)}\n`);
}

function readInstance(folder, name) {
  return JSON.parse(readFileSync(path.join(folder, `${name}.json`), 'utf8'));
}

function line({ name, lattices, first, curve, processorSeconds, density, verified }) {
  const reached = curve.filter(({ density: percent }) => !Number.isNaN(percent));
  const read = reached.map(({ at, density: percent }) => `${at} s ${percent.toFixed(2)}`).join('  ');
  const end = `${processorSeconds.toFixed(0)} s ${density.toFixed(2)} %${verified ? '' : ' NOT VERIFIED'}`;
  return `${name.padEnd(12)} ${lattices ? 'with lattices' : 'single moves '} first ${first.toFixed(2)} s; ${read}; end ${end}`;
}

async function runOnce(problem, lattices, seed, moves) {
  const mark = process.cpuUsage();
  const seconds = () => {
    const { user, system } = process.cpuUsage(mark);
    return (user + system) / 1e6;
  };
  const events = [];
  const onBetter = ({ score }) => {
    if (score.missing > 0) return;
    events.push({ at: seconds(), density: densityOf(problem, score) });
  };
  const searcher = new Searcher(problem.spec);
  const whole = { from: 0, to: 1 };
  const first = await searcher.run({ seed, moves: 0, part: whole }, undefined, onBetter);
  const part = lattices ? whole : { from: PAST_THE_BEGINNING, to: 1 };
  const found = await searcher.run({ seed, moves, part, start: first }, undefined, onBetter);
  const took = seconds();
  const curve = CURVE.map((at) =>
    at > took ? undefined : events.findLast((event) => event.at <= at)?.density,
  );
  return { first: events[0]?.at, curve, seconds: took, ...judged(problem, found) };
}

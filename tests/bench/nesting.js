// The nesting benchmark: every instance of a folder, several seeds, each result verified, density against time.
import { readdirSync, readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import path from 'node:path';
import { startWorker } from '../../dist/cli/search-workers.js';
import { searchTogether } from '../../dist/nesting/workers/search-pool.js';
import { densityOf, judged } from './check.js';
import { problemOf } from './instance.js';
import { median } from './median.js';

/** Seconds at which the curve of density against time is read. */
const CURVE = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200];

/** Runs the benchmark and prints it. */
export async function benchNesting({ folder, seconds, seeds, workers, only, json }) {
  const rows = [];
  for (const file of readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()) {
    const name = path.basename(file, '.json');
    if (only !== undefined && !only.includes(name)) continue;
    const instance = JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
    if (instance.items === undefined) continue;
    const runs = [];
    for (let seed = 1; seed <= seeds; seed++) {
      const run = await runOnce(problemOf(instance), seconds, seed, workers);
      runs.push(run);
      process.stderr.write(`${name} seed ${seed}: ${line(run)}\n`);
    }
    rows.push(summary(name, instance, runs));
  }
  const machine = `${cpus()[0].model}, ${cpus().length} cores, Node ${process.version}`;
  if (json) process.stdout.write(`${JSON.stringify({ machine, seconds, seeds, workers, rows }, null, 1)}\n`);
  else print(machine, seconds, seeds, workers, rows);
}

async function runOnce(problem, seconds, seed, count) {
  const workers = Array.from({ length: count }, startWorker);
  const start = performance.now();
  const since = () => (performance.now() - start) / 1000;
  const events = [];
  let firstComplete;
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), seconds * 1000);
  const found = await searchTogether(
    problem.spec,
    { seed, moves: 0, seconds },
    { workers, signal: stop.signal },
    ({ score }) => {
      if (score.missing > 0) return;
      firstComplete ??= since();
      events.push({ at: since(), density: densityOf(problem, score), boards: score.boards });
    },
  );
  const took = since();
  clearTimeout(timer);
  for (const worker of workers) worker.terminate();
  const curve = CURVE.filter((at) => at <= seconds).map((at) => ({
    at,
    density: events.filter((event) => event.at <= at).at(-1)?.density ?? null,
    boards: events.filter((event) => event.at <= at).at(-1)?.boards ?? null,
  }));
  return { seed, firstComplete, took, curve, ...judged(problem, found) };
}

function summary(name, instance, runs) {
  const copies = instance.items.reduce((sum, { quantity }) => sum + quantity, 0);
  const complete = runs.every(({ placed }) => placed === copies);
  return {
    name,
    copies,
    complete,
    verified: runs.every(({ verified }) => verified),
    density: median(runs.map(({ density }) => density)),
    boards: median(runs.map((run) => run.boards)),
    knownOptimumBoards: instance.knownOptimumBoards ?? null,
    firstComplete: median(runs.map(({ firstComplete }) => firstComplete ?? Number.NaN)),
    curve: runs[0].curve.map(({ at }, i) => ({
      at,
      density: median(runs.map(({ curve }) => curve[i].density)),
    })),
    runs,
  };
}

function line({ density, boards, verified, firstComplete, took, breaches }) {
  const check = verified ? 'verified' : `NOT VERIFIED ${breaches.join('; ')}`;
  return `${density.toFixed(2)} % on ${boards}, first after ${firstComplete?.toFixed(2)} s, took ${took.toFixed(1)} s, ${check}`;
}

function print(machine, seconds, seeds, workers, rows) {
  process.stdout.write(`${machine}; ${seconds} s, ${workers} workers, median of ${seeds} seeds\n`);
  for (const row of rows) {
    const boards =
      row.knownOptimumBoards === null ? '' : `, ${row.boards} boards (optimum ${row.knownOptimumBoards})`;
    const state = `${row.complete ? '' : ' INCOMPLETE'}${row.verified ? '' : ' NOT VERIFIED'}`;
    process.stdout.write(`${row.name.padEnd(16)} ${row.density.toFixed(2)} %${boards}${state}\n`);
    const curve = row.curve.map(({ at, density }) => `${at} s ${density?.toFixed(2) ?? '-'}`).join('  ');
    process.stdout.write(`  first after ${row.firstComplete.toFixed(2)} s; ${curve}\n`);
  }
}

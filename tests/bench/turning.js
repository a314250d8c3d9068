// What turning on from the listed angles gains: strips with free grain at the same moves, with and without it.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { searchTogether } from '../../dist/nesting/workers/search-pool.js';
import { judged } from './check.js';
import { problemOf } from './instance.js';

/** Runs the benchmark and prints it. */
export async function benchTurning({ folder, only, seeds, moves, steps, json }) {
  const rows = [];
  for (const name of only) {
    const instance = JSON.parse(readFileSync(path.join(folder, `${name}.json`), 'utf8'));
    for (const step of steps) {
      for (const turnsOn of [false, true]) {
        const runs = [];
        for (let seed = 1; seed <= seeds; seed++)
          runs.push(await runOnce(instance, step, turnsOn, seed, moves));
        const mean = (of) => runs.reduce((sum, run) => sum + of(run), 0) / runs.length;
        const row = {
          name,
          step,
          turnsOn,
          density: mean((run) => run.density),
          processorSeconds: mean((run) => run.seconds),
          verified: runs.every(({ verified }) => verified),
          densities: runs.map(({ density }) => density),
        };
        rows.push(row);
        process.stderr.write(`${JSON.stringify(row)}\n`);
      }
    }
  }
  if (json) process.stdout.write(`${JSON.stringify({ seeds, moves, rows }, null, 1)}\n`);
  else
    for (const { name, step, turnsOn, density, processorSeconds, verified } of rows)
      process.stdout.write(
        `${name.padEnd(16)} every ${step} degrees${turnsOn ? ' and between' : '            '} ${density.toFixed(2)} %, ${processorSeconds.toFixed(1)} s${verified ? '' : ' NOT VERIFIED'}\n`,
      );
}

async function runOnce(instance, step, turnsOn, seed, moves) {
  const problem = problemOf(instance);
  const angles = Array.from({ length: 360 / step }, (_, i) => i * step);
  const twist = turnsOn ? { twist: [-180, 180] } : {};
  const lies = angles.map((degrees) => ({ degrees, turnedOver: false, ...twist }));
  const spec = { ...problem.spec, shapes: problem.spec.shapes.map((shape) => ({ ...shape, lies })) };
  const before = process.cpuUsage();
  const found = await searchTogether(spec, { seed, moves }, { workers: [] }, () => {});
  const { user, system } = process.cpuUsage(before);
  return { seconds: (user + system) / 1e6, ...judged({ ...problem, spec }, found) };
}

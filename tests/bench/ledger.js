// Runs every benchmark, each in a process of its own, and writes docs/performance.json and the page made from it.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { growthExponent } from './median.js';
import { performancePage } from './performance-page.js';
import { PUBLISHED } from './published.js';
import { BATCHES } from './whole-job.js';

const docs = fileURLToPath(new URL('../../docs/', import.meta.url));
const runner = fileURLToPath(new URL('run.js', import.meta.url));

/**
 * @param folder folder of the open strip instances; without it their rows stay as they were measured last
 */
export function writeLedger({ folder, seconds, seeds, workers, runs }) {
  // Read first: a missing ledger is told before minutes of measuring.
  const stripsBefore = folder === undefined ? readLedger().nesting : undefined;
  const run = (...args) =>
    JSON.parse(
      execFileSync(process.execPath, [runner, ...args, '--json'], {
        stdio: ['ignore', 'pipe', 'inherit'],
        maxBuffer: 1e9,
      }),
    );
  const wholeJob = BATCHES.map((sets) => run('whole-job', '--sets', `${sets}`));
  const ledger = {
    measured: new Date().toISOString().slice(0, 10),
    machine: `${cpus()[0].model}, ${cpus().length} cores, Node ${process.version}`,
    importing: run('importing', '--runs', `${runs}`),
    geometry: run('geometry', '--runs', `${runs}`),
    paper: run('paper'),
    memory: run('memory'),
    boxes: run('whole-job', '--sets', '12').yields,
    wholeJob: {
      rows: wholeJob,
      growthExponent: growthExponent(
        BATCHES,
        wholeJob.map(({ processorSeconds }) => processorSeconds),
      ),
    },
    nesting: stripsBefore ?? strips(run, { folder, seconds, seeds, workers }),
  };
  writeFileSync(`${docs}performance.json`, `${JSON.stringify(ledger, null, 1)}\n`);
  writeFileSync(`${docs}performance.md`, performancePage(ledger));
}

/** The ledger as it was written last. */
export function readLedger() {
  return JSON.parse(readFileSync(`${docs}performance.json`, 'utf8'));
}

function strips(run, { folder, seconds, seeds, workers }) {
  const only = Object.keys(PUBLISHED).join(',');
  const options = { instances: folder, seconds, seeds, workers, only };
  const { rows } = run(
    'nesting',
    ...Object.entries(options).flatMap(([name, value]) => [`--${name}`, `${value}`]),
  );
  return {
    seconds,
    seeds,
    workers,
    rows: rows.map(({ name, density, verified, firstComplete }) => ({
      name,
      density,
      verified,
      firstComplete,
      ...PUBLISHED[name],
    })),
  };
}

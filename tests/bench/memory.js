// How little memory the reading of a drawing and the whole job of a batch come to their end in.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { MEGABYTES } from './importing.js';
import { BATCHES } from './whole-job.js';

const runner = fileURLToPath(new URL('run.js', import.meta.url));

/** Limits of the heap that are tried, MB: up to half as much again from one to the next. */
const HEAPS = [50, 75, 100, 150, 200, 300, 400, 600, 800, 1200, 1600, 2400, 3200];

/** Told to standard error by a process at its end: its greatest resident memory, kB. */
const TELL_PEAK = `data:text/javascript,${encodeURIComponent(
  'process.on("exit", () => process.stderr.write("peak=" + process.resourceUsage().maxRSS))',
)}`;

/** The least heap of each run, and the greatest resident memory of the run with it. */
export function benchMemory({ json }) {
  const runs = [
    ...MEGABYTES.map((size) => ({
      what: `reading ${size} MB`,
      args: ['reading', '--megabytes', `${size}`],
    })),
    ...BATCHES.map((sets) => ({
      what: `whole job of ${sets} sets`,
      args: ['whole-job', '--sets', `${sets}`],
    })),
  ];
  const rows = runs.map(({ what, args }) => {
    const row = { what, ...leastHeap(what, args) };
    process.stderr.write(`${what}: heap of ${row.heapMegabytes} MB\n`);
    return row;
  });
  if (json) {
    process.stdout.write(`${JSON.stringify({ bench: 'memory', heaps: HEAPS, rows }, null, 2)}\n`);
    return;
  }
  for (const { what, heapMegabytes, peakMegabytes } of rows) {
    process.stdout.write(
      `${what}: heap of ${heapMegabytes} MB, ${peakMegabytes.toFixed(0)} MB resident at most\n`,
    );
  }
}

function leastHeap(what, args) {
  let failed = '';
  for (const heapMegabytes of HEAPS) {
    const limits = [`--max-old-space-size=${heapMegabytes}`, '--max-semi-space-size=16'];
    const { status, stderr } = spawnSync(
      process.execPath,
      [...limits, '--import', TELL_PEAK, runner, ...args],
      { encoding: 'utf8' },
    );
    if (status === 0) {
      return { heapMegabytes, peakMegabytes: Number(/peak=(\d+)$/.exec(stderr)[1]) / 1024 };
    }
    failed = stderr;
  }
  throw new Error(`${what}: did not come to its end in a heap of ${HEAPS.at(-1)} MB:\n${failed}`);
}

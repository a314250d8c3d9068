// Benchmarks: node tests/bench/run.js nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
//              node tests/bench/run.js importing|geometry [--runs 5] [--json]
//              node tests/bench/run.js paper [--json]
//              node tests/bench/run.js whole-job [--sets 12] [--json]
//              node tests/bench/run.js ledger [--instances DIR]: all of them, into docs/performance.md
// Needs a build (npm run build). Results go to stdout, progress to stderr.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { benchGeometry } from './geometry.js';
import { benchImporting } from './importing.js';
import { writeLedger } from './ledger.js';
import { benchNesting } from './nesting.js';
import { benchWholeJob } from './whole-job.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    instances: { type: 'string' },
    seconds: { type: 'string', default: '60' },
    seeds: { type: 'string', default: '3' },
    workers: { type: 'string', default: '2' },
    only: { type: 'string' },
    runs: { type: 'string', default: '5' },
    sets: { type: 'string', default: '12' },
    json: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

const USAGE = `use: npm run bench -- nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
     npm run bench -- importing|geometry [--runs 5] [--json]
     npm run bench -- paper [--json]
     npm run bench -- whole-job [--sets 12] [--json]
     npm run bench -- ledger [--instances DIR]: all of them, into docs/performance.md
`;

const searched = {
  folder: values.instances,
  seconds: Number(values.seconds),
  seeds: Number(values.seeds),
  workers: Number(values.workers),
};

const benches = {
  importing: () => benchImporting({ runs: Number(values.runs), json: values.json }),
  geometry: () => benchGeometry({ runs: Number(values.runs), json: values.json }),
  paper: runPaper,
  'whole-job': () => benchWholeJob({ sets: Number(values.sets), json: values.json }),
  nesting: () => benchNesting({ ...searched, only: values.only?.split(','), json: values.json }),
  ledger: () => writeLedger({ ...searched, runs: Number(values.runs) }),
};

/** Left alone, Node takes twice the memory it needs before it gives any back: the limit shows what is needed. */
function runPaper() {
  const limits = ['--max-old-space-size=210', '--max-semi-space-size=8'];
  const file = fileURLToPath(new URL('paper.js', import.meta.url));
  const json = values.json ? ['--json'] : [];
  const { status } = spawnSync(process.execPath, [...limits, file, ...json], { stdio: 'inherit' });
  process.exitCode = status ?? 1;
}

const bench = benches[positionals[0]];
if (values.help) {
  process.stdout.write(USAGE);
} else if (bench === undefined || (positionals[0] === 'nesting' && values.instances === undefined)) {
  process.stderr.write(USAGE);
  process.exitCode = 2;
} else {
  await bench();
}

// Benchmarks: node tests/bench/run.js nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
//              node tests/bench/run.js turning --instances DIR [--only a,b] [--moves 20000] [--steps 45,90] [--seeds 3] [--json]
//              node tests/bench/run.js lattices --instances DIR [--only a,b] [--moves 20000] [--seeds 3] [--json]
//              node tests/bench/run.js aborts --instances DIR [--only a,b] [--runs 30] [--json]
//              node tests/bench/run.js importing|geometry [--runs 5] [--json]
//              node tests/bench/run.js paper [--boards 60] [--json]
//              node tests/bench/run.js whole-job [--sets 12] [--json]
//              node tests/bench/run.js reading [--megabytes 4] [--json]
//              node tests/bench/run.js memory [--json]
//              node tests/bench/run.js ledger [--instances DIR]: all of them, into docs/performance.md
// Needs a build (npm run build). Results go to stdout, progress to stderr.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { benchAborts } from './aborts.js';
import { benchGeometry } from './geometry.js';
import { benchImporting, readOnce } from './importing.js';
import { benchLattices } from './lattices.js';
import { writeLedger } from './ledger.js';
import { benchMemory } from './memory.js';
import { benchNesting } from './nesting.js';
import { benchTurning } from './turning.js';
import { benchWholeJob } from './whole-job.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    instances: { type: 'string' },
    seconds: { type: 'string', default: '60' },
    seeds: { type: 'string', default: '3' },
    workers: { type: 'string', default: '2' },
    only: { type: 'string' },
    moves: { type: 'string', default: '20000' },
    steps: { type: 'string', default: '45' },
    runs: { type: 'string', default: '5' },
    boards: { type: 'string', default: '60' },
    sets: { type: 'string', default: '12' },
    megabytes: { type: 'string', default: '4' },
    json: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

const USAGE = `use: npm run bench -- nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
     npm run bench -- turning --instances DIR [--only a,b] [--moves 20000] [--steps 45,90] [--seeds 3] [--json]
     npm run bench -- lattices --instances DIR [--only a,b] [--moves 20000] [--seeds 3] [--json]
     npm run bench -- aborts --instances DIR [--only a,b] [--runs 30] [--json]
     npm run bench -- importing|geometry [--runs 5] [--json]
     npm run bench -- paper [--boards 60] [--json]
     npm run bench -- whole-job [--sets 12] [--json]
     npm run bench -- reading [--megabytes 4] [--json]
     npm run bench -- memory [--json]
     npm run bench -- ledger [--instances DIR]: all of them, into docs/performance.md
`;

const NEED_INSTANCES = ['nesting', 'turning', 'lattices', 'aborts'];

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
  reading: () => readOnce({ megabytes: Number(values.megabytes), json: values.json }),
  memory: () => benchMemory({ json: values.json }),
  nesting: () => benchNesting({ ...searched, only: values.only?.split(','), json: values.json }),
  aborts: () =>
    benchAborts({
      folder: values.instances,
      only: values.only?.split(',') ?? ['gardeyn4', 'shirts', 'shapes1'],
      runs: Number(values.runs),
      json: values.json,
    }),
  lattices: () =>
    benchLattices({
      ...searched,
      only: values.only?.split(',') ?? ['gardeyn0', 'gardeyn4', 'gardeyn7'],
      moves: Number(values.moves),
      json: values.json,
    }),
  turning: () =>
    benchTurning({
      ...searched,
      only: values.only?.split(',') ?? ['jakobs1', 'shapes0', 'shapes1'],
      moves: Number(values.moves),
      steps: values.steps.split(',').map(Number),
      json: values.json,
    }),
  ledger: () => writeLedger({ ...searched, runs: Number(values.runs) }),
};

/** Left alone, Node takes twice the memory it needs before it gives any back: the limit shows what is needed. */
function runPaper() {
  const limits = ['--max-old-space-size=230', '--max-semi-space-size=16'];
  const file = fileURLToPath(new URL('paper.js', import.meta.url));
  const json = values.json ? ['--json'] : [];
  const { status } = spawnSync(process.execPath, [...limits, file, '--boards', values.boards, ...json], {
    stdio: 'inherit',
  });
  process.exitCode = status ?? 1;
}

const bench = benches[positionals[0]];
if (values.help) {
  process.stdout.write(USAGE);
} else if (
  bench === undefined ||
  (NEED_INSTANCES.includes(positionals[0]) && values.instances === undefined)
) {
  process.stderr.write(USAGE);
  process.exitCode = 2;
} else {
  await bench();
}

// Benchmarks: node tests/bench/run.js nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
//              node tests/bench/run.js importing [--runs 5] [--json]
//              node tests/bench/run.js paper [--json]
// Needs a build (npm run build). Results go to stdout, progress to stderr.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { benchImporting } from './importing.js';
import { benchNesting } from './nesting.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    instances: { type: 'string' },
    seconds: { type: 'string', default: '60' },
    seeds: { type: 'string', default: '3' },
    workers: { type: 'string', default: '2' },
    only: { type: 'string' },
    runs: { type: 'string', default: '5' },
    json: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

const USAGE = `use: npm run bench -- nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
     npm run bench -- importing [--runs 5] [--json]
     npm run bench -- paper [--json]
`;

if (values.help) {
  process.stdout.write(USAGE);
} else if (positionals[0] === 'importing') {
  benchImporting({ runs: Number(values.runs), json: values.json });
} else if (positionals[0] === 'paper') {
  // Left alone, Node takes twice the memory it needs before it gives any back: the limit shows what is needed.
  const limits = ['--max-old-space-size=210', '--max-semi-space-size=8'];
  const bench = fileURLToPath(new URL('paper.js', import.meta.url));
  const { status } = spawnSync(process.execPath, [...limits, bench, ...(values.json ? ['--json'] : [])], {
    stdio: 'inherit',
  });
  process.exitCode = status ?? 1;
} else if (positionals[0] === 'nesting' && values.instances !== undefined) {
  await benchNesting({
    folder: values.instances,
    seconds: Number(values.seconds),
    seeds: Number(values.seeds),
    workers: Number(values.workers),
    only: values.only?.split(','),
    json: values.json,
  });
} else {
  process.stderr.write(USAGE);
  process.exitCode = 2;
}

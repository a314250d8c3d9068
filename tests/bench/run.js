// Benchmarks: node tests/bench/run.js nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]
// Needs a build (npm run build). Results go to stdout, progress to stderr.
import { parseArgs } from 'node:util';
import { benchNesting } from './nesting.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    instances: { type: 'string' },
    seconds: { type: 'string', default: '60' },
    seeds: { type: 'string', default: '3' },
    workers: { type: 'string', default: '2' },
    only: { type: 'string' },
    json: { type: 'boolean', default: false },
  },
});

if (positionals[0] !== 'nesting' || values.instances === undefined) {
  process.stderr.write(
    'use: npm run bench -- nesting --instances DIR [--seconds 60] [--seeds 3] [--workers 2] [--only a,b] [--json]\n',
  );
  process.exit(2);
}

await benchNesting({
  folder: values.instances,
  seconds: Number(values.seconds),
  seeds: Number(values.seeds),
  workers: Number(values.workers),
  only: values.only?.split(','),
  json: values.json,
});

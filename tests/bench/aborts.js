// How soon a search in the calling thread ends when it is told to: aborts at random moments, every layout verified.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Pulse } from '../../dist/nesting/running/pulse.js';
import { searchTogether } from '../../dist/nesting/workers/search-pool.js';
import { judged } from './check.js';
import { problemOf } from './instance.js';

/** Longest time before an abort, ms. */
const LATEST = 4000;

/** Runs the benchmark and prints it. */
export async function benchAborts({ folder, only, runs, json }) {
  const rows = [];
  for (const name of only) {
    const instance = JSON.parse(readFileSync(path.join(folder, `${name}.json`), 'utf8'));
    const found = [];
    for (let run = 0; run < runs; run++) found.push(await abortOnce(problemOf(instance), run, runs));
    rows.push({
      name,
      runs,
      worstWall: Math.max(...found.map(({ wall }) => wall)),
      worstProcessor: Math.max(...found.map(({ processor }) => processor)),
      longestStretch: Math.max(...found.map(({ stretch }) => stretch)),
      complete: found.filter(({ complete }) => complete).length,
      verified: found.every(({ verified }) => verified),
    });
    process.stderr.write(`${JSON.stringify(rows.at(-1))}\n`);
  }
  if (json) process.stdout.write(`${JSON.stringify(rows, null, 1)}\n`);
  else for (const row of rows) process.stdout.write(`${line(row)}\n`);
}

function line({ name, runs, worstWall, worstProcessor, longestStretch, complete, verified }) {
  const [wall, processor, stretch] = [worstWall, worstProcessor, longestStretch].map((ms) => ms.toFixed(0));
  const state = `${complete} of ${runs} complete${verified ? '' : ', NOT VERIFIED'}`;
  return `${name.padEnd(16)} ends within ${wall} ms, ${processor} ms of processor time; never deaf for longer than ${stretch} ms of it; ${state}`;
}

/**
 * One abort, spread evenly over the time (moments squared: most happens early). The clock runs from the moment the
 * abort was due, which a busy thread hears of late; the processor's time from when it last could have heard.
 */
async function abortOnce(problem, run, runs) {
  const due = LATEST * ((run + 0.5) / runs) ** 2;
  const stop = new AbortController();
  const heard = { at: process.cpuUsage(), longest: 0 };
  const breathe = Pulse.prototype.breathe;
  const listen = () => {
    heard.longest = Math.max(heard.longest, processorSince(heard.at));
    heard.at = process.cpuUsage();
  };
  Pulse.prototype.breathe = function breatheAndListen() {
    listen();
    return breathe.call(this);
  };
  const start = performance.now();
  setTimeout(() => stop.abort(), due);
  const found = await searchTogether(
    problem.spec,
    { seed: run + 1, moves: 1e9 },
    { workers: [], signal: stop.signal },
    () => {},
  );
  const wall = performance.now() - start - due;
  const processor = processorSince(heard.at);
  listen();
  Pulse.prototype.breathe = breathe;
  const complete = found.score.missing === 0;
  const { verified } = complete ? judged(problem, found) : { verified: true };
  return { wall, processor, stretch: heard.longest, complete, verified };
}

function processorSince(mark) {
  const { user, system } = process.cpuUsage(mark);
  return (user + system) / 1000;
}

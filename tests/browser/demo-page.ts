import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { startWorker } from '../../dist/cli/search-workers.js';
import { readJob, runJob } from '../../dist/index.js';

/** The example page, and what it makes of the demo. */

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What the demo is laid out with here, thousands of moves: enough for the workers to have searched. */
export const EFFORT = 0.2;

/** Makes the page in a folder, and tells its path. */
export function pageIn(folder: string): string {
  const file = path.join(folder, 'fretlay.html');
  execFileSync(process.execPath, [path.join(root, 'docs/browser/make-page.mjs'), file]);
  return file;
}

let byNode: Promise<string> | undefined;

/** The layout file of the demo as Node makes it in as many workers as the page; made once. */
export function demoByNode(): Promise<string> {
  const read = (name: string) => readFileSync(path.join(root, 'fixtures/lake-shore', name), 'utf8');
  const options = { effort: EFFORT, workers: 2, startWorker };
  byNode ??= runJob(readJob(read('job.json')), read('pattern.svg'), options).then(({ layout }) =>
    JSON.stringify(layout),
  );
  return byNode;
}

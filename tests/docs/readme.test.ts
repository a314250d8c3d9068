import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { tryReadJob } from '../../src/job/read-job.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name: string) => readFileSync(`${root}${name}`, 'utf8');

/** The code blocks of one language in a Markdown file. */
function blocks(markdown: string, language: string): string[] {
  return [...markdown.matchAll(new RegExp(`\`\`\`${language}\\n(.*?)\`\`\``, 'gs'))].map(([, code]) => code);
}

describe('README', () => {
  it('has a library example that runs as it stands and prints what its comments say', () => {
    const [code] = blocks(read('README.md'), 'js');
    // The package refers to itself by name through its exports, as a user's code would.
    const printed = execFileSync(process.execPath, ['--input-type=module', '-e', code], {
      cwd: root,
      encoding: 'utf8',
    });
    const promised = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map(([, comment]) => comment);
    expect(promised).toHaveLength(2);
    expect(printed.trim().split('\n')).toEqual(promised);
  });

  it.each(['README.md', 'docs/job-file.md'])('%s shows job files that are accepted', (file) => {
    const jobs = blocks(read(file), 'json');
    expect(jobs.length).toBeGreaterThan(0);
    for (const job of jobs) expect(tryReadJob(job).issues).toEqual([]);
  });

  it('names only npm scripts and files that exist', () => {
    const scripts = Object.keys(JSON.parse(read('package.json')).scripts);
    for (const file of ['README.md', 'DEVELOPERS.md']) {
      for (const [, script] of read(file).matchAll(/npm run ([\w-]+)/g)) expect(scripts).toContain(script);
      for (const [, link] of read(file).matchAll(/\]\(([^)#:]+)\)/g)) expect(() => read(link)).not.toThrow();
    }
  });
});

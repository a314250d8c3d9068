import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readRack } from '../../src/job/rack.ts';
import { tryReadJob } from '../../src/job/read-job.ts';
import { folderWith, fretlay } from '../cli/run-cli.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name: string) => readFileSync(`${root}${name}`, 'utf8');

const SHELF = '{ "id": "Shelf", "length": "24 in", "width": "5 in" }';

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

  it('has commands for a batch of your own that run with its job, one after the other', async () => {
    const text = read('README.md');
    const [job] = blocks(text, 'json');
    const commands = blocks(text, 'sh').flatMap((block) => block.match(/^node .*?(?= *#|$)/gm) ?? []);
    expect(commands).toHaveLength(3);
    const folder = await folderWith({
      'job.json': job,
      'pattern.svg': read('fixtures/first-cut/pattern.svg'),
    });
    for (const command of commands) {
      const [node, main, ...words] = command.split(/ +/);
      expect([node, main]).toEqual(['node', 'dist/cli/main.js']);
      const { code, stderr } = await fretlay(
        ...words
          .map((word) =>
            word.startsWith('fixtures/') ? `${root}${word}` : /^[a-z]/.test(word) ? folder.path(word) : word,
          )
          .with(0, words[0]),
      );
      expect(code, `${command}\n${stderr}`).toBe(0);
    }
    await folder.done();
  });

  it.each(['docs/costing.md', 'docs/sawing.md'])('%s shows parts of a job that are accepted', (file) => {
    for (const block of blocks(read(file), 'json')) {
      const { issues } = tryReadJob(`{ "pattern": "pattern.svg", "boards": [${SHELF}], ${block} }`);
      expect(issues.filter(({ severity }) => severity === 'error')).toEqual([]);
    }
  });

  it('docs/rack-file.md shows a rack that is read', () => {
    const [rack] = blocks(read('docs/rack-file.md'), 'json');
    expect(readRack(rack, 'rack.json')).toMatchObject({ boards: [{ id: 'W1' }, { id: 'K1' }] });
  });

  it('names only npm scripts and files that exist', () => {
    const scripts = Object.keys(JSON.parse(read('package.json')).scripts);
    for (const file of ['README.md', 'DEVELOPERS.md']) {
      for (const [, script] of read(file).matchAll(/npm run ([\w-]+)/g)) expect(scripts).toContain(script);
      for (const [, link] of read(file).matchAll(/\]\(([^)#:]+)\)/g)) expect(() => read(link)).not.toThrow();
    }
  });
});

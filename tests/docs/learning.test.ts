import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { FretlayError, formatIssue, planWork, readJob, runJob } from '../../src/index.ts';
import { fretlay } from '../cli/run-cli.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name: string) => readFileSync(path.join(root, name), 'utf8');
const SVG = read('fixtures/first-cut/pattern.svg');
const FILES = { 'rack.json': read('fixtures/rack/rack.json'), 'slab.svg': read('fixtures/rack/slab.svg') };

/** The code blocks of one language, each with the heading it stands under. */
function blocks(markdown: string, language: string): { title: string; code: string; after: string }[] {
  return markdown
    .split(/^## /m)
    .slice(1)
    .flatMap((section) => {
      const title = section.split('\n', 1)[0];
      const found = section.matchAll(new RegExp(`\`\`\`${language}\\n(.*?)\`\`\`(.*?)(?=\`\`\`|$)`, 'gs'));
      return [...found].map(([, code, after]) => ({ title, code, after }));
    });
}

/** Runs the first-cut job with a piece of JSON put into it; the text of all issues, errors too. */
async function told(piece: string): Promise<{ refused: boolean; text: string; warnings: number }> {
  try {
    const job = readJob(
      JSON.stringify({ ...JSON.parse(read('fixtures/first-cut/job.json')), ...JSON.parse(piece) }),
    );
    const result = await runJob(job, SVG, { effort: 0, files: FILES });
    await planWork(job, result);
    const text = result.issues.map((issue) => formatIssue(issue)).join('\n');
    return {
      refused: false,
      text,
      warnings: result.issues.filter(({ severity }) => severity !== 'note').length,
    };
  } catch (error) {
    if (!(error instanceof FretlayError)) throw error;
    return { refused: true, text: error.message, warnings: error.issues.length };
  }
}

/** The kinds of issues as the code writes them: in an issue itself, or as the first word to what makes one. */
function kindsInCode(): Set<string> {
  // Written from the name of the property that is not carried out.
  const kinds = new Set(['mask-ignored', 'filter-ignored']);
  const MADE = /\b(?:refuse|breach|fileError|fail|warn|note)\(\s*'([a-z]+(?:-[a-z]+)+)'/g;
  for (const name of readdirSync(path.join(root, 'src'), { recursive: true, encoding: 'utf8' })) {
    if (!name.endsWith('.ts')) continue;
    const code = read(path.join('src', name));
    for (const [, value] of code.matchAll(/\b(?:kind|issue): ([^,\n]+),/g))
      for (const [, kind] of value.matchAll(/'([a-z]+(?:-[a-z]+)+)'/g)) kinds.add(kind);
    for (const [, kind] of code.matchAll(MADE)) kinds.add(kind);
  }
  // What becomes of an element of the drawing, not an issue.
  kinds.delete('left-out');
  return kinds;
}

describe('docs/how-to.md', () => {
  it.each(blocks(read('docs/how-to.md'), 'json'))(
    '$title: the job runs, with no warning',
    async ({ code }) => {
      expect(await told(code)).toMatchObject({ refused: false, warnings: 0 });
    },
  );
});

describe('docs/errors.md', () => {
  it.each(blocks(read('docs/errors.md'), 'json'))('$title: comes about as told', async ({ code, after }) => {
    const quoted = /^> (.*)$/m.exec(after)?.[1] ?? 'no quotation on the page';
    expect((await told(code)).text).toContain(quoted);
  });

  it('lists every kind of issue that the code can give, and no other', () => {
    const listed = read('docs/errors.md').split('## Every kind of issue')[1];
    const kinds = new Set(
      [...listed.matchAll(/(?<=^\|[^|]*)`([a-z]+(?:-[a-z]+)+)`(?=[^|]*\|)/gm)].map(([, kind]) => kind),
    );
    expect([...kinds].sort()).toEqual([...kindsInCode()].sort());
  });
});

describe('docs/walkthrough.md', () => {
  it('has pictures and links that exist', () => {
    for (const page of ['walkthrough', 'how-to', 'errors'])
      for (const [, link] of read(`docs/${page}.md`).matchAll(/\]\(([^)#:]+)\)/g))
        expect(existsSync(path.join(root, 'docs', link)), link).toBe(true);
  });

  it('has commands that run, one after the other', { timeout: 240_000 }, async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'fretlay-walk-'));
    // Two sets in place of twelve, and no search: the commands are what is tried.
    cpSync(path.join(root, 'fixtures/lake-shore'), path.join(folder, 'lake-shore'), { recursive: true });
    const job = JSON.parse(read('fixtures/lake-shore/job.json'));
    writeFileSync(path.join(folder, 'lake-shore/job.json'), JSON.stringify({ ...job, sets: 2 }));
    const commands = blocks(read('docs/walkthrough.md'), 'sh').map(({ code }) => code.trim());
    expect(commands).toHaveLength(4);
    for (const command of commands) {
      const words = command.replaceAll('out/', `${folder}/`).replaceAll('fixtures/', `${folder}/`).split(' ');
      expect(words.splice(0, 2)).toEqual(['node', 'dist/cli/main.js']);
      const { code, stdout, stderr } = await fretlay(
        ...words,
        ...(words[0] === 'plan' ? ['--effort', '0'] : []),
      );
      expect(code, `${command}\n${stderr}`).toBe(0);
      expect(stdout.length).toBeGreaterThan(10);
    }
    rmSync(folder, { recursive: true });
  });
});

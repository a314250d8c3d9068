import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The examples of docs/library.md as files of a program of its own, which has fretlay installed. */

const root = fileURLToPath(new URL('../..', import.meta.url));

/** One block of the page. */
export interface Example {
  /** Name of the file, as the block says in its first line, without its ending. */
  readonly name: string;
  readonly code: string;
}

/** Every block of TypeScript on the page. */
export function libraryExamples(): Example[] {
  const page = readFileSync(path.join(root, 'docs/library.md'), 'utf8');
  return [...page.matchAll(/```ts\n(\/\/ ([a-z-]+)\.ts\n.*?)```/gs)].map(([, code, name]) => ({
    name,
    code,
  }));
}

/** Writes the examples as files of a program in a new folder, which the caller removes; the folder. */
export function writeExamples(examples: readonly Example[]): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'fretlay-library-'));
  mkdirSync(path.join(folder, 'node_modules'));
  symlinkSync(root, path.join(folder, 'node_modules/fretlay'));
  symlinkSync(path.join(root, 'node_modules/@types'), path.join(folder, 'node_modules/@types'));
  writeFileSync(path.join(folder, 'package.json'), '{ "private": true, "type": "module" }');
  for (const { name, code } of examples) writeFileSync(path.join(folder, `${name}.ts`), code);
  return folder;
}

/** Compiles the examples of a folder, strictly; what there is to complain of, by file. */
export function compileExamples(folder: string, examples: readonly Example[]): string[] {
  const files = examples.map(({ name }) => path.join(folder, `${name}.ts`));
  const program = ts.createProgram(files, {
    ...{
      strict: true,
      skipLibCheck: true,
      types: ['node'],
      typeRoots: [path.join(folder, 'node_modules/@types')],
    },
    ...{ target: ts.ScriptTarget.ES2023, lib: ['lib.es2023.d.ts', 'lib.dom.d.ts'] },
    ...{ module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext },
  });
  const own = files.map((file) => program.getSourceFile(file));
  const found = [
    ...program.getOptionsDiagnostics(),
    ...own.flatMap((file) => [
      ...program.getSyntacticDiagnostics(file),
      ...program.getSemanticDiagnostics(file),
    ]),
    ...program.emit().diagnostics,
  ];
  return found.map(
    ({ file, messageText }) =>
      `${path.basename(file?.fileName ?? '')}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`,
  );
}

/** Runs compiled examples one after the other in one Node; what each prints, by line. */
export function runExamples(folder: string, names: readonly string[]): Map<string, string[]> {
  const script = `for (const name of ${JSON.stringify(names)}) {
    console.log('== ' + name);
    try { await import('./' + name + '.js'); } catch (error) { console.log(String(error)); }
  }`;
  writeFileSync(path.join(folder, 'run-all.js'), script);
  const printed = execFileSync(process.execPath, ['run-all.js'], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return new Map(
    printed
      .split(/^== /m)
      .slice(1)
      .map((section) => {
        const [name, ...lines] = section.trim().split('\n');
        return [name, lines];
      }),
  );
}

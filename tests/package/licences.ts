import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A package that comes along when fretlay is installed. */
export interface Installed {
  readonly name: string;
  readonly version: string;
  /** As the package states it, in the words of the SPDX list where they differ. */
  readonly licence: string;
  /** Scripts that npm would run when it is installed. */
  readonly installScripts: readonly string[];
}

/** Licences that packages state in other words than the SPDX list has for them. */
const SPDX: Readonly<Record<string, string>> = { BSL: 'BSL-1.0' };

/** The runtime dependencies, theirs included, in the versions of the lock file. */
export function installedPackages(): Installed[] {
  const lock = JSON.parse(readFileSync(path.join(root, 'package-lock.json'), 'utf8'));
  const entries = Object.entries<{ dev?: boolean; optional?: boolean; peer?: boolean }>(lock.packages);
  return entries
    .filter(([at, { dev, optional }]) => at !== '' && !dev && !optional && existsSync(path.join(root, at)))
    .map(([at]) => {
      const own = JSON.parse(readFileSync(path.join(root, at, 'package.json'), 'utf8'));
      const hooks = ['preinstall', 'install', 'postinstall'];
      return {
        name: own.name,
        version: own.version,
        licence: SPDX[own.license] ?? own.license,
        installScripts: hooks.filter((hook) => own.scripts?.[hook] !== undefined),
      };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The page that lists them. */
export function licencePage(packages: readonly Installed[]): string {
  return [
    '# Packages that come with fretlay',
    '',
    'fretlay itself is under the MIT licence (LICENSE). Installing it brings these packages, each under its own',
    'licence; the texts lie in the packages.',
    '',
    '| package | version | licence |',
    '|---|---|---|',
    ...packages.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`),
    '',
    'This page is made from the lock file by the tests: `npm run pages`.',
    '',
  ].join('\n');
}

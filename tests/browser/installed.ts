import { execFileSync } from 'node:child_process';

/** Path of the first of these programs that this machine has; undefined when it has none. */
export function installed(...programs: readonly string[]): string | undefined {
  for (const program of programs) {
    try {
      return execFileSync('sh', ['-c', 'command -v "$0"', program], { encoding: 'utf8' }).trim();
    } catch {
      // Not under this name.
    }
  }
  return undefined;
}

import type { Issue } from '../../issues/issue.ts';
import type { Layout } from '../../model/layout.ts';
import { speciesKey } from '../../model/same-wood.ts';
import { breach } from './places.ts';

/**
 * Where sets have to stay together, the copies of one layer, species and set lie on one board. (The layout file does
 * not say which layers are of one wood, so every layer is looked at for itself.)
 */
export function checkTogether({ setsTogether, boards }: Layout, breaches: Issue[]): void {
  if (setsTogether !== true) return;
  const boardOf = new Map<string, string>();
  const reported = new Set<string>();
  for (const { id, species, placements } of boards) {
    for (const { layer, set } of placements) {
      const key = JSON.stringify([layer, speciesKey(species), set]);
      const known = boardOf.get(key) ?? id;
      boardOf.set(key, known);
      if (known === id || reported.has(key)) continue;
      reported.add(key);
      breaches.push(
        breach(
          'set-apart',
          `parts of set ${set} that belong together lie on two boards`,
          { layer },
          { expected: 'one board', received: `"${known}" and "${id}"` },
        ),
      );
    }
  }
}

import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { Layout } from '../model/layout.ts';
import { encodable, isPrintable } from '../sheet/marks/base-font-text.ts';

/** So many names are told; of more, how many they are. */
const MOST_TOLD = 3;

/**
 * What names lose on the pages to print: letters that the fonts of the PDF lack and nothing stands for, once for the
 * job; and boards whose names are alike there, for the name is all that tells on which board a page belongs. Parts that
 * are alike in print have their numbers on the labels.
 *
 * @param design name of the design, in the head of every page
 */
export function nameIssues(layout: Layout, design: string): Issue[] {
  const boards = layout.boards.filter(carriesParts);
  return [...lostLetters(boards, design), ...alikeInPrint(boards)];
}

function lostLetters(boards: Layout['boards'], design: string): Issue[] {
  const places = new Map<string, string>();
  const note = (name: string, place: string) => {
    if (!places.has(name) && !isPrintable(name)) places.set(name, place);
  };
  note(design, 'every page');
  for (const { id, species, placements } of boards) {
    const names = new Set([id, species, ...placements.flatMap(({ layer, part }) => [layer, part])]);
    for (const name of names) note(name, `pages of ${id}`);
  }
  if (places.size === 0) return [];
  const told = [...places].slice(0, MOST_TOLD).map(([name, place]) => `"${name}" (${place})`);
  const more = places.size - told.length;
  return [
    {
      kind: 'letters-not-printed',
      severity: 'warning',
      message: `the PDF has no letters for ${told.join(', ')}${more > 0 ? ` and ${counted(more, 'more name')}` : ''}: it prints a ? for each`,
      remedy:
        'Use names in Latin, Greek or Slavic Cyrillic letters; the SVG sheets and the report have these as they are.',
    },
  ];
}

function alikeInPrint(boards: Layout['boards']): Issue[] {
  const known = new Map<string, string>();
  return boards.flatMap(({ id }): Issue[] => {
    const words = encodable(id);
    const other = known.get(words);
    known.set(words, id);
    if (other === undefined) return [];
    return [
      {
        kind: 'boards-alike-in-print',
        severity: 'warning',
        message: `the pages of the boards "${other}" and "${id}" both say "${words}": the PDF lacks the letters they differ in`,
        remedy: 'Give one of them another id.',
        where: { board: id },
      },
    ];
  });
}

import { expect, it } from 'vitest';
import { mapWords } from '../../src/sheet/board-words.ts';
import { box, handBoard } from './hand-layout.ts';

it('tells above a map what the whole board is cut into first: the pages are of one piece of it', () => {
  const sections = [{ number: 1, from: 0, to: 298 }];
  const outline = box(0, 0, 600, 120);
  const strip = handBoard({ outline, sections, strips: 3 });
  expect(mapWords(strip, 'mm')).toMatch(/^rip the whole board into 3 strips 120 mm wide; /);
  expect(mapWords({ ...strip, lengths: 2 }, 'mm')).toMatch(
    /^rip the whole board into 3 strips 120 mm wide; cross-cut each into 2 lengths of 600 mm; /,
  );
  expect(mapWords(handBoard({ lengths: 2 }), 'mm')).toBe(
    'cross-cut the whole board into 2 lengths of 300 mm',
  );
});

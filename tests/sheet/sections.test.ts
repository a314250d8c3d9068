import { expect, it } from 'vitest';
import { drawPlacementSheet } from '../../src/sheet/placement-sheet.ts';
import { handBoard } from './hand-layout.ts';

it('draws the cross-cuts of a board also where its cuts are not planned: no part may be sawn across them', () => {
  const sections = [
    { number: 1, from: 0, to: 168 },
    { number: 2, from: 171, to: 300 },
  ];
  const facts = { job: 'lake', unit: 'mm', kerf: 1 } as const;
  const sheet = drawPlacementSheet(handBoard({ sections }), facts);
  expect(sheet).toMatch(/<path class="section"[^>]* d="M169.5 0L169.5 120"/);
  expect(sheet).toContain('section 2');
  expect(sheet).toContain('cross-cut between sections');
  expect(drawPlacementSheet(handBoard(), facts)).not.toContain('section');
});

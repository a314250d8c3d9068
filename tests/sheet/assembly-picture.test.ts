import { expect, test } from 'vitest';
import type { AssemblyPlan } from '../../src/model/assembly.ts';
import type { Pattern } from '../../src/model/pattern.ts';
import { flatMarks } from '../../src/sheet/marks/marks.ts';
import { textBox } from '../../src/sheet/marks/text-width.ts';
import { assemblyPicture } from '../../src/sheet/report/assembly-picture.ts';
import { box } from './hand-layout.ts';
import { boxesOverlap, lineMeetsBox } from './rectangles.ts';

/** Parts of some thicknesses on the back of a piece that is 40 mm wide. */
function picture(thicknesses: readonly number[], height: number, unit: 'mm' | 'in') {
  const parts = thicknesses.map((front, i) => ({ layer: 'L', part: `part ${i}`, back: 0, front }));
  const drawn = parts.map(({ part }) => ({
    name: part,
    region: { outline: box(0, 0, 40, height), openings: [] },
  }));
  const pattern = { layers: [{ name: 'L', parts: drawn }] } as unknown as Pattern;
  const plan = { parts, joints: [], depth: Math.max(...thicknesses) } as unknown as AssemblyPlan;
  return assemblyPicture(pattern, plan, unit);
}

test('depths stand below the side view, none on another, and no tick runs through one', () => {
  for (const [thicknesses, height] of [
    [[3.175, 9.525, 19.05], 400],
    [[3.175, 6.35, 9.525, 12.7, 20.6375], 40],
    [[0.5, 1, 1.5, 30], 2000],
  ] as const) {
    for (const unit of ['mm', 'in'] as const) {
      const drawing = picture(thicknesses, height, unit);
      const marks = flatMarks(drawing.marks);
      const texts = marks.flatMap((mark) =>
        mark.kind === 'text' && mark.role === 'text' ? [textBox(mark)] : [],
      );
      const ticks = marks.flatMap((mark) =>
        mark.kind === 'line' && mark.role === 'rule' ? [mark.points] : [],
      );
      expect(texts.length).toBeGreaterThan(thicknesses.length - 1);
      expect(
        texts.flatMap((each, i) => texts.slice(i + 1).filter((other) => boxesOverlap(each, other))),
      ).toEqual([]);
      expect(ticks.flatMap((points) => texts.filter((each) => lineMeetsBox(points, false, each)))).toEqual(
        [],
      );
      for (const { minX, maxX, maxY } of texts) {
        expect(minX).toBeGreaterThan(drawing.x);
        expect(maxX).toBeLessThan(drawing.x + drawing.width);
        expect(maxY).toBeLessThan(drawing.y + drawing.height);
      }
    }
  }
});

import { describe, expect, it } from 'vitest';
import { patternFromDrawing } from '../../src/pattern/pattern-from-drawing.ts';
import { secondOpinion } from '../../src/pattern/second-opinion.ts';
import { box, circle, drawing, shape } from './drawn.ts';

describe('secondOpinion', () => {
  it('agrees on plain shapes', () => {
    const source = drawing([
      shape([box(0, 0, 40, 20), circle(20, 10, 5)], { fillRule: 'evenodd' }),
      shape([circle(80, 20, 12)]),
    ]);
    expect(secondOpinion(source, patternFromDrawing(source).pattern)).toEqual([]);
  });

  it('reports parts that overlap, which count twice in one sum and once in the other', () => {
    const source = drawing([shape([box(0, 0, 40, 20)])]);
    const { pattern } = patternFromDrawing(source);
    const [layer] = pattern.layers;
    const doubled = { ...pattern, layers: [{ ...layer, parts: [...layer.parts, ...layer.parts] }] };
    expect(secondOpinion(source, doubled).map(({ kind }) => kind)).toEqual(['areas-differ']);
  });

  it('says nothing of a difference that its own figures do not show', () => {
    const source = drawing([shape([box(0, 0, 2, 2)]), shape([box(1.998, 0, 2, 2)])]);
    const { pattern } = patternFromDrawing(source);
    expect(pattern.layers[0].parts).toHaveLength(2);
    expect(secondOpinion(source, pattern)).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { batchFingerprint } from '../../src/cli/batch-fingerprint.ts';
import { readJob, readPattern } from '../../src/index.ts';

const SVG = readFileSync(new URL('../../fixtures/first-cut/pattern.svg', import.meta.url), 'utf8');

const of = (fields: object, svg = SVG) => {
  const job = readJob(JSON.stringify({ pattern: 'leaf.svg', rack: 'rack.json', ...fields }));
  return batchFingerprint(job, readPattern(svg, job.pattern).pattern);
};

describe('the fingerprint of a batch', () => {
  it('stays when it is planned anew for other paper, prices, kerf or boards, or the drawing is only saved', () => {
    const saved = SVG.replace('<title>', '<!-- saved again --><title>').replace('id="leaf"', 'id="frond"');
    const anew = {
      design: 'Leaf',
      kerf: 0.9,
      paper: { size: 'a3' },
      costs: { labourPerHour: 30 },
      effort: 1,
    };
    expect(of(anew, saved)).toBe(of({}));
  });

  it.each([
    ['sets', { sets: 2 }],
    ['scale', { pattern: { file: 'leaf.svg', scale: 1.1 } }],
    ['wood', { layers: { Leaf: { species: 'oak' } } }],
    ['thickness', { layers: { Leaf: { thickness: 6 } } }],
    ['copies of a layer', { layers: { Leaf: { copiesPerSet: 2 } } }],
    ['copies of a part', { layers: { Leaf: { copiesOf: { leaf: 3 } } } }],
  ])('is another for other %s', (_, fields) => {
    expect(of(fields)).not.toBe(of({}));
  });

  it('is another for another opening', () => {
    expect(of({}, SVG.replace('a 3,3 0 1 0 6,0', 'a 3,3 0 1 0 5.5,0'))).not.toBe(of({}));
  });
});

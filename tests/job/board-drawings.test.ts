import { describe, expect, it } from 'vitest';
import { withOutlines } from '../../src/job/board-drawings.ts';
import { readJob } from '../../src/job/read-job.ts';

const svg = (size: string, body: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 600 200">${body}</svg>`;
const SLAB = '<path d="M10 20 L590 0 L580 180 L0 200 Z"/>';

const traced = (text: string, scale = 1) => {
  const job = readJob(
    JSON.stringify({ pattern: 'p.svg', boards: [{ id: 'Slab', drawing: { file: 'slab.svg', scale } }] }),
  );
  return withOutlines(job.boards, { 'slab.svg': text }, 'job.json', 'boards');
};

describe('boards traced in a drawing', () => {
  it('takes the largest closed line as the board, from its own corner, and those on it as defects', () => {
    const { boards, issues } = traced(
      svg(
        'width="600mm" height="200mm"',
        `${SLAB}<circle cx="300" cy="100" r="12"/><path d="M-20 90 H620 V94 H-20 Z"/>`,
      ),
    );
    expect(issues.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(boards[0].outline).toEqual([
      [10, 20],
      [590, 0],
      [580, 180],
      [0, 200],
    ]);
    // The knot, and the crack that crosses the board without a corner on it.
    expect(boards[0].defects).toHaveLength(2);
  });

  it('takes it whichever line is drawn first, filled or not', () => {
    const knot = 'cx="300" cy="100" r="12"';
    const line = 'fill="none" stroke="black"';
    for (const body of [
      `<circle ${knot}/>${SLAB}`,
      `<circle ${line} ${knot}/>${SLAB.replace('<path', `<path ${line}`)}`,
    ]) {
      const { boards, issues } = traced(svg('width="600mm" height="200mm"', body));
      expect(issues).toEqual([]);
      expect(boards[0].outline).toHaveLength(4);
      expect(boards[0].defects).toHaveLength(1);
    }
  });

  it('tells the size a board comes to where the drawing is at another scale, or may be', () => {
    const told = (size: string, scale?: number) =>
      traced(svg(size, SLAB), scale).issues.map(({ kind, message }) => [kind, message]);
    expect(told('width="600mm" height="200mm"')).toEqual([]);
    // Traced at 1 : 10.
    expect(told('width="60mm" height="20mm"', 10)).toEqual([
      ['board-drawing-size', 'the board is taken to be 590 x 200 mm, the drawing at scale 10'],
    ]);
    expect(told('width="600px" height="200px"')).toEqual([
      ['size-in-pixels', 'the page has no physical unit: read at 96 pixels per inch'],
      ['board-drawing-size', 'the board is taken to be 156.1 x 52.9 mm, the drawing at scale 1'],
    ]);
  });

  it('tells of open lines, which are no defects, and closes those whose ends all but meet', () => {
    const line = (d: string) => `<path fill="none" stroke="black" d="${d}"/>`;
    const read = (...lines: string[]) =>
      traced(svg('width="600mm" height="200mm"', `${SLAB}${lines.map(line).join('')}`));
    const knot = read('M300 100 h20 v20 h-20 v-19.9');
    expect([knot.issues, knot.boards[0].defects.length]).toEqual([[], 1]);
    const crack = 'M580 90 L480 92 L580 96';
    const [issue, ...others] = read(crack).issues;
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ kind: 'board-line-left-out', severity: 'warning' });
    expect(issue.where).toMatchObject({ file: 'slab.svg', element: '<path>' });
    const [both] = read(crack, 'M100 50 h20 v20').issues;
    expect(both.message).toContain('2 shapes');
  });

  it('tells of lines that enclose nothing though they close, and of none beside the board', () => {
    const told = (lines: string) =>
      traced(svg('width="600mm" height="200mm"', `${SLAB}${lines}`)).issues.map(({ kind }) => kind);
    // A crack with the fill that a shape has by itself, there and back, and as a line a hair wide.
    expect(told('<path stroke="black" d="M580 90 L480 92"/>')).toEqual(['board-line-left-out']);
    expect(told('<path stroke="black" d="M580 90 L480 92 Z"/>')).toEqual(['board-line-left-out']);
    expect(told('<path d="M580 90 L480 90 V90.005 H580 Z"/>')).toEqual(['board-line-left-out']);
    // A dimension above the board, and a dot on it.
    expect(told('<path fill="none" stroke="black" d="M20 5 H100"/>')).toEqual([]);
    expect(told('<circle cx="300" cy="100" r="0.5"/>')).toEqual([]);
    // One that begins beside the board runs on to it all the same.
    expect(told('<path fill="none" stroke="black" d="M598 90 L480 92"/>')).toEqual(['board-line-left-out']);
  });

  it('takes a large hole for one, with its line drawn twice too, and a knot with its rings', () => {
    const { boards, issues } = traced(
      svg(
        'width="600mm" height="200mm"',
        `${SLAB}<path d="M50 30 H350 V150 H50 Z"/><path d="M51 31 H349 V149 H51 Z"/>
        <circle cx="450" cy="90" r="30"/><circle cx="450" cy="90" r="20"/><circle cx="450" cy="90" r="10"/>`,
      ),
    );
    expect([issues, boards[0].defects.length]).toEqual([[], 5]);
    // Sapwood along the edge, and a knot in it.
    const sapwood = '<path d="M10 20 L590 0 L586 80 L6 90 Z"/><circle cx="300" cy="40" r="9"/>';
    const sappy = traced(svg('width="600mm" height="200mm"', `${SLAB}${sapwood}`));
    expect([sappy.issues, sappy.boards[0].defects.length]).toEqual([[], 2]);
  });

  it('passes over what lies beside the board', () => {
    const { boards } = traced(
      svg('width="600mm" height="200mm"', `${SLAB}<path d="M0 210 H580 V360 H0 Z"/>`),
    );
    expect(boards[0].defects).toEqual([]);
  });

  it.each([
    ['no physical size', svg('', SLAB), /physical size/],
    [
      'no closed line',
      svg('width="600mm" height="200mm"', '<path fill="none" stroke="black" d="M0 0L9 9"/>'),
      /closed line/,
    ],
    [
      'a frame around the board',
      svg('width="600mm" height="200mm"', `${SLAB}<path d="M-5 -5 H605 V205 H-5 Z"/>`),
      /covers most of it/,
    ],
    [
      'a page with an edge around a small board and its knot',
      svg(
        'width="600mm" height="200mm"',
        '<path d="M0 0 H600 V200 H0 Z"/><path d="M50 30 H350 V150 H50 Z"/><circle cx="100" cy="80" r="9"/>',
      ),
      /has further ones in it/,
    ],
  ])('refuses a drawing with %s', (_, text, message) => {
    const errors = traced(text).issues.filter(({ severity }) => severity === 'error');
    expect(errors).toHaveLength(1);
    expect(errors[0].message).toMatch(message);
    expect(errors[0].where?.field).toBe('boards[0].drawing');
  });
});

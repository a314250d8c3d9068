import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readRack } from '../../src/job/rack.ts';
import { rackAfter } from '../../src/job/rack-after.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import { runJob } from '../../src/job/run-job.ts';

/** A bank 280 x 130 mm and a moon of 60 mm. */
const SVG = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="200mm" viewBox="0 0 400 200">
  <g id="Shore"><path id="bank" d="M0 130 L0 40 Q140 -40 280 60 L280 130 Z"/><circle id="moon" cx="340" cy="50" r="30"/></g>
</svg>`;
const plywood = { id: 'Sheet', species: 'birch', thickness: 6, sheet: '5x5', price: 45 };
const job = (change: object) =>
  readJob(JSON.stringify({ pattern: 'shore.svg', sets: 8, effort: 0, saw: { throat: '16 in' }, ...change }));
const THROAT = 406.4;

describe('a sheet wider than the throat', () => {
  it('is ripped into strips whose sections turn in it', async () => {
    const result = await runJob(job({ boards: [plywood] }), SVG);
    const { layout, verification, issues } = result;
    expect(verification.breaches).toEqual([]);
    expect(layout.figures.completeSets).toBe(8);
    expect(issues.map(({ kind }) => kind)).toContain('board-to-rip');
    expect(issues.map(({ kind }) => kind)).not.toContain('part-beyond-throat');
    expect(layout.boards[0]).toMatchObject({ id: 'Sheet-1a', stock: 'Sheet' });
    for (const { usable, sections = [], placements } of layout.boards) {
      const { minY, maxY } = boundsOf(usable.outline);
      const boxes = placements.map(({ region }) => boundsOf(region.outline));
      // What is left at the end carries nothing and is not turned.
      const sawn = sections.filter(({ from, to }) =>
        boxes.some(({ minX, maxX }) => minX < to && maxX > from),
      );
      expect(sawn.length).toBeGreaterThan(1);
      for (const { from, to } of sawn) {
        expect(Math.hypot(to - from, maxY - minY)).toBeLessThanOrEqual(THROAT);
      }
    }
  });

  it('is told with its strips and lengths, and with "strips" to say where the maker has not', async () => {
    const told = async (change: object) => {
      const board = { ...plywood, ...change };
      const { issues } = await runJob(job({ unit: 'mm', sets: 1, boards: [board] }), SVG);
      return issues.flatMap(({ kind, message, remedy }) =>
        kind === 'board-to-rip' ? [message, remedy] : [],
      );
    };
    expect(await told({})).toEqual([
      'each board of "Sheet" is ripped into 6 strips 251.5 mm wide before it is cross-cut',
      'Strips are lettered from the top edge. Say "strips" of the board for another number of them.',
    ]);
    expect(await told({ strips: 8, lengths: 5 })).toEqual([
      'each board of "Sheet" is ripped into 8 strips 187.8 mm wide, each in 5 lengths of 302.5 mm, before it is cross-cut',
      'Lengths are lettered from the left end, one strip after the other from the top edge.',
    ]);
  });

  it('gives the rack its other strips, and the sheets that are still whole', async () => {
    const rack = JSON.stringify({ boards: [{ ...plywood, quantity: 3 }] });
    const { layout, batch } = await runJob(job({ rack: 'rack.json', sets: 12 }), SVG, {
      files: { 'rack.json': rack },
    });
    const strips = layout.boards[0].strips!;
    const name = { design: 'Shore', sets: 12, date: undefined };
    const after = readRack(rackAfter(rack, layout, batch.boards, name));
    const [whole, rest] = after.boards;
    expect(whole).toMatchObject({ id: 'Sheet', quantity: 2 });
    expect(rest).toMatchObject({ quantity: strips - layout.boards.length, sheet: true, from: 'Sheet' });
    expect(rest.price).toBeCloseTo(45 / strips, 2);
    expect(after.lastBatch?.used).toEqual([{ id: 'Sheet', boards: 1 }]);
  });

  it('is bought whole', async () => {
    const small = { id: 'Rest', species: 'birch', thickness: 6, length: 100, width: 80 };
    const { purchase } = await runJob(job({ boards: [small], forSale: [plywood], sets: 12 }), SVG);
    expect(purchase).toMatchObject({ completes: true, items: [{ id: 'Sheet', boards: 1, price: 45 }] });
  });

  it('stays whole when the maker says so, or has measured on it', () => {
    const { pattern } = readPattern(SVG, job({ boards: [plywood] }).pattern);
    const boards = (change: object) =>
      batchFromJob(job(change), pattern, 'job.json').batch.boards.map(({ strips }) => strips);
    expect(boards({ boards: [{ ...plywood, strips: 1 }] })).toEqual([undefined]);
    expect(boards({ boards: [{ ...plywood, strips: 9 }] })).toEqual([9]);
    const pinned = [{ layer: 'Shore', part: 'bank', board: 'Sheet', at: [10, 900] }];
    expect(boards({ boards: [plywood], pinned })).toEqual([undefined]);
    expect(boards({ boards: [plywood], saw: {} })).toEqual([undefined]);
  });

  describe('with a pinned part', () => {
    const { pattern } = readPattern(SVG, job({ boards: [plywood] }).pattern);
    const strips = { ...plywood, quantity: 2, strips: 7 };
    const pinned = (pin: object, boards: object[] = [strips]) => {
      const full = { layer: 'Shore', part: 'moon', at: [10, 20], ...pin };
      return batchFromJob(job({ boards, pinned: [full] }), pattern, 'job.json');
    };

    it('counts strips, and measures from the corner of the strip', async () => {
      const change = {
        boards: [strips],
        pinned: [{ layer: 'Shore', part: 'moon', board: 'Sheet', number: 9, at: [10, 20] }],
      };
      const { layout, verification } = await runJob(job({ sets: 1, ...change }), SVG);
      expect(verification.breaches).toEqual([]);
      const moons = layout.boards.flatMap(({ id, placements }) =>
        placements.filter(({ part }) => part === 'moon').map(({ region }) => [id, boundsOf(region.outline)]),
      );
      const box = expect.objectContaining({ minX: expect.closeTo(10, 3), minY: expect.closeTo(20, 3) });
      expect(moons).toEqual([['Sheet-2b', box]]);
    });

    it.each([
      [{ board: 'Sheet-2b' }, [strips], { board: 'Sheet', number: 9 }],
      [{ board: 'Sheet-2b', number: 9 }, [strips], { board: 'Sheet', number: 9 }],
      // Ripped unasked, for it is not the whole sheet that was measured on.
      [{ board: 'Sheet-1b' }, [plywood], { board: 'Sheet', number: 2 }],
      [{ board: 'Sheet-1' }, [{ ...plywood, strips: 1 }], { board: 'Sheet', number: 1 }],
    ])('takes the printed name %o', (pin, boards, expected) => {
      const { batch, issues } = pinned(pin, boards);
      expect([batch.pins, issues]).toMatchObject([[expected], []]);
    });

    it.each([
      [{ board: 'Sheet', number: 15 }, 'pinned[0].number', 'the stock has not so many strips of this board'],
      [{ board: 'Sheet-3a' }, 'pinned[0].board', 'there is no such board at hand'],
      [{ board: 'Sheet-2b', number: 2 }, 'pinned[0].board', 'there is no such board at hand'],
      [
        { board: 'Sheet', at: [10, 180] },
        'pinned[0]',
        'the part lies off the strip, or too near its edge or a defect',
      ],
    ])('refuses %o', (pin, field, message) => {
      expect(pinned(pin).issues).toMatchObject([{ kind: 'pin-invalid', message, where: { field } }]);
    });
  });

  it('is ripped for the parts that it gives the thickness of', () => {
    // A narrow board that is too thin for the part is no place for it: the wide one is ripped all the same.
    const { pattern } = readPattern(SVG, job({ boards: [plywood] }).pattern);
    const wide = { id: 'Wide', species: 'birch', thickness: 6, length: 900, width: 380 };
    const thin = { id: 'Thin', species: 'birch', thickness: 3, length: 600, width: 150 };
    const strips = (boards: object[], layer: object) =>
      batchFromJob(
        job({ boards, layers: { Shore: { thickness: 6, ...layer } }, saw: { throat: 380 } }),
        pattern,
        'job.json',
      ).batch.boards.map((board) => board.strips);
    expect(strips([wide], {})).toEqual([2]);
    expect(strips([wide, thin], {})).toEqual([2, undefined]);
    // For what it is too thin for it is not ripped.
    const thinWide = { ...wide, id: 'Thin wide', thickness: 3, width: 300 };
    expect(strips([{ ...wide, width: 190 }, thinWide], {})).toEqual([undefined, undefined]);
  });

  it('is refused in strips that cannot be handled, and in strips of what is no plain rectangle', () => {
    const { pattern } = readPattern(SVG, job({ boards: [plywood] }).pattern);
    const { issues } = batchFromJob(job({ boards: [{ ...plywood, strips: 40 }] }), pattern, 'job.json');
    expect(issues).toMatchObject([{ kind: 'strips-too-narrow', where: { board: 'Sheet' } }]);
    const wide = { unit: 'mm', boards: [{ ...plywood, strips: 40 }], crosscutKerf: 100 };
    expect(batchFromJob(job(wide), pattern, 'job.json').issues).toMatchObject([
      { kind: 'strips-too-narrow', received: '0 mm' },
    ]);
    const knot = { at: [100, 100], diameter: 20 };
    expect(() => job({ boards: [{ ...plywood, strips: 2, defects: [knot] }] })).toThrow(/boards\[0\].strips/);
    expect(() => job({ boards: [{ ...plywood, strips: 2, trim: { topEdge: 5 } }] })).toThrow(
      /boards\[0\].strips/,
    );
    expect(() => job({ boards: [{ ...plywood, strips: 2, trim: { ends: 5 } }] })).not.toThrow();
    expect(() => job({ boards: [{ ...plywood, lengths: 2, trim: { ends: 5 } }] })).toThrow(
      /boards\[0\].lengths/,
    );
  });

  it('is cut to lengths that its parts fit, and refused in lengths that cannot be handled', () => {
    const { pattern } = readPattern(SVG, job({ boards: [plywood] }).pattern);
    const cut = (change: object) =>
      batchFromJob(job({ unit: 'mm', boards: [{ ...plywood, ...change }] }), pattern, 'job.json');
    // Fifths of 1,525 mm are 302.46 mm long. By Pythagoras strips as wide as that turn in 271 mm of length, in which the
    // bank of 280 mm has no room, and sixths of 251.5 mm in all of it.
    const blank = ({ batch }: ReturnType<typeof cut>) => {
      const [{ strips, lengths, outline, quantity }] = batch.boards;
      return [strips, lengths, quantity, boundsOf(outline).maxX];
    };
    expect(blank(cut({ lengths: 5 }))).toEqual([6, 5, 30, 302.46]);
    expect(cut({ lengths: 30 }).issues).toContainEqual(
      expect.objectContaining({ kind: 'lengths-too-short', received: '47.8 mm' }),
    );
    const knot = { at: [100, 100], diameter: 20 };
    expect(() => cut({ lengths: 2, defects: [knot] })).toThrow(/boards\[0\].lengths/);
  });
});

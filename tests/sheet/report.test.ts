import { describe, expect, test } from 'vitest';
import { boardPicture } from '../../src/sheet/report/board-picture.ts';
import { drawReport } from '../../src/sheet/report/report.ts';
import { PLAIN_WOOD } from '../../src/sheet/report/wood-looks.ts';
import { box, HOSTILE_NAMES, handBoard, handLayout, placed } from './hand-layout.ts';

const OPTIONS = { job: 'lake-shore.json', design: 'Lake shore', date: '2024-05-04', unit: 'mm' } as const;

/** Names of the tags in a page, in order, and of all their attributes. */
function markup(page: string): { tags: string[]; attributes: Set<string> } {
  const tags: string[] = [];
  const attributes = new Set<string>();
  for (const [, name, rest] of page.matchAll(/<([a-zA-Z!][\w-]*)((?:[^<>"]|"[^"]*")*)>/g)) {
    tags.push(name.toLowerCase());
    for (const [, attribute] of rest.matchAll(/([\w:-]+)="/g)) attributes.add(attribute);
  }
  return { tags, attributes };
}

function cells(page: string, caption: string): string[][] {
  const table = page.slice(page.indexOf(`<caption>${caption}</caption>`)).split('</table>')[0];
  return [...table.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row]) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => cell.replace(/<[^>]*>/g, '')),
  );
}

describe('the report', () => {
  test('reads as it did', async () => {
    const issues = [
      { kind: 'text-left-out', severity: 'warning', message: 'a text was left out.', remedy: 'Outline it.' },
    ] as const;
    await expect(drawReport(handLayout(), { ...OPTIONS, issues })).toMatchFileSnapshot(
      './snapshots/report.html.snap',
    );
  });

  test('counts parts: placed by copies of boards, missing, and what the blade travels', () => {
    const layout = handLayout({ boards: [handBoard({ copies: 2 })] });
    const rows = cells(drawReport(layout, OPTIONS), 'Parts for 3 sets');
    expect(rows.length).toBe(6);
    // A peg of 4 x 9 mm: 26 mm around, on two boards alike.
    expect(rows[4]).toEqual(['4', 'Figures', 'peg', '1', '2', '0', '0', '26 mm', '0.05 m']);
    expect(rows[5].slice(0, 7)).toEqual(['5', 'Figures', 'ring', '1', '2', '1', '1']);
  });

  test('tells all that is done to a board before, however much that is and however long its wood is called', () => {
    const trimmed = { topEdge: 5, straightEdge: 4, leftEnd: 10, rightEnd: 7 };
    const outline = box(-10, -5, 317, 129);
    const usable = { outline: box(0, 0, 300, 120), openings: [] };
    const board = handBoard({
      ...{ copies: 2, outline, usable, trimmed, planeTo: 6.35, strips: 3, slices: 2 },
      species: `sugar ${'maple '.repeat(40)}`,
    });
    const page = drawReport(handLayout({ boards: [board] }), OPTIONS);
    const [, caption] = page.match(/<figcaption>(.*?)<\/figcaption>/) ?? [];
    for (const words of [
      'sugar maple maple',
      '317 mm x 129 mm',
      'rip the whole board into 3 strips 129 mm wide, then resaw into 2 slices, plane each to 6.35 mm, then trim 5 mm off',
      'then trim 7 mm off the right end.',
    ])
      expect(caption).toContain(words);
  });

  test('numbers of small parts do not run into one another: the roomier one stands', () => {
    // On a picture of 300 mm, numbers are at least 2.5 mm high and 2.8 mm wide: these two boxes are 2.1 mm apart in the middle.
    const outlines = [box(100, 20, 1.5, 8), box(102, 20, 1.8, 8), box(150, 20, 20, 20), box(102, 40, 1.5, 8)];
    const placements = outlines.map((outline, i) =>
      placed({ part: `${i + 11}`, region: { outline, openings: [] } }),
    );
    const board = handBoard({ placements });
    const { marks } = boardPicture(board, PLAIN_WOOD, ({ part }) => Number(part));
    expect(marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))).toEqual(['12', '13', '14']);
  });

  test('shows figures by species and in all', () => {
    const rows = cells(drawReport(handLayout(), OPTIONS), 'By species');
    expect(rows[1]).toEqual(['sugar maple', '1', '5', '3', '25.3 %', '0.29', '1.23 m']);
    expect(rows[2].slice(1)).toEqual(rows[1].slice(1));
    expect(drawReport(handLayout(), { ...OPTIONS, unit: 'in' })).toContain('4.1 ft');
    const [alone, stacked] = [1, 2].map((copies) =>
      drawReport(handLayout({ boards: [handBoard({ copies })] }), OPTIONS),
    );
    expect(alone).toContain('edges that lie on the edge of a board among them.');
    expect(stacked).toContain('the parts of a stack count each, though one cut saws all its boards.');
  });

  test('lists what found no place, with the reason', () => {
    const rows = cells(drawReport(handLayout(), OPTIONS), 'Copies that found no place');
    expect(rows[1]).toEqual(['Figures', 'ring', '1', '1', 'no board of sugar maple has room left']);
    expect(drawReport(handLayout({ unplaced: [] }), OPTIONS)).toContain('Nothing: every part has its place.');
  });

  test('draws missing copies of a part together, and tells them once', () => {
    const missing = (part: string, sets: number[], why: string) =>
      sets.map((set) => ({ part, layer: 'Figures', set, why }));
    const unplaced = [
      ...missing('ring', [25, 24, 2], 'no room'),
      ...missing('peg', [7], 'no room'),
      ...missing('ring', [3], 'too large'),
    ];
    const issues = [
      {
        kind: 'copies-unplaced',
        severity: 'warning',
        message: '3 copies found no place',
        remedy: 'Add stock.',
      },
      { kind: 'batch-incomplete', severity: 'warning', message: 'an incomplete batch' },
      { kind: 'other', severity: 'note', message: 'something else' },
    ] as const;
    const page = drawReport(handLayout({ unplaced }), { ...OPTIONS, issues });
    expect(cells(page, 'Copies that found no place').slice(1)).toEqual([
      ['Figures', 'ring', '3', '2, 24 to 25', 'no room'],
      ['Figures', 'peg', '1', '7', 'no room'],
      ['Figures', 'ring', '1', '3', 'too large'],
    ]);
    expect(page).not.toContain('3 copies found no place');
    expect(page).not.toContain('an incomplete batch');
    expect(page).toContain('<p>Add stock.</p>');
    expect(page).toContain('something else');
  });

  test('says at the top how much of the batch is whole, and what is cut beyond that', () => {
    const layout = handLayout();
    const perSet = layout.setContents.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
    const figures = { ...layout.figures, completeSets: 2, parts: 2 * perSet + 3 };
    const body = (fields: Partial<typeof layout>) =>
      drawReport({ ...layout, ...fields }, OPTIONS).split('<body>')[1];
    const page = body({ figures });
    expect(page.indexOf('2 of 3 sets complete')).toBeLessThan(page.indexOf('<h1>'));
    expect(page).toMatch(/\b3 parts cut beyond them .* Ask for 2 sets to cut no more/);
    expect(body({ figures: { ...figures, completeSets: 3 } })).not.toContain('beyond them');
    expect(body({ figures: { ...figures, completeSets: 0 } })).toContain('No piece can be finished');
  });

  test('says first of all not to cut when the independent check failed', () => {
    expect(drawReport(handLayout(), OPTIONS)).not.toContain('Do not cut');
    const page = drawReport(handLayout(), { ...OPTIONS, breaches: 1 });
    const body = page.slice(page.indexOf('<body>'));
    expect(body.indexOf('Do not cut from this layout')).toBeGreaterThan(0);
    expect(body.indexOf('Do not cut from this layout')).toBeLessThan(body.indexOf('<h1>'));
    expect(body).toContain('found 1 broken rule;');
  });

  test('lists errors before warnings before notes', () => {
    const issues = (['note', 'error', 'warning', 'error'] as const).map(
      (severity, i) => ({ kind: 'test', severity, message: `issue ${i}` }) as const,
    );
    const page = drawReport(handLayout(), { ...OPTIONS, issues });
    expect([...page.matchAll(/issue (\d)/g)].map(([, i]) => i)).toEqual(['1', '3', '2', '0']);
  });

  test('needs no network and has no script', () => {
    const page = drawReport(handLayout(), OPTIONS);
    const { tags, attributes } = markup(page);
    for (const tag of ['script', 'link', 'img', 'iframe', 'object', 'embed', 'a'])
      expect(tags).not.toContain(tag);
    for (const attribute of ['href', 'src', 'srcset', 'onload'])
      expect(attributes.has(attribute)).toBe(false);
    expect(page).not.toMatch(/url\(|@import/);
    expect(page).toContain('default-src &#39;none&#39;');
  });

  test('can be read without seeing it: language, table heads, titles of pictures, unique ids', () => {
    const page = drawReport(handLayout({ boards: [handBoard(), handBoard({ id: 'maple-2' })] }), OPTIONS);
    expect(page).toContain('<html lang="en">');
    expect(page.match(/<th scope="(col|row)"/g)?.length).toBe(page.match(/<th[ >]/g)?.length);
    expect(
      page.match(/<svg [^>]*role="img" aria-labelledby="board-\d-title board-\d-description"/g)?.length,
    ).toBe(2);
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('hostile names end up as text, in every field', () => {
    const plain = drawReport(handLayout(), { ...OPTIONS, issues: [issue('x')] });
    // Long names may be broken.
    const known = new Set([...markup(plain).tags, 'wbr']);
    for (const name of HOSTILE_NAMES) {
      const layout = handLayout({
        boards: [handBoard({ id: name, species: name })],
        unplaced: [{ part: name, layer: name, set: 1, why: name }],
        figures: { ...handLayout().figures, bySpecies: { [name]: handLayout().figures } },
      });
      const page = drawReport(layout, {
        job: name,
        design: name,
        date: name,
        unit: 'mm',
        issues: [issue(name)],
      });
      const { tags, attributes } = markup(page);
      expect(tags.filter((tag) => !known.has(tag))).toEqual([]);
      expect([...attributes].filter((attribute) => attribute.startsWith('on'))).toEqual([]);
    }
  });

  test('is the same byte for byte when written again', () => {
    expect(drawReport(handLayout(), OPTIONS)).toBe(drawReport(handLayout(), OPTIONS));
  });
});

/** WCAG 2.2, success criterion 1.4.6: contrast of text of at least 7 to 1; relative luminance as defined there. */
test('text has a contrast of at least 7 to 1 in light and dark', () => {
  const page = drawReport(handLayout(), OPTIONS);
  const schemes = [
    ...page.matchAll(/--ink: (#\w+); --paper: (#\w+); --quiet: (#\w+); --rule: #\w+; --band: (#\w+)/g),
  ];
  expect(schemes.length).toBe(3);
  for (const [, ink, paper, quiet, band] of schemes) {
    for (const text of [ink, quiet]) {
      for (const ground of [paper, band]) expect(contrast(text, ground)).toBeGreaterThanOrEqual(7);
    }
    expect(contrast(ink, paper)).toBeGreaterThanOrEqual(7);
  }
});

function issue(message: string) {
  return { kind: 'test', severity: 'warning', message, where: { element: message, file: message } } as const;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((p, q) => q - p);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const digits =
    colour.length === 4 ? [...colour.slice(1)].map((d) => d + d) : (colour.slice(1).match(/../g) ?? []);
  const [r, g, b] = digits.map((pair) => {
    const c = Number.parseInt(pair, 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

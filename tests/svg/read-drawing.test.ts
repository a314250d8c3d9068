import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { textOfBytes, tryReadDrawingBytes } from '../../src/svg/read-bytes.ts';
import { readDrawing, tryReadDrawing } from '../../src/svg/read-drawing.ts';
import { filledArea, groupsOf, page, paintedBounds, paintedShapes, readClean } from './drawn.ts';

describe('doors', () => {
  test('readDrawing throws all issues where tryReadDrawing returns them', () => {
    const broken = '<svg>\n  <g>\n</svg>';
    const { drawing, issues } = tryReadDrawing(broken, { file: 'leaf.svg' });
    expect(drawing).toBeUndefined();
    expect(issues[0].where).toEqual({ file: 'leaf.svg', line: 3, column: 7 });
    try {
      readDrawing(broken, { file: 'leaf.svg' });
      expect.unreachable();
    } catch (error) {
      if (!(error instanceof FretlayError)) throw error;
      expect(error.issues).toEqual(issues);
      expect(error.message).toContain('leaf.svg:3:7: the file is not well-formed XML');
    }
  });

  test('an issue names element and line, counted from the first byte', () => {
    const { issues } = tryReadDrawing(
      `\n\n<svg width="1in" height="1in">\n\n<text\n id="title">x</text></svg>`,
    );
    expect(issues.find(({ kind }) => kind === 'text-left-out')?.where).toEqual({
      file: 'drawing',
      line: 5,
      element: '<text id="title">',
    });
  });

  test('what is used a hundred times is reported once', () => {
    const { issues } = tryReadDrawing(page(`<g id="a"><text>x</text></g>${'<use href="#a"/>'.repeat(100)}`));
    expect(issues.map(({ kind }) => kind)).toEqual(['text-left-out']);
  });
});

describe('scale', () => {
  const square = '<svg width="90" height="90"><rect width="90" height="90"/></svg>';

  test('pixels per inch is 96 unless the caller knows an older pixel', () => {
    expect(filledArea(readDrawing(square).drawing)).toBeCloseTo((90 * 25.4) ** 2 / 96 ** 2, 2);
    const older = readDrawing(square, { pixelsPerInch: 90 });
    expect(filledArea(older.drawing)).toBeCloseTo(25.4 ** 2, 2);
    expect(older.drawing.page?.width).toBeCloseTo(25.4, 9);
  });

  test('the hint of an older pixel is silent once it is taken', () => {
    const a4 = '<svg width="744.09" height="1052.36"><rect width="90" height="90"/></svg>';
    expect(readDrawing(a4).issues[0].message).toContain('1.0667');
    expect(readDrawing(a4, { pixelsPerInch: 90 }).issues).toEqual([]);
  });

  test('a physical page is not moved by the size of a pixel', () => {
    const inMm = page('<rect width="10mm" height="10"/>');
    expect(paintedBounds(readDrawing(inMm, { pixelsPerInch: 72 }).drawing).maxY).toBeCloseTo(10, 9);
  });

  test('the drawn size gives a scale to a drawing that has none, and overrules a wrong one', () => {
    const none = '<svg viewBox="0 0 50 25"><rect width="50" height="25"/></svg>';
    expect(readDrawing(none).issues.map(({ kind }) => kind)).toEqual(['size-not-stated']);
    const sized = readDrawing(none, { drawnSize: { width: 300 } });
    expect(sized.issues).toEqual([]);
    expect(sized.drawing.page).toEqual({ width: 300, height: 150 });
    const { maxX, maxY } = paintedBounds(sized.drawing);
    expect([maxX, maxY]).toEqual([expect.closeTo(300, 9), expect.closeTo(150, 9)]);
    const wrong = '<svg width="100" height="50"><rect width="100" height="50"/></svg>';
    expect(paintedBounds(readDrawing(wrong, { drawnSize: { height: 200 } }).drawing).maxX).toBeCloseTo(
      400,
      9,
    );
  });
});

describe('names and layers', () => {
  const drawing = readClean(
    `<g id="l1" x:label="Lake &amp; shore" x:groupmode="layer" y:insensitive="true"><g id="in"/></g>
     <g id="Back_x0020_hills" display="none"><rect id="r" width="1" height="1"><title> far  hill </title></rect></g>
     <g data-name="Pine &#x201c;a&#x201d;" aria-label="second"/><a id="link"><path d="M0 0h1v1z" aria-label="bark"/></a>`,
  );
  const groups = groupsOf(drawing.root);

  test('labels under any prefix, layers, locks, hidden groups', () => {
    expect(
      groups.map(({ id, label, isLayer, locked, visible }) => [id, label, isLayer, locked, visible]),
    ).toEqual([
      [undefined, undefined, false, false, true],
      ['l1', 'Lake & shore', true, true, true],
      ['in', undefined, false, false, true],
      ['Back_x0020_hills', 'Back hills', false, false, false],
      [undefined, 'Pine \u201ca\u201d', false, false, true],
      ['link', undefined, false, false, true],
    ]);
  });

  test('are those that were typed, where the program writes them as ids that are no names', () => {
    const typed = readClean(
      `<g xmlns:serif="s" id="Back-hills" serif:id="Back hills"/><g id="_01" xmlns:serif="s" serif:id="01" data-name=""/>`,
    );
    expect(groupsOf(typed.root).map(({ label }) => label)).toEqual([undefined, 'Back hills', '01']);
  });

  test('a hidden group keeps its shapes, for those who switch it on', () => {
    const hidden = groups[3].children[0];
    expect(hidden.kind === 'shape' && [hidden.label, hidden.element]).toEqual(['far hill', '<rect id="r">']);
    expect(paintedShapes(drawing.root).map(({ label }) => label)).toEqual(['bark']);
  });
});

test('the account says of every element what it became or why not', () => {
  const { drawing } = readDrawing(
    page(`<defs><rect id="d" width="1" height="1"/></defs><use href="#d"/><x:data/>
<g><path d=""/><path fill="none" d="M0 0h1"/><text>x</text></g>`),
  );
  expect(drawing.account).toEqual([
    { element: '<svg>', line: 1, became: 'group', why: undefined },
    { element: '<defs>', line: 1, became: 'nothing', why: 'a definition: painted only where it is used' },
    { element: '<use>', line: 1, became: 'group', why: undefined },
    { element: '<rect id="d">', line: 1, became: 'shape', why: undefined },
    { element: '<x:data>', line: 1, became: 'nothing', why: "a drawing program's own data, not SVG" },
    { element: '<g>', line: 2, became: 'group', why: undefined },
    { element: '<path>', line: 2, became: 'nothing', why: 'it has no extent' },
    { element: '<path>', line: 2, became: 'nothing', why: 'neither filled nor stroked' },
    { element: '<text>', line: 2, became: 'nothing', why: 'text has no outline without its font' },
  ]);
});

test('copies of one shape are found by the use that draws each', () => {
  const shapes = paintedShapes(
    readClean(`<g id="pair"><path id="loon" d="M0 0h1v1z"/></g>
<use id="second" href="#loon" x="3"/>
<use href="#pair" x="6"/>`).root,
  );
  expect(shapes.map(({ element, line }) => [element, line])).toEqual([
    ['<path id="loon">', 1],
    ['<path id="loon"> in <use id="second">', 2],
    ['<path id="loon"> in <use>', 3],
  ]);
});

describe('paint', () => {
  test('colours as written, line width in mm under scaling', () => {
    const [shape] = paintedShapes(
      readClean(
        '<g transform="scale(4 9)"><path d="M0 0h1v1z" fill="#ABC" stroke="Red" stroke-width="0.5"/></g>',
      ).root,
    );
    expect([shape.fill, shape.stroke, shape.fillRule]).toEqual(['#ABC', 'Red', 'nonzero']);
    expect(shape.strokeWidth).toBeCloseTo(0.5 * 6, 9);
  });

  test.each([
    ['transparent', '1'],
    ['rgba(1, 2, 3, 0)', '1'],
    ['rgb(1 2 3 / 0%)', '1'],
    ['#12345600', '1'],
    ['#1230', '1'],
    ['red', '0'],
    ['red', '0%'],
  ])('fill %s with fill-opacity %s paints nothing', (fill, opacity) => {
    const svg = `<path d="M0 0h1v1z" fill="${fill}" fill-opacity="${opacity}"/>`;
    expect(paintedShapes(readClean(svg, ['shape-not-shown']).root)).toEqual([]);
  });

  test.each(['rgba(1, 2, 3, 0.01)', 'rgb(1 2 3 / 1%)', '#12345601', '#1231', 'hsl(0 0% 0%)', 'rgb(0, 0, 0)'])(
    'fill %s paints',
    (fill) => {
      expect(paintedShapes(readClean(`<path d="M0 0h1v1z" fill="${fill}"/>`).root)).toHaveLength(1);
    },
  );
});

test('em and rem are of the font size of the element and of the root, whose own page may be measured in them', () => {
  const { drawing } = readDrawing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="10em" height="10rem" style="font-size:9.6px">
      <g font-size="20"><rect width="1em" height="1rem"/></g></svg>`,
  );
  expect(drawing.page).toEqual({ width: 25.4, height: 25.4 });
  const [{ segments }] = paintedShapes(drawing.root)[0].curves;
  expect(segments[1].to[0] / (25.4 / 96)).toBeCloseTo(20, 9);
  expect(segments[1].to[1] / (25.4 / 96)).toBeCloseTo(9.6, 9);
});

test('keywords in capitals hide and show, and a text that is hidden is not missed', () => {
  const { drawing, issues } = tryReadDrawing(
    page('<text visibility="VISIBLE">a</text><rect visibility="HIDDEN" width="9" height="9"/>'),
  );
  expect(issues.map(({ kind }) => kind)).toEqual(['text-left-out', 'shape-not-shown']);
  expect(paintedShapes(drawing!.root)).toEqual([]);
});

describe('bytes', () => {
  const text = page('<g id="H\u00e4userzeile"><rect width="10" height="10"/></g>');

  test.each([
    ['UTF-8', Buffer.from(text)],
    ['UTF-8 with a byte order mark', Buffer.from(`\ufeff${text}`)],
    ['UTF-16', Buffer.from(`\ufeff${text}`, 'utf16le')],
    ['UTF-16, the high byte first', Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    ['UTF-16 without a mark', Buffer.from(text, 'utf16le')],
    ['UTF-16 without a mark, the high byte first', Buffer.from(text, 'utf16le').swap16()],
    ['Latin-1 as declared', Buffer.from(`<?xml version="1.0" encoding="ISO-8859-1"?>${text}`, 'latin1')],
    ['UTF-8 that says it is UTF-16', Buffer.from(`<?xml version="1.0" encoding="UTF-16"?>${text}`)],
    ['compressed', gzipSync(text)],
  ])('%s', async (_, bytes) => {
    const { drawing, issues } = await tryReadDrawingBytes(bytes);
    expect(issues).toEqual([]);
    expect(drawing?.root.children[0].id).toBe('H\u00e4userzeile');
  });

  test('bytes that are no UTF-8 are refused where nothing says what they are, with their place', async () => {
    // The degree sign before the stray byte is two bytes of one letter.
    const bytes = Buffer.concat([Buffer.from(`${page('')}\n \u00b0`), Buffer.from('F\u00f6hre', 'latin1')]);
    const { issues } = await tryReadDrawingBytes(bytes, { file: 'a.svg' });
    expect(issues.map(({ kind, where }) => [kind, where])).toEqual([
      ['text-not-utf8', { file: 'a.svg', line: page('').split('\n').length + 1, column: 4 }],
    ]);
    expect(issues[0].received).toContain('F6 (hexadecimal), which is \u00f6');
    expect(issues[0].remedy).toContain('encoding="ISO-8859-1"');
    await expect(textOfBytes(Buffer.from('{"design": "F\u00f6hre"}', 'latin1'), 'job.json')).rejects.toThrow(
      /job.json.*save it in the encoding UTF-8\.$/,
    );
    const compressed = Uint8Array.of(0x50, 0x4b, 3, 4, 0xff, 0xfe);
    await expect(textOfBytes(compressed, 'job.docx')).rejects.toThrow(/a document of a word processor/);
  });

  test('UTF-32 is told by its name, and a byte of 0 by its number', async () => {
    // Each letter of ASCII with three zeros behind or before it; the marks are those of XML 1.0, appendix F.1.
    const letters = [...'<svg/>'].map((letter) => letter.charCodeAt(0));
    const low = Uint8Array.from(letters.flatMap((letter) => [letter, 0, 0, 0]));
    const high = Uint8Array.from(letters.flatMap((letter) => [0, 0, 0, letter]));
    for (const bytes of [
      low,
      high,
      Buffer.from([0xff, 0xfe, 0, 0, ...low]),
      Buffer.from([0, 0, 0xfe, 0xff, ...high]),
    ])
      await expect(textOfBytes(bytes, 'a.svg')).rejects.toThrow(
        /^a\.svg: the file is in UTF-32.*save it in the encoding UTF-8\.$/,
      );
    const { issues } = await tryReadDrawingBytes(Buffer.from('<svg>\n <g id="\0"/></svg>'), {
      file: 'a.svg',
    });
    expect(issues[0]).toMatchObject({ kind: 'svg-malformed', where: { line: 2, column: 10 } });
    expect(issues[0].received).toContain('a byte of 0 (U+0000)');
    const { issues: other } = await tryReadDrawingBytes(Buffer.from('<svg>\u0007</svg>'));
    expect(other[0].received).toBe('U+0007');
  });

  test('a picture and a document of pages are told as that, and no byte as a letter that is none', async () => {
    const png = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
    await expect(textOfBytes(png, 'a.png')).rejects.toThrow(/^a\.png: this is a picture \(PNG\).*as SVG/);
    const jpeg = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0);
    await expect(textOfBytes(jpeg, 'a.jpg')).rejects.toThrow('this is a picture (JPEG)');
    const pdf = Buffer.from('%PDF-1.7\n\u00e2\u00e3', 'latin1');
    await expect(textOfBytes(pdf, 'a.pdf')).rejects.toThrow('this is a document of pages (PDF)');
    const stray = Uint8Array.of(0x81);
    await expect(textOfBytes(stray, 'a.svg')).rejects.toThrow('found the byte 81 (hexadecimal))');
  });

  test('a broken compressed file is refused with a typed error', async () => {
    const whole = gzipSync(text);
    for (const bytes of [whole.subarray(0, 40), Buffer.concat([whole.subarray(0, 2), Buffer.alloc(30, 7)])]) {
      const { drawing, issues } = await tryReadDrawingBytes(bytes, { file: 'a.svgz' });
      expect(drawing).toBeUndefined();
      expect(issues.map(({ kind, where }) => [kind, where?.file])).toEqual([['svgz-broken', 'a.svgz']]);
    }
  });
});

test('shapes that do not show are told once for each layer and reason, but not again in a group that is switched off', () => {
  const { issues } = tryReadDrawing(
    page(`<g id="sky"><path d="M0 0h1v1z" display="none"/><path d="M0 0h1v1z" opacity="0"/>
      <g><path d="M0 0h1v1z" fill="none"/><path d=""/></g></g>
      <g id="hills" visibility="hidden"><rect width="1" height="1"/></g>
      <g id="off" display="none"><path d="M0 0h1v1z" fill="none"/></g>`),
  );
  expect(issues.map(({ kind, severity, message }) => [kind, severity, message])).toEqual([
    ['shape-not-shown', 'note', 'this shape and 1 more of "sky" are not shown and left out: switched off'],
    ['shape-not-shown', 'note', 'this shape of "sky" is not shown and left out: neither filled nor stroked'],
    ['shape-not-shown', 'note', 'this shape of "hills" is not shown and left out: hidden'],
  ]);
});

test('a copied shape is a shape beside the layers, under the name of the copy; one that is switched off is not', () => {
  const { root } =
    readClean(`<defs><path id="reed" d="M0 0h1v1z"/></defs><g id="hills"><path d="M0 0h9v1z"/></g>
<use href="#reed" x="3" aria-label="tall reed"/><use id="again" href="#reed"/><use href="#again" x="6"/>
<use href="#reed" display="none"/>`);
  expect(
    root.children.map((node) => (node.kind === 'shape' ? (node.label ?? node.id) : node.visible)),
  ).toEqual([true, 'tall reed', 'reed', 'reed', false]);
});

test('a viewBox written in small letters is ignored, and told', () => {
  const { drawing, issues } = readDrawing(
    '<svg xmlns="http://www.w3.org/2000/svg" width="96px" height="96px" viewbox="0 0 9.6 9.6"><rect width="9.6" height="9.6"/></svg>',
  );
  expect(issues.find(({ kind }) => kind === 'attribute-ignored')).toMatchObject({
    severity: 'warning',
    expected: 'viewBox',
    received: 'viewbox',
  });
  // 9.6 px of 25.4 / 96 mm.
  expect(paintedBounds(drawing).maxX).toBeCloseTo(2.54, 9);
});

test('attributes in wrong capitals are told once with the right ones, those that hold nothing or stand beside it are not', () => {
  const { issues } = readDrawing(
    page(`<g Transform="scale(2)"><path D="M0 0h9v9z"/><path D="M0 0h9v9z" Fill="none" stroke="red"/>
<path d="M0 0h9v9z" D="M0 0" Id="hull" Rotate="9" inkscape:Label="mast" Onclick="" stroke="none" STROKE="red"/></g>
<text X="3">Lake</text><metadata Width="9"/>`),
  );
  const told = issues.filter(({ kind }) => kind === 'attribute-ignored');
  expect(
    told.map(({ message, expected, where }) => [message.split(':')[0], expected, where?.element]),
  ).toEqual([
    ['Transform is ignored', 'transform', '<g>'],
    ['D is ignored on 2 elements, this one first', 'd', '<path>'],
    ['Fill is ignored', 'fill', '<path>'],
    ['Id is ignored', 'id', '<path>'],
  ]);
});

test('dashed lines are told once, those that are switched off, filled or not dashed at all are not', () => {
  const { issues } = readDrawing(
    page(`<g stroke="red" stroke-dasharray="4 2" fill="none">
<path d="M0 0h9"/><rect width="9" height="9"/>
<path fill="red" d="M0 0h9v9z"/><path style="stroke-dasharray: none" d="M0 0h9"/><path stroke-dasharray="0,0.00" d="M0 0h9"/>
<path stroke="none" d="M0 0h9"/><g display="none"><path d="M0 0h9"/></g></g>`),
  );
  const told = issues.filter(({ kind }) => kind === 'line-dashed');
  expect(told.map(({ severity, message, where }) => [severity, message.slice(0, 7), where?.line])).toEqual([
    ['note', '2 lines', 2],
  ]);
});

test('an element is told by its id and by the name that the drawing program lists, where they differ', () => {
  const { issues } = readDrawing(
    page(`<g xmlns:d="d"><text>a</text><text id="b" d:label="b">b</text>
<text id="t12" d:label="heron">c</text><text data-name="pup">d</text></g>`),
  );
  const told = issues.filter(({ kind }) => kind === 'text-left-out');
  expect(told.map(({ where }) => where?.element)).toEqual([
    '<text>',
    '<text id="b">',
    '<text id="t12" label="heron">',
    '<text label="pup">',
  ]);
});

test('what is meant for another program or language is told, unless a switch paints another in its place', () => {
  const { issues, drawing } = tryReadDrawing(
    page(`<g id="shore"><rect systemLanguage="fr" width="1" height="1"/><rect requiredExtensions="urn:x" width="1" height="1"/>
<switch><g systemLanguage="de"><rect width="1" height="1"/></g></switch></g>
<switch id="lake"><g systemLanguage="de"/><rect systemLanguage="fr" width="9" height="9"/><desc>a</desc></switch>
<switch><rect systemLanguage="de" width="9" height="9"/><rect width="1" height="1"/></switch>
<text systemLanguage="fr">eau</text><g display="none"><rect systemLanguage="fr" width="1" height="1"/></g>`),
  );
  expect(issues.map(({ kind, severity, message, where }) => [kind, severity, message, where?.line])).toEqual([
    [
      'shape-not-shown',
      'note',
      'this shape and 2 more of "shore" are not shown and left out: meant for another program or language',
      1,
    ],
    [
      'shape-not-shown',
      'note',
      'this group and 1 more of "lake" are not shown and left out: meant for another program or language',
      3,
    ],
  ]);
  expect(filledArea(drawing!)).toBeCloseTo(1, 6);
});

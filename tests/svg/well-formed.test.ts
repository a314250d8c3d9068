import { describe, expect, test } from 'vitest';
import { tryReadDrawing } from '../../src/svg/read-drawing.ts';

/** What is said of a broken file, and where. */
function told(text: string) {
  const [issue] = tryReadDrawing(text).issues;
  return [
    issue.message.replace('the file is not well-formed XML: ', ''),
    issue.where?.line,
    issue.where?.column,
  ];
}

describe('a plain & is told where it stands, not where the parser gives up', () => {
  test.each([
    ['in a name', '<svg>\n<g id="reeds & rushes"/>\n\n<g/></svg>', 2, 14],
    ['in a text', '<svg>\n<desc>a&b</desc>\n\n<g/></svg>', 2, 8],
    ['a reference without its end', '<svg>\r\n<desc>a &amp b</desc>\r\n\r\n</svg>', 2, 9],
    ['with a ; far behind', '<svg>\r<desc>a & b</desc>\r\r<g style="fill:red;"/></svg>', 2, 9],
    ['behind white space', '\n <svg>\n<desc>&</desc></svg>', 3, 7],
    [
      'behind some that may stand there',
      '<!DOCTYPE svg [<!ENTITY a "b & c">]>\n<svg><!-- & --><?x &?><style><![CDATA[ & ]]></style>\n<g id="&lt;&#65;&#x41;&a;"/>\n<g id="&"/></svg>',
      4,
      8,
    ],
  ])('%s', (_, text, line, column) => {
    expect(told(text)).toEqual(['a plain &', line, column]);
  });

  test('what is wrong before it, and beside one that may stand there, is told as it is', () => {
    expect(told('<svg>\n<g></svg>\n<desc>&</desc>')).toEqual(['unexpected close tag', 2, 10]);
    expect(told('<svg>\n<!-- & -->\n<desc>&leaf;</desc></svg>')).toEqual(['undefined entity', 3, 13]);
    expect(told('<svg><!-- & ')).toEqual(['unclosed tag: svg', 1, 13]);
  });

  test('looking for one takes no longer on openings that repeat', () => {
    for (const opening of ['<!DOCTYPE', '<![CDATA[', '<!-- ', '<?'])
      expect(tryReadDrawing(`<svg>${opening.repeat(300_000)}`).issues[0].kind).toBe('svg-malformed');
  });
});

import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { plainText } from '../../src/issues/plain-text.ts';
import { element, escapeText, linePath, ringsPath, writeDocument } from '../../src/svg/write.ts';

/** Reads a document with a strict XML parser, foreign to the project; throws when it is not well formed. */
function parse(xml: string): { names: string[]; attributes: Record<string, string>[]; text: string } {
  const parser = new SaxesParser();
  const found = { names: [] as string[], attributes: [] as Record<string, string>[], text: '' };
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => {
    found.names.push(tag.name);
    found.attributes.push(tag.attributes as Record<string, string>);
  });
  parser.on('text', (text) => {
    found.text += text;
  });
  parser.write(xml).close();
  return found;
}

test('an element is written with its attributes, numbers through the one formatter', () => {
  const xml = writeDocument(
    element('g', { id: 'a' }, [element('rect', { x: 1.00049, y: -0, rx: undefined })]),
  );
  expect(xml).toBe('<?xml version="1.0" encoding="UTF-8"?>\n<g id="a">\n <rect x="1" y="0"/>\n</g>\n');
});

test('text keeps its element on one line and gains no white space', () => {
  expect(writeDocument(element('text', {}, ['a < b']))).toContain('<text>a &lt; b</text>');
});

test('any text and attribute comes back from a strict XML parser as it went in', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
      const found = parse(writeDocument(element('svg', { id: text }, [element('text', {}, [text])])));
      expect(found.names).toEqual(['svg', 'text']);
      // A parser turns line ends into \n in text, and white space into blanks in attributes (XML 1.0, 2.11, 3.3.3).
      const kept = plainText(text);
      expect(found.text.trim()).toBe(kept.replace(/\r\n?/g, '\n').trim());
      expect(found.attributes[0].id).toBe(kept.replace(/\r\n/g, '\n').replace(/[\r\n\t]/g, ' '));
    }),
    { seed: 2, numRuns: 1000 },
  );
});

test('control characters, lone surrogates and directional overrides are left out, all else stays', () => {
  expect(plainText('a\u0000\u001b\u007f\u009fb\ud800c\u202ed\u2066e\uffff')).toBe('abcde');
  expect(plainText('\u05d0\u{1f986} \t\n\u00e9')).toBe('\u05d0\u{1f986} \t\n\u00e9');
});

test('the five characters of markup are escaped', () => {
  expect(escapeText(`<a b="c" d='e'>&`)).toBe('&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;');
});

test('path data of lines and rings', () => {
  const corner = [
    [0, 0],
    [1.5, 0],
    [1.5, 2],
  ] as const;
  expect(linePath(corner)).toBe('M0 0L1.5 0L1.5 2');
  expect(ringsPath([corner, [], corner])).toBe('M0 0L1.5 0L1.5 2ZM0 0L1.5 0L1.5 2Z');
});

import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';

/**
 * Text by its byte order mark, by where zeros stand in its first letters, or by the encoding that an XML declaration names
 * (XML 1.0, appendix F); UTF-8 otherwise, which JSON is always in (RFC 8259, section 8.1).
 *
 * @throws FretlayError for bytes that are no UTF-8: names would come out wrong, and two could become one
 */
export function decodeText(bytes: Uint8Array, file: string): string {
  const wide = wideEncoding(bytes);
  if (wide === 'utf-32') throw new FretlayError([inLettersOfFour(file)]);
  if (wide !== undefined) return new TextDecoder(wide).decode(bytes);
  // Latin-1 reads every byte as something, and the declaration itself is ASCII in all encodings that get here.
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  const declared = /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([A-Za-z0-9._-]+)["']/.exec(head)?.[1];
  // A declaration that can be read so is in no UTF-16: the text was saved anew, as UTF-8 (WHATWG HTML, prescan of bytes).
  const encoding = declared === undefined || /^utf-?16/i.test(declared) ? 'utf-8' : declared;
  const decoder = decoderFor(encoding);
  try {
    return decoder.decode(bytes);
  } catch {
    throw new FretlayError([notInEncoding(bytes, file, head.trimStart().startsWith('<'))]);
  }
}

/** The encoding of letters of two or four bytes: a text begins with a mark, or with two letters of ASCII, as `<s` or `{"`. */
function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | 'utf-32' | undefined {
  const beginning = bytes.subarray(0, 4);
  // Zeros, letters of ASCII, and other bytes as they are.
  const pattern = Array.from(beginning, (byte) =>
    byte === 0 ? '0' : byte < 0x80 ? 'a' : byte.toString(16),
  ).join('');
  if (/^(a000|000a|fffe00|00feff)$/.test(pattern)) return 'utf-32';
  if (/^(fffe|a0a0$)/.test(pattern)) return 'utf-16le';
  return /^(feff|0a0a$)/.test(pattern) ? 'utf-16be' : undefined;
}

function inLettersOfFour(file: string): Issue {
  return {
    kind: 'text-not-utf8',
    severity: 'error',
    message: 'the file is in UTF-32, four bytes for each letter, which is not read',
    expected: 'a text in UTF-8',
    remedy: 'Open it in the program it was written with and save it in the encoding UTF-8.',
    where: { file },
  };
}

/** An encoding nobody knows is read as UTF-8 as well as it goes: names suffer, the lines of a drawing are ASCII. */
function decoderFor(label: string): TextDecoder {
  try {
    const decoder = new TextDecoder(label);
    return decoder.encoding === 'utf-8' ? new TextDecoder('utf-8', { fatal: true }) : decoder;
  } catch {
    return new TextDecoder('utf-8');
  }
}

/**
 * What files begin with that are taken for drawings: PNG (ISO/IEC 15948, 5.2), JPEG (ITU-T T.81, B.1.1.3), GIF (GIF89a,
 * section 17), TIFF (TIFF 6.0, section 2), PDF (ISO 32000-1, 7.5.2); each from memory.
 */
const NO_TEXTS: readonly (readonly [beginning: string, what: string])[] = [
  ['\x89PNG', 'a picture (PNG)'],
  ['\xff\xd8\xff', 'a picture (JPEG)'],
  ['GIF8', 'a picture (GIF)'],
  ['II*\0', 'a picture (TIFF)'],
  ['MM\0*', 'a picture (TIFF)'],
  ['%PDF-', 'a document of pages (PDF)'],
];

function notInEncoding(bytes: Uint8Array, file: string, isXml: boolean): Issue {
  const beginning = String.fromCharCode(...bytes.subarray(0, 8));
  const what = NO_TEXTS.find(([own]) => beginning.startsWith(own))?.[1];
  if (what !== undefined)
    return {
      kind: 'text-not-utf8',
      severity: 'error',
      message: `this is ${what}, not a text`,
      expected: 'an SVG drawing, or a file in JSON',
      remedy: 'Save the drawing itself as SVG: a picture of it has no outlines to saw along.',
      where: { file },
    };
  const { line, column, byte } = firstStray(bytes);
  const older = new TextDecoder('latin1').decode(Uint8Array.of(byte));
  // Many bytes are no letter in those either.
  const letter = /\p{Cc}/u.test(older) ? '' : `, which is ${older} in an older encoding`;
  const declare =
    ', or name its encoding in the first line, as in <?xml version="1.0" encoding="ISO-8859-1"?>';
  return {
    kind: 'text-not-utf8',
    severity: 'error',
    message: 'the file is not in UTF-8, so its letters cannot be told',
    expected: 'a text in UTF-8',
    received: `the byte ${byte.toString(16).toUpperCase()} (hexadecimal)${letter}`,
    remedy: isCompressedFolder(bytes)
      ? 'It is a document of a word processor, or a compressed folder: save it as plain text.'
      : `Open it in the program it was written with and save it in the encoding UTF-8${isXml ? declare : ''}.`,
    where: { file, line, column },
  };
}

/** The four bytes that a ZIP archive starts with (PKWARE, .ZIP File Format Specification, section 4.3.7), as documents do. */
function isCompressedFolder([first, second, third, fourth]: Uint8Array): boolean {
  return first === 0x50 && second === 0x4b && third === 3 && fourth === 4;
}

/** The first byte that is no UTF-8. A line feed is part of no other letter, so lines can be looked at one by one. */
function firstStray(bytes: Uint8Array): { line: number; column: number; byte: number } {
  const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const lenient = new TextDecoder('utf-8', { ignoreBOM: true });
  for (let from = 0, line = 1; ; line++) {
    const feed = bytes.indexOf(0x0a, from);
    const row = bytes.subarray(from, feed < 0 ? undefined : feed);
    try {
      strict.decode(row);
    } catch {
      // What cannot be read comes out as U+FFFD: before it are whole letters, whose bytes can be counted.
      const before = lenient.decode(row).split('\uFFFD', 1)[0];
      return { line, column: [...before].length + 1, byte: row[new TextEncoder().encode(before).length] };
    }
    from = feed + 1;
  }
}

import { optional, record, that, words } from '../issues/checks.ts';
import { FretlayError, throwOnErrors } from '../issues/fretlay-error.ts';
import { decodeText } from './decode-text.ts';
import { EMPTY, IssueLog } from './issue-log.ts';
import { type ReadDrawingOptions, type ReadDrawingResult, tryReadDrawing } from './read-drawing.ts';

/** Largest text that a compressed file may unfold to, bytes: bounds memory on a hostile file. */
const MOST_UNFOLDED = 200_000_000;

/**
 * Reads the bytes of an SVG file, compressed (`.svgz`) or not, in whatever encoding its first line names. Never
 * throws on any bytes.
 */
export async function tryReadDrawingBytes(
  bytes: Uint8Array,
  options: ReadDrawingOptions = {},
): Promise<ReadDrawingResult> {
  // Which options make sense is asked where the text is read; here a name is taken from them first.
  const wrong = [...bytesCheck('bytes', bytes), ...record({ file: optional(words()) })('options', options)];
  if (wrong.length > 0) return { drawing: undefined, issues: wrong };
  try {
    return tryReadDrawing(await textOfBytes(bytes, options.file), options);
  } catch (error) {
    if (error instanceof FretlayError) return { drawing: undefined, issues: [...error.issues] };
    throw error;
  }
}

/**
 * The text of an SVG file, unfolded when compressed (`.svgz`), in the encoding its first line names, or of a JSON file.
 *
 * @throws FretlayError when it cannot be unfolded, when it is not in UTF-8 and names no other encoding, and for what
 *   are no bytes
 */
export async function textOfBytes(bytes: Uint8Array, file = 'drawing'): Promise<string> {
  throwOnErrors([...bytesCheck('bytes', bytes), ...words()('file', file)]);
  return decodeText(isGzip(bytes) ? await unfold(bytes, new IssueLog(file)) : bytes, file);
}

/** By its name, for that of another realm is no Uint8Array of this one. */
const bytesCheck = that(
  (value) => ArrayBuffer.isView(value) && Object.prototype.toString.call(value) === '[object Uint8Array]',
  'the bytes of an SVG file, a Uint8Array',
  'Hand in `new Uint8Array(buffer)`; a text goes to `readDrawing`.',
);

/** The two bytes a gzip stream starts with (RFC 1952, section 2.3.1). */
function isGzip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x1f && bytes[1] === 0x8b;
}

async function unfold(bytes: Uint8Array, log: IssueLog): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  // By way of a Response, which browsers and Node have alike: the core knows no streams of files.
  const compressed = new Response(new Uint8Array(bytes)).body;
  if (compressed === null) return log.fail('svg-empty', 'the file is empty', undefined, EMPTY);
  const reader = compressed.pipeThrough(new DecompressionStream('gzip')).getReader();
  for (;;) {
    const { done, value } = await reader.read().catch(() =>
      log.fail('svgz-broken', 'the file is compressed but cannot be unfolded', undefined, {
        remedy: 'Save the drawing again, plain or compressed.',
      }),
    );
    if (done) break;
    length += value.length;
    if (length > MOST_UNFOLDED) {
      await reader.cancel();
      log.fail('svgz-too-large', 'the compressed file unfolds to more than any drawing', undefined, {
        expected: `at most ${MOST_UNFOLDED / 1e6} MB`,
        remedy: 'Take pictures out of the drawing and save it again, or simplify it.',
      });
    }
    chunks.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

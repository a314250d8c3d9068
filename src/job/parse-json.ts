import { type ParseError, parseTree, printParseErrorCode, visit } from 'jsonc-parser';
import { words } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import { slipAt } from './json-slips.ts';
import { fieldName } from './schema-issues.ts';

/** The kinds of file that are read, and what to do when something else is handed in. */
const REMEDIES = {
  job: 'Write a job that names the drawing under "pattern"; fixtures/first-cut/job.json is a short one.',
  layout: 'Name a layout file, such as the layout.json that fretlay plan writes.',
  rack: 'Name a rack file in the job under "rack"; fixtures/rack/rack.json is a short one.',
} as const;

/** A kind of JSON file by its plain name. */
export type FileKind = keyof typeof REMEDIES;

/** The value of a JSON text, or an issue that says where it stops being JSON. */
export function parseJson(
  text: string,
  file: string,
  kind: FileKind,
): { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly issue: Issue } {
  const [unnamed] = words('Name the file, for messages.')('file', file);
  if (unnamed !== undefined) return { ok: false, issue: unnamed };
  // From plain JavaScript: the object that was to be read from the text, or nothing at all.
  if (typeof text !== 'string')
    return { ok: false, issue: { ...noText(text), where: { file, field: 'text' } } };
  const foreign = fieldOfAllObjects();
  if (foreign !== undefined) return { ok: false, issue: ofAllObjects(foreign, file, kind) };
  const plain = text.replace(/^\uFEFF/, '');
  if (isTooDeep(plain)) return { ok: false, issue: tooDeep(file, kind) };
  try {
    const value: unknown = JSON.parse(plain);
    const lost = plain.includes(NO_NAME) ? wayTo(NO_NAME, value) : undefined;
    const issue =
      otherKind(value, file, kind) ??
      (lost === undefined ? writtenTwice(plain, file, kind) : noName(lost, file, kind));
    return issue === undefined ? { ok: true, value } : { ok: false, issue };
  } catch {
    return { ok: false, issue: notJson(plain, file, kind) };
  }
}

/** A field that some script has put on the prototype of all objects, where a check of every field meets it too. */
function fieldOfAllObjects(): string | undefined {
  for (const name in {}) return name;
  return undefined;
}

function ofAllObjects(name: string, file: string, kind: FileKind): Issue {
  return {
    kind: `${kind}-field-invalid`,
    severity: 'error',
    message: `every object of this program has a field "${name}", and so has what is read from the file`,
    expected: 'no fields on Object.prototype that loops over fields come to',
    received: `Object.prototype.${name}`,
    remedy: 'Find the script that puts it there, and define it with `enumerable: false` or take it away.',
    where: { file },
  };
}

/** One issue for a file of another kind, in which next to no field is what it should be; undefined for any other value. */
function otherKind(value: unknown, file: string, kind: FileKind): Issue | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const format = 'format' in value ? value.format : undefined;
  const stated = (Object.keys(REMEDIES) as FileKind[]).find((other) => format === `fretlay-${other}`);
  // A job need not say what it is, but alone has a pattern.
  const found = stated ?? ('pattern' in value ? 'job' : kind);
  if (found === kind) return undefined;
  return {
    kind: `${kind}-field-invalid`,
    severity: 'error',
    message: `this is a ${found} file, not a ${kind} file`,
    remedy: REMEDIES[kind],
    where: { file },
  };
}

/** Brackets within brackets, at most: ten times as many as any of these files has. */
const DEEPEST = 100;

/** True where brackets stand within more brackets than are read without running out of the stack. */
function isTooDeep(text: string): boolean {
  let depth = 0;
  // Texts as a whole, so that brackets in them count nothing; one that never ends is no JSON, and is told as that.
  for (const [token] of text.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"|[[\]{}]/g)) {
    if (token === '[' || token === '{') depth++;
    else if (token === ']' || token === '}') depth--;
    if (depth > DEEPEST) return true;
  }
  return false;
}

function tooDeep(file: string, kind: FileKind): Issue {
  return {
    kind: 'not-json',
    severity: 'error',
    message: 'brackets stand within brackets deeper than in any such file',
    expected: `at most ${DEEPEST} within each other`,
    remedy: REMEDIES[kind],
    where: { file },
  };
}

/**
 * The one name that no field can have: to the language it is the object that others are made after, so whoever copies
 * fields by their names loses it without a word, the rules of a layer with it.
 */
const NO_NAME = '__proto__';

function noName(field: string, file: string, kind: FileKind): Issue {
  return {
    kind: `${kind}-field-invalid`,
    severity: 'error',
    message: `no field can be named "${NO_NAME}"`,
    expected: 'another name',
    remedy: 'Rename the layer, species or part, in the drawing too.',
    where: { file, field },
  };
}

/**
 * The first field that stands twice in one pair of braces; undefined when there is none. JSON leaves open which of the
 * two counts (RFC 8259, section 4), and the platform drops the first without a word: boards, or the rules of all layers.
 */
function writtenTwice(text: string, file: string, kind: FileKind): Issue | undefined {
  // No person writes a layout, and a large one would take twice as long to read.
  if (kind === 'layout') return undefined;
  const seen: Set<string>[] = [];
  let issue: Issue | undefined;
  visit(text, {
    onObjectBegin: () => {
      seen.push(new Set());
    },
    onObjectEnd: () => {
      seen.pop();
    },
    onObjectProperty: (name, _offset, _length, line, column, way) => {
      const names = seen[seen.length - 1];
      if (names.has(name)) issue ??= twice([...way(), name], [line, column], file, kind);
      names.add(name);
    },
  });
  return issue;
}

function twice(
  way: readonly (string | number)[],
  [line, column]: readonly [number, number],
  file: string,
  kind: FileKind,
): Issue {
  return {
    kind: `${kind}-field-invalid`,
    severity: 'error',
    message: `"${way[way.length - 1]}" stands twice in the same { }, and the first would be lost`,
    remedy: 'Put what both say into one, or take one of them away.',
    where: { file, line: line + 1, column: column + 1, field: fieldName(way) },
  };
}

/** Where in some data a field of that name stands; undefined when there is none. */
function wayTo(name: string, data: unknown): string | undefined {
  if (typeof data !== 'object' || data === null) return undefined;
  for (const [own, inner] of Object.entries(data)) {
    if (own === name) return name;
    const within = wayTo(name, inner);
    if (within !== undefined)
      return Array.isArray(data) ? `[${own}]${dotted(within)}` : `${own}${dotted(within)}`;
  }
  return undefined;
}

function dotted(way: string): string {
  return way.startsWith('[') ? way : `.${way}`;
}

function noText(value: unknown): Issue {
  return wrongValue('text', value, 'the text of the file', 'Hand in the text itself, not what it says.');
}

/** How a document of a word processor or office program begins: rich text, and a compressed folder of documents. */
const DOCUMENTS: readonly string[] = ['{\\rtf', 'PK\u0003\u0004'];

/** The platform's parser gives no place in every version, so a second one is asked where it stops. */
function notJson(text: string, file: string, kind: FileKind): Issue {
  if (text.trimStart().startsWith('<')) {
    return {
      kind: 'not-json',
      severity: 'error',
      message: `this is ${/<html[\s>]/i.test(text) ? 'a page for a browser' : 'a drawing'}, not a ${kind} file`,
      expected: 'a JSON object',
      remedy: REMEDIES[kind],
      where: { file },
    };
  }
  if (DOCUMENTS.some((beginning) => text.startsWith(beginning))) {
    return {
      kind: 'not-json',
      severity: 'error',
      message: `this is a document of a word processor, not a ${kind} file`,
      expected: 'a JSON object',
      remedy: 'Save it as plain text, with straight quotes.',
      where: { file },
    };
  }
  const errors: ParseError[] = [];
  parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  const [first] = errors;
  const before = text.slice(0, first?.offset ?? 0).split('\n');
  const slip = first === undefined ? undefined : slipAt(text, first.offset);
  const missed = first === undefined ? '' : `: ${inPlainWords(printParseErrorCode(first.error))}`;
  return {
    kind: 'not-json',
    severity: 'error',
    message: `the file is not JSON${slip?.words ?? missed}`,
    expected: 'a JSON object',
    remedy: slip?.remedy ?? 'Mend the file at that place, or start again from an example in fixtures/.',
    where: { file, line: before.length, column: before[before.length - 1].length + 1 },
  };
}

/** `CloseBraceExpected` as `close brace expected`. */
function inPlainWords(code: string): string {
  return code.replace(/(?<=[a-z])(?=[A-Z])/g, ' ').toLowerCase();
}

import { type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import { words } from '../issues/checks.ts';
import type { Issue } from '../issues/issue.ts';
import { wrongValue } from '../issues/wrong-value.ts';

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
  const plain = text.replace(/^\uFEFF/, '');
  try {
    return { ok: true, value: JSON.parse(plain) };
  } catch {
    return { ok: false, issue: notJson(plain, file, kind) };
  }
}

function noText(value: unknown): Issue {
  return wrongValue('text', value, 'the text of the file', 'Hand in the text itself, not what it says.');
}

/** The platform's parser gives no place in every version, so a second one is asked where it stops. */
function notJson(text: string, file: string, kind: FileKind): Issue {
  if (text.trimStart().startsWith('<')) {
    return {
      kind: 'not-json',
      severity: 'error',
      message: `this is a drawing, not a ${kind} file`,
      expected: 'a JSON object',
      remedy: REMEDIES[kind],
      where: { file },
    };
  }
  const errors: ParseError[] = [];
  parseTree(text, errors, { disallowComments: true, allowTrailingComma: false });
  const [first] = errors;
  const before = text.slice(0, first?.offset ?? 0).split('\n');
  const words =
    first === undefined
      ? ''
      : `: ${printParseErrorCode(first.error)
          .replace(/(?<=[a-z])(?=[A-Z])/g, ' ')
          .toLowerCase()}`;
  return {
    kind: 'not-json',
    severity: 'error',
    message: `the file is not JSON${words}`,
    expected: 'a JSON object',
    remedy: 'Mend the file at that place, or start again from an example in fixtures/.',
    where: { file, line: before.length, column: before[before.length - 1].length + 1 },
  };
}

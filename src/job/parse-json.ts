import type { Issue } from '../issues/issue.ts';

/** The value of a JSON text, or an issue that says where it stops being JSON. */
export function parseJson(
  text: string,
  file: string,
): { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly issue: Issue } {
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, '')) };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      issue: {
        kind: 'not-json',
        severity: 'error',
        message: `the file is not JSON: ${message}`,
        expected: 'a JSON object',
        remedy: 'Mend the file at that place, or start again from an example in fixtures/.',
        where: { file, ...placeIn(text, message) },
      },
    };
  }
}

function placeIn(text: string, message: string): { line?: number; column?: number } {
  const position = /position (\d+)/.exec(message);
  if (position === null) return {};
  const before = text.slice(0, Number(position[1])).split('\n');
  return { line: before.length, column: before[before.length - 1].length + 1 };
}

import { FretlayError } from '../issues/fretlay-error.ts';
import type { Layout } from '../model/layout.ts';
import { layoutSchema } from './layout-schema.ts';
import { parseJson } from './parse-json.ts';
import { schemaIssues } from './schema-issues.ts';

/**
 * Reads and checks the text of a layout file.
 *
 * @throws FretlayError that names every wrong field
 */
export function readLayout(text: string, file = 'layout.json'): Layout {
  const json = parseJson(text, file, 'layout');
  if (!json.ok) throw new FretlayError([json.issue]);
  const checked = layoutSchema.safeParse(json.value, { reportInput: true });
  if (checked.success) return checked.data;
  throw new FretlayError(
    schemaIssues(checked.error, {
      schema: layoutSchema,
      file,
      kind: 'layout-field-invalid',
      remedy: 'See docs/layout-file.md for every field.',
    }),
  );
}

import { FretlayError, type Issue } from '../index.ts';

/**
 * The refusal of an option of the command line.
 *
 * @param option as it is typed, such as `--out`
 */
export function invalidArgument(
  option: string,
  told: Pick<Issue, 'message' | 'expected' | 'received' | 'remedy'>,
): FretlayError {
  const { message, expected, received, remedy } = told;
  const facts = { message, expected, received, remedy };
  return new FretlayError([
    { kind: 'argument-invalid', severity: 'error', ...facts, where: { field: option } },
  ]);
}

import { describe, expect, it } from 'vitest';
import { FretlayError, throwOnErrors } from '../../src/issues/fretlay-error.ts';
import { formatIssue, type Issue } from '../../src/issues/issue.ts';

const issue: Issue = {
  kind: 'kerf-negative',
  severity: 'error',
  message: 'the kerf is negative',
  expected: 'at least 0 mm',
  received: '-1 mm',
  remedy: 'Measure a test cut.',
  where: { file: 'job.json', line: 3, column: 7, field: 'kerf' },
};

describe('formatIssue', () => {
  it('says where, what, expected, found and what to do', () => {
    expect(formatIssue(issue)).toBe(
      'job.json:3:7, kerf: the kerf is negative (expected at least 0 mm, found -1 mm). Measure a test cut.',
    );
  });

  it('stays one line whatever a name holds', () => {
    const where = { layer: 'Sky\nError: \u202eforged\u001b[2J' };
    expect(formatIssue({ ...issue, where })).toMatch(/^layer "Sky Error: forged\[2J": the kerf/);
  });

  it('says what it knows and nothing else', () => {
    expect(formatIssue({ kind: 'x', severity: 'note', message: 'all is well' })).toBe('all is well');
    expect(
      formatIssue({
        kind: 'x',
        severity: 'note',
        message: 'm',
        where: { layer: 'Sky', part: 'sun', at: [1, 2] },
      }),
    ).toBe('layer "Sky", part "sun", at 1.0, 2.0 mm: m');
  });
});

describe('formatIssue in inches', () => {
  it.each([
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    ['a neck is 1.27 mm wide', 'a neck is 0.05 in wide'],
    ['paper 215.9 x 279.4 mm', 'paper 8.5 x 11 in'],
    ['12.7 to -25.4 mm, then 0.00 mm', '0.5 to -1 in, then 0 in'],
    ['slots 0.43 to 0.44 mm, necks 2 to 3 mm', 'slots 0.017 in, necks 0.079 to 0.118 in'],
    ['an area of 5 mm2 in 3 parts', 'an area of 5 mm2 in 3 parts'],
    ['"Ash 20 mm" is 50.8 mm long', '"Ash 20 mm" is 2 in long'],
  ])('turns %s to %s', (message, inches) => {
    expect(formatIssue({ kind: 'x', severity: 'note', message }, 'in')).toBe(inches);
  });
});

describe('formatIssue in both units', () => {
  it('tells each length in mm and in inches, for a reader whose unit is not known', () => {
    const close: Issue = {
      kind: 'x',
      severity: 'error',
      message: 'the parts are too near each other',
      expected: 'at least 1.27 mm',
      where: { board: 'Ash 20 mm', at: [25.4, 50.8] },
    };
    expect(formatIssue(close, 'both')).toBe(
      'board "Ash 20 mm", at 25.4, 50.8 mm or 1, 2 in: the parts are too near each other (expected at least 1.27 mm or 0.05 in)',
    );
  });
});

describe('throwOnErrors', () => {
  it('throws one error that carries every error, and lets warnings pass', () => {
    const warning: Issue = { kind: 'w', severity: 'warning', message: 'odd' };
    expect(() => throwOnErrors([warning])).not.toThrow();
    try {
      throwOnErrors([warning, issue, issue]);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(FretlayError);
      expect((error as FretlayError).issues).toEqual([issue, issue]);
      expect((error as FretlayError).message).toContain('the kerf is negative');
    }
  });
});

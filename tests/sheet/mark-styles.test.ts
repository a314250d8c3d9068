import { expect, test } from 'vitest';
import { MARK_STYLES } from '../../src/sheet/marks/mark-styles.ts';

/** Relative luminance of a colour, WCAG 2.1 (W3C Recommendation 2018), definitions. */
function luminance(hex: string): number {
  const [red, green, blue] = [1, 3, 5].map((i) => {
    const value = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

test('the bright line stands off from white paper and from black wood by 3 to 1, WCAG 2.1, 1.4.11', () => {
  const bright = luminance(MARK_STYLES['bright-edge'].stroke ?? '');
  expect((1 + 0.05) / (bright + 0.05)).toBeGreaterThan(3);
  expect((bright + 0.05) / 0.05).toBeGreaterThan(3);
});

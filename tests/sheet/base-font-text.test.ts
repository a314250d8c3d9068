import { describe, expect, test } from 'vitest';
import { nameIssues } from '../../src/job/name-issues.ts';
import { partKey } from '../../src/model/same-part.ts';
import { numbersNeeded } from '../../src/sheet/board/part-names.ts';
import { encodable, isPrintable } from '../../src/sheet/marks/base-font-text.ts';
import { outsideCheck } from '../outside-check.ts';
import { handBoard, handLayout } from './hand-layout.ts';

const CLDR = 'Unicode CLDR, common/transforms/Latin-ASCII.xml';
const ISO_9 = 'ISO 9:1995, table 1; accents that Windows-1252 lacks left out';
const ISO_843 = 'ISO 843:1997, transliteration; accents that Windows-1252 lacks left out';

describe('letters that the base fonts of a PDF lack', () => {
  test.each([
    ['Latin letters with a stroke', CLDR, 'đ ħ ı ł ŋ ŧ Đ Ħ Ł Ŋ Ŧ ẞ ĳ ʹ ″', `d h i l n t D H L N T SS ij ' "`],
    ['the Russian alphabet', ISO_9, 'абвгдеёжзийклмнопрстуфхцчшщъыьэюя', `abvgdeëžzijklmnoprstufhccšs"y'èûâ`],
    ['other Slavic letters', ISO_9, 'ґ ѓ ђ є ѕ і ї ј ќ љ њ ћ ў џ', 'g g d ê z ì ï j k l n c u d'],
    ['the Greek alphabet', ISO_843, 'αβγδεζηθικλμνξοπρσςτυφχψω', 'avgdezithiklmnxoprsstyfchpso'],
    ['Greek words', ISO_843, 'αυτί ευρώ ού αϋ ΘΑΛΑΣΣΑ Θάλασσα', 'autí euro oú aÿ THALASSA Thálassa'],
  ])('%s', (what, source, text, expected) => {
    outsideCheck({ what: `${what} in a PDF`, source, expected, found: encodable(text) });
    expect(isPrintable(text)).toBe(true);
  });

  test.each([
    ['Zażółć gęślą jaźń ŁÓDŹ', 'Zazólc gesla jazn LÓDZ'],
    ['Příliš žluťoučký kůň', 'Príliš žlutoucký kun'],
    ['árvíztűrő tükörfúrógép', 'árvízturo tükörfúrógép'],
    ['İstanbul ışık ŞĞ', 'Istanbul isik SG'],
    ['țară și ştiinţă', 'tara si stiinta'],
    ['ǿ ⅓', 'ø  1/3'],
    ['r\u030ceka \u0438\u0306', 'reka j'],
  ])('%s reads as %s', (text, expected) => {
    expect(encodable(text)).toBe(expected);
  });

  test('parts whose names are alike in print are told apart by their numbers, others have none', () => {
    const long = 'a heron in the reeds by the water, ';
    const names = ['Łoś', 'Los', 'Loon', `${long}left`, `${long}right`, '湖畔'];
    const numbers = new Map(names.map((part, i) => [partKey({ layer: 'L', part }), i]));
    expect([...numbersNeeded(numbers).values()]).toEqual([0, 1, 3, 4, 5]);
  });

  test('a job is warned once of letters that do not print, and of boards that print alike', () => {
    const boards = ['Łąka', 'Laka', '湖畔'].map((id) => handBoard({ id }));
    const issues = nameIssues(handLayout({ boards }), '🦆');
    expect(issues.map(({ kind }) => kind)).toEqual(['letters-not-printed', 'boards-alike-in-print']);
    expect(issues[0].message).toContain('"🦆" (every page), "湖畔" (pages of 湖畔): it prints a ?');
    expect(issues[1].message).toContain('"Łąka" and "Laka" both say "Laka"');
    expect(nameIssues(handLayout(), 'Żagiel')).toEqual([]);
  });
});

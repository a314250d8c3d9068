import { expect, test } from 'vitest';
import { html, htmlPage, named, numbers, table, words } from '../../src/sheet/report/html.ts';

test('text and attributes are escaped, markup made here is not escaped again', () => {
  expect(html('p', { class: '"&' }, ['<b>', named('a & b')]).markup).toBe(
    '<p class="&quot;&amp;">&lt;b&gt;<bdi>a &amp; b</bdi></p>',
  );
});

test('a long name without spaces may be broken, not between a letter and its accent', () => {
  const of = (count: number) => 'a\u0301'.repeat(count);
  expect(named(of(30)).markup).toBe(`<bdi>${of(30)}</bdi>`);
  expect(named(of(70)).markup).toBe(`<bdi>${of(30)}<wbr>${of(30)}<wbr>${of(10)}</bdi>`);
  expect(named(`${of(30)} ${of(30)} <`).markup).toBe(`<bdi>${of(30)} ${of(30)} &lt;</bdi>`);
});

test('an element without content has an end tag, as HTML asks for', () => {
  expect(html('td').markup).toBe('<td></td>');
});

test('a table names its columns and rows', () => {
  const { markup } = table('Parts', [words('Part'), numbers('Cut')], [['heron', '3']], ['All', '3']);
  expect(markup).toContain('<caption>Parts</caption>');
  expect(markup).toContain('<th scope="col" class="words">Part</th><th scope="col">Cut</th>');
  expect(markup).toContain('<tbody><tr><th scope="row" class="words">heron</th><td>3</td></tr></tbody>');
  expect(markup).toContain('<tfoot><tr><th scope="row" class="words">All</th><td>3</td></tr></tfoot>');
});

test('a page has a language, a title and a policy that allows nothing from outside', () => {
  const page = htmlPage('a < b', 'p { color: red; }', [html('p', {}, ['x'])]);
  expect(page.startsWith('<!DOCTYPE html>\n<html lang="en">')).toBe(true);
  expect(page).toContain('<title>a &lt; b</title>');
  expect(page).toContain('default-src &#39;none&#39;');
});

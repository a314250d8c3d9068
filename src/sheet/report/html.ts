import {
  type Attributes,
  escapeText,
  type WrittenElement,
  writeAttributes,
  writeElement,
} from '../../svg/write.ts';

/** Markup that is known to be safe: made by the functions of this file only, all text in it escaped. */
export class Html {
  readonly markup: string;

  constructor(markup: string) {
    this.markup = markup;
  }
}

/** The elements the report is made of. */
export type HtmlName =
  | 'html'
  | 'head'
  | 'title'
  | 'body'
  | 'header'
  | 'main'
  | 'section'
  | 'h1'
  | 'h2'
  | 'h3'
  | 'p'
  | 'dl'
  | 'div'
  | 'dt'
  | 'dd'
  | 'ul'
  | 'li'
  | 'strong'
  | 'bdi'
  | 'figure'
  | 'figcaption'
  | 'table'
  | 'caption'
  | 'thead'
  | 'tbody'
  | 'tfoot'
  | 'tr'
  | 'th'
  | 'td';

/** An element; a child that is a string is text and gets escaped. */
export function html(
  name: HtmlName,
  attributes: Attributes = {},
  children: readonly (Html | string)[] = [],
): Html {
  const inside = children.map((child) => (child instanceof Html ? child.markup : escapeText(child)));
  return new Html(`<${name}${writeAttributes(attributes)}>${inside.join('')}</${name}>`);
}

/** A drawing to stand in the page. */
export function htmlFromSvg(drawing: WrittenElement): Html {
  return new Html(`\n${writeElement(drawing)}\n`);
}

/** Characters of a name that the report shows: a longer one would be all there is on its page. */
export const LONGEST_NAME = 120;

/**
 * Letters without a space after which a name may go on in the next line, each with its accents: paper does not scroll, and a
 * table with longer lines would lose its figures at the right.
 */
const UNBROKEN = /(?:[^\s\p{M}]\p{M}*){30}(?=[^\s\p{M}])/gu;
const BREAK = new Html('<wbr>');

/** A name that came from the job: isolated, so that its writing direction does not reorder its surroundings. */
export function named(name: string): Html {
  const ends = [...name.matchAll(UNBROKEN)].map((stretch) => stretch.index + stretch[0].length);
  const pieces = [0, ...ends].map((from, i) => name.slice(from, ends[i]));
  return html(
    'bdi',
    {},
    pieces.flatMap((piece, i) => (i === 0 ? [piece] : [BREAK, piece])),
  );
}

/** A list with a point for each item. */
export function list(items: readonly (Html | string)[]): Html {
  return html(
    'ul',
    {},
    items.map((item) => html('li', {}, [item])),
  );
}

/** A column of a table: words and sentences stand at the left, figures at the right. */
export interface Column {
  readonly head: string;
  readonly class: string | undefined;
}

/** A column of words. */
export function words(head: string): Column {
  return { head, class: 'words' };
}

/** A column of sentences: on a narrow screen it keeps room for some words beside each other. */
export function sentences(head: string): Column {
  return { head, class: 'words sentences' };
}

/** A column of figures. */
export function numbers(head: string): Column {
  return { head, class: undefined };
}

type Cells = readonly (Html | string)[];

/**
 * A table with a caption, column heads, rows whose first cell is their head, and an optional last row of sums. It
 * scrolls sideways on a narrow screen, by keyboard too. Cells are texts that name their own unit where they have one.
 */
export function table(
  caption: string,
  columns: readonly Column[],
  rows: readonly Cells[],
  sums?: Cells,
): Html {
  const row = (cells: Cells) =>
    html(
      'tr',
      {},
      cells.map((cell, i) =>
        html(i === 0 ? 'th' : 'td', { scope: i === 0 ? 'row' : undefined, class: columns[i].class }, [cell]),
      ),
    );
  const head = html(
    'tr',
    {},
    columns.map((column) => html('th', { scope: 'col', class: column.class }, [column.head])),
  );
  const whole = html('table', {}, [
    html('caption', {}, [caption]),
    html('thead', {}, [head]),
    html('tbody', {}, rows.map(row)),
    ...(sums === undefined ? [] : [html('tfoot', {}, [row(sums)])]),
  ]);
  return html('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': caption }, [whole]);
}

/** A whole page: no script, no network (a content security policy says so to the browser as well). */
export function htmlPage(title: string, style: string, body: readonly Html[]): string {
  const policy = "default-src 'none'; style-src 'unsafe-inline'";
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${escapeText(policy)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeText(title)}</title>`,
    `<style>${style}</style>`,
    '</head>',
    html('body', {}, body).markup,
    '</html>',
    '',
  ].join('\n');
}

import { SaxesParser } from 'saxes';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { declareEntities, EntityProblem } from './entities.ts';
import { EMPTY, type IssueLog, quote } from './issue-log.ts';
import { strayAmpersand } from './stray-ampersand.ts';

/**
 * The only door to saxes, a strict XML 1.0 parser: refuses text that is not well-formed with line and column,
 * decodes entities once, and hands on the document as a bare skeleton of elements.
 *
 * The skeleton holds SVG's own names without prefix and, in place of every attribute value, its number in a table
 * of decoded values. So the tree builder behind it meets no comment, CDATA section, DOCTYPE, entity or long value,
 * each of which it was measured to misread or to be slow on.
 */
export interface Skeleton {
  readonly markup: string;
  /** Attribute values by their number in the skeleton. */
  readonly values: readonly string[];
  /** Line of each element in document order, from 1. */
  readonly lines: readonly number[];
  /** Text directly inside an element, by its number in document order. */
  readonly texts: ReadonlyMap<number, string>;
  /** The comments before and inside the root, each cut to its first 200 characters. */
  readonly comments: readonly string[];
}

/** Deepest nesting of elements; hand-made and exported drawings stay below 100. */
export const DEEPEST_NESTING = 1000;

/** What the parser says of a character that XML does not have (XML 1.0, section 2.2). */
const NO_CHARACTER = 'disallowed character';

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';
const TEXT_KEPT = new Set(['style', 'title', 'desc']);

/** Checks the text and gives its skeleton; stops the reading with an error in `log` when it is not SVG. */
export function checkWellFormed(text: string, log: IssueLog): Skeleton {
  // White space before the XML declaration is against the letter of XML but common and harmless.
  const start = text.search(/[^\s\ufeff]/);
  if (start < 0) log.fail('svg-empty', 'the file is empty', undefined, EMPTY);
  if (text[start] !== '<') {
    // A job is easily handed in for the drawing that it names; a brace alone may begin other text.
    const json = /^\{\s*["}]/.test(text.slice(start));
    log.fail(
      'svg-missing',
      `the file is ${json ? 'JSON, as a job is, and ' : ''}not an SVG drawing`,
      undefined,
      {
        expected: 'a text that starts with <svg> or <?xml',
        received: json ? '{' : quote(text.slice(start, start + 20).replace(/\s+/g, ' ')),
        remedy: json
          ? 'Name the drawing itself, which a job has under "pattern".'
          : 'Export the drawing as SVG from the drawing program.',
      },
    );
  }
  const scan = new SkeletonScan(text.slice(0, start).split('\n').length - 1, log);
  scan.run(text.slice(start));
  return scan.skeleton();
}

class SkeletonScan {
  private readonly parser = new SaxesParser();
  private readonly markup: string[] = [];
  private readonly values: string[] = [];
  private readonly lines: number[] = [];
  private readonly texts = new Map<number, string>();
  private readonly comments: string[] = [];
  /** One entry per open element: its skeleton name and its number. */
  private readonly open: { readonly name: string; readonly number: number }[] = [];
  /** Namespace bindings in force, innermost last; only elements that declare any add to it. */
  private readonly bindings: { readonly depth: number; readonly prefix: string; readonly uri: string }[] = [];
  private rootNamespace: string | undefined;
  private tagLine = 1;
  private text = '';
  private readonly linesBefore: number;
  private readonly log: IssueLog;

  constructor(linesBefore: number, log: IssueLog) {
    this.linesBefore = linesBefore;
    this.log = log;
    const { parser } = this;
    parser.on('doctype', (doctype) => declareEntities(doctype, parser.ENTITIES));
    parser.on('processinginstruction', ({ target }) => this.reportInstruction(target));
    parser.on('opentagstart', () => {
      // The parser has taken the character after the name: a line break there belongs to the line before.
      this.tagLine = parser.line - (parser.column === 0 ? 1 : 0) + this.linesBefore;
    });
    parser.on('opentag', ({ name, attributes }) => this.openElement(name, attributes));
    parser.on('closetag', () => this.closeElement());
    parser.on('text', (text) => this.keepText(text));
    parser.on('cdata', (text) => this.keepText(text));
    parser.on('comment', (comment) => this.comments.push(comment.slice(0, 200)));
    parser.on('error', (error) => this.malformed(error.message.replace(/^\d+:\d+: /, '').replace(/\.$/, '')));
  }

  run(text: string): void {
    this.text = text;
    try {
      this.parser.write(text).close();
    } catch (error) {
      if (error instanceof EntityProblem) this.malformed(error.message);
      throw error;
    }
    if (this.markup.length === 0) {
      this.log.fail('svg-missing', 'the file holds no <svg> element', undefined, {
        remedy: 'Export the drawing as SVG from the drawing program.',
      });
    }
  }

  skeleton(): Skeleton {
    const { markup, values, lines, texts, comments } = this;
    return { markup: markup.join(''), values, lines, texts, comments };
  }

  private reportInstruction(target: string): void {
    if (target !== 'xml-stylesheet') return;
    this.log.warn('style-sheet-left-out', 'a style sheet in another file is not read', undefined, {
      remedy: 'Save the drawing with its styles inside.',
    });
  }

  private openElement(name: string, attributes: Record<string, string>): void {
    // The bindings of an element hold for its own name.
    this.bind(attributes);
    const local = this.svgName(name);
    if (this.lines.length === 0 && local !== 'svg') {
      this.log.fail('svg-missing', 'the outermost element is not <svg>', undefined, {
        expected: '<svg>',
        received: `<${name}>`,
        remedy: 'Save the drawing as SVG.',
      });
    }
    if (this.open.length >= DEEPEST_NESTING) {
      this.log.fail('nesting-too-deep', `elements are nested more than ${DEEPEST_NESTING} deep`, undefined, {
        received: `${quote(`<${name}>`)} in line ${this.tagLine}`,
        remedy: 'Ungroup the drawing, and save it again.',
      });
    }
    let tag = `<${local}`;
    for (const attribute of Object.keys(attributes)) {
      // The number stands for the value: whatever that holds, the tree builder never sees it.
      tag += ` ${attribute}="${this.values.length}"`;
      this.values.push(attributes[attribute]);
    }
    this.open.push({ name: local, number: this.lines.length });
    this.lines.push(this.tagLine);
    this.markup.push(`${tag}>`);
  }

  private closeElement(): void {
    const closed = this.open.pop();
    if (closed === undefined) return;
    this.markup.push(`</${closed.name}>`);
    while ((this.bindings.at(-1)?.depth ?? -1) >= this.open.length) this.bindings.pop();
  }

  private keepText(text: string): void {
    const inside = this.open.at(-1);
    if (inside === undefined || !TEXT_KEPT.has(inside.name)) return;
    this.texts.set(inside.number, (this.texts.get(inside.number) ?? '') + text);
  }

  private bind(attributes: Record<string, string>): void {
    for (const name of Object.keys(attributes)) {
      if (name !== 'xmlns' && !name.startsWith('xmlns:')) continue;
      this.bindings.push({ depth: this.open.length, prefix: name.slice(6), uri: attributes[name].trim() });
    }
    if (this.lines.length === 0) this.rootNamespace = this.bindings.find(({ prefix }) => prefix === '')?.uri;
  }

  /** SVG's own elements lose their prefix; others get one, so that no other vocabulary's names pass for SVG's. */
  private svgName(name: string): string {
    const colon = name.indexOf(':');
    const prefix = colon < 0 ? '' : name.slice(0, colon);
    const local = name.slice(colon + 1);
    const uri = this.bindings.findLast((binding) => binding.prefix === prefix)?.uri;
    // A root without a namespace, or with a mistyped one, still means SVG.
    const own = uri === SVG_NAMESPACE || (prefix === '' && (uri === undefined || uri === this.rootNamespace));
    if (own) return local;
    return prefix === '' ? `foreign:${local}` : name;
  }

  private malformed(problem: string): never {
    const { parser, log, linesBefore } = this;
    const ampersand = strayAmpersand(this.text, parser.position);
    const told =
      ampersand === undefined
        ? { message: problem, ...(problem === NO_CHARACTER ? this.strayCharacter() : {}) }
        : { message: 'a plain &', expected: '&amp;', received: '&' };
    const { line, column } = ampersand ?? { line: parser.line, column: parser.column + 1 };
    log.issues.push({
      kind: 'svg-malformed',
      severity: 'error',
      ...told,
      message: `the file is not well-formed XML: ${told.message}`,
      remedy: 'Save the drawing again from a drawing program, or mend the file at this place.',
      where: { file: log.file, line: line + linesBefore, column },
    });
    throw new FretlayError(log.issues);
  }

  /** A character that no XML holds cannot be seen in most editors, so it is told by its number. */
  private strayCharacter(): Pick<Issue, 'received'> {
    const code = this.text.charCodeAt(this.parser.position - 1);
    const number = `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
    return {
      received:
        code === 0
          ? `a byte of 0 (${number}), as a damaged file has, or one in another encoding than UTF-8`
          : number,
    };
  }
}

import path from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The docstrings of everything the library exports, as the compiler reads them. */

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A public name, or a numeric member or parameter of one. */
export interface PublicName {
  readonly name: string;
  /** Its own docstring, or the nearest one around it that speaks for it. */
  readonly doc: string;
  /** Holds a number, so that a unit must be said. */
  readonly isNumeric: boolean;
  /** A function that refuses bad input in its own lines, so that its errors must be said. */
  readonly refuses: boolean;
}

/** Every export with its docstring, then every numeric field of the exported shapes. */
export function publicNames(): PublicName[] {
  const { checker, exported } = compiled();
  return exported.flatMap((symbol) => {
    const doc = docOf(symbol, checker);
    return [
      { name: symbol.name, doc, isNumeric: false, refuses: refuses(symbol) },
      ...numericFields(symbol, doc, checker),
    ];
  });
}

/**
 * Types that an exported signature or shape names and no program can, each with what names it: `LineMark of Mark`. What
 * the drawer of parts has inside is its own affair, for it is made and handed on.
 */
export function namelessTypes(): string[] {
  const { checker, exported } = compiled();
  const known = new Set(exported);
  const found = new Set<string>();
  const walk = (node: ts.Node, from: ts.Symbol): void => {
    if (ts.isBlock(node)) return;
    const name = ts.isTypeReferenceNode(node)
      ? node.typeName
      : ts.isExpressionWithTypeArguments(node)
        ? node.expression
        : undefined;
    const symbol = name && resolved(checker.getSymbolAtLocation(name)!, checker);
    if (symbol !== undefined && isOurs(symbol) && !known.has(symbol))
      found.add(`${symbol.name} of ${from.name}`);
    ts.forEachChild(node, (child) => walk(child, from));
  };
  for (const symbol of exported)
    if (symbol.name !== 'PartDrawer')
      for (const declared of symbol.declarations ?? []) walk(declared, symbol);
  return [...found];
}

/** True for a type of the library, and not one of the language or a parameter of a type. */
function isOurs({ declarations = [], flags }: ts.Symbol): boolean {
  const source = path.join(root, 'src') + path.sep;
  return (
    !(flags & ts.SymbolFlags.TypeParameter) &&
    declarations.some((declared) => path.normalize(declared.getSourceFile().fileName).startsWith(source))
  );
}

function resolved(symbol: ts.Symbol, checker: ts.TypeChecker): ts.Symbol {
  return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
}

let program: ts.Program | undefined;

/** The library as the compiler reads it, once. */
function compiled(): { readonly checker: ts.TypeChecker; readonly exported: readonly ts.Symbol[] } {
  const entry = path.join(root, 'src/index.ts');
  if (program === undefined) {
    const config = ts.readConfigFile(path.join(root, 'tsconfig.json'), ts.sys.readFile);
    const { options } = ts.parseJsonConfigFileContent(config.config, ts.sys, root);
    program = ts.createProgram([entry], options);
  }
  const checker = program.getTypeChecker();
  const module = checker.getSymbolAtLocation(program.getSourceFile(entry)!)!;
  return { checker, exported: checker.getExportsOfModule(module).map((each) => resolved(each, checker)) };
}

function docOf(symbol: ts.Symbol, checker: ts.TypeChecker): string {
  const tags = symbol
    .getJsDocTags(checker)
    .map(({ name, text }) => `@${name} ${ts.displayPartsToString(text)}`);
  return [ts.displayPartsToString(symbol.getDocumentationComment(checker)), ...tags].join(' ').trim();
}

function numericFields(symbol: ts.Symbol, around: string, checker: ts.TypeChecker): PublicName[] {
  if (!(symbol.flags & ts.SymbolFlags.Interface)) return [];
  const type = checker.getDeclaredTypeOfSymbol(symbol);
  // Inherited fields are looked at where they are declared.
  const own = type
    .getProperties()
    .filter((field) =>
      field.declarations?.some((d) => symbol.declarations?.includes(d.parent as ts.Declaration)),
    );
  return own
    .filter((field) => holdsNumber(checker.getTypeOfSymbol(field)))
    .map((field) => ({
      name: `${symbol.name}.${field.name}`,
      doc: `${docOf(field, checker)} ${around}`,
      isNumeric: true,
      refuses: false,
    }));
}

function holdsNumber(type: ts.Type): boolean {
  const kinds = type.isUnion() ? type.types : [type];
  return kinds.some((kind) => (kind.flags & ts.TypeFlags.NumberLike) !== 0 && !kind.isLiteral());
}

function refuses(symbol: ts.Symbol): boolean {
  const code = symbol.valueDeclaration?.getText() ?? '';
  return (symbol.flags & ts.SymbolFlags.Function) !== 0 && /\bthrow\b|\bthrowOnErrors\(/.test(code);
}

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
  const config = ts.readConfigFile(path.join(root, 'tsconfig.json'), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config.config, ts.sys, root);
  const entry = path.join(root, 'src/index.ts');
  const program = ts.createProgram([entry], options);
  const checker = program.getTypeChecker();
  const module = checker.getSymbolAtLocation(program.getSourceFile(entry)!)!;
  return checker.getExportsOfModule(module).flatMap((exported) => {
    const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
    const doc = docOf(symbol, checker);
    return [
      { name: symbol.name, doc, isNumeric: false, refuses: refuses(symbol) },
      ...numericFields(symbol, doc, checker),
    ];
  });
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

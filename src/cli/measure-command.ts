import path from 'node:path';
import {
  checkPattern,
  type DisplayUnit,
  drawCheckPicture,
  FretlayError,
  formatLength,
  type Issue,
  type Measures,
  measureLayer,
  measurePart,
  measurePattern,
  namesUnit,
  type Pattern,
  parseLength,
  readPattern,
} from '../index.ts';
import { ExitCode } from './exit-code.ts';
import { readDrawingText, writeWhole } from './files.ts';
import { printIssues, textTable } from './messages.ts';

interface MeasureOptions {
  readonly json?: boolean;
  readonly scale?: string;
  readonly finishedWidth?: string;
  readonly unit: DisplayUnit;
  readonly picture?: string;
}

/** `fretlay measure`: the measures of every part, layer and the set, as a table or JSON on stdout. */
export async function measureCommand(file: string, options: MeasureOptions): Promise<number> {
  if (options.picture !== undefined && path.resolve(options.picture) === path.resolve(file)) {
    throw new FretlayError([overwritesPattern(options.picture)]);
  }
  const { pattern, issues } = readPattern(await readDrawingText(file), {
    secondOpinion: true,
    file: path.basename(file),
    ...(options.scale === undefined ? {} : { scale: Number(options.scale) }),
    ...(options.finishedWidth === undefined
      ? {}
      : {
          finishedSize: {
            side: 'width' as const,
            length: lengthArgument('--finished-width', options.finishedWidth),
          },
        }),
  });
  printIssues(issues, options.unit);
  process.stdout.write(
    options.json ? `${JSON.stringify(asJson(pattern), null, 2)}\n` : `${asTable(pattern, options.unit)}\n`,
  );
  if (options.picture !== undefined) {
    const check = checkPattern(pattern);
    const { dir, base } = path.parse(options.picture);
    await writeWhole(dir === '' ? '.' : dir, [{ name: base, text: drawCheckPicture(pattern, check) }]);
    process.stderr.write(
      `${check.findings.length} ${check.findings.length === 1 ? 'place' : 'places'} for the saw to watch, drawn in ${options.picture}\n`,
    );
  }
  return ExitCode.done;
}

function overwritesPattern(file: string): Issue {
  return {
    kind: 'argument-invalid',
    severity: 'error',
    message: 'the picture would overwrite the pattern',
    remedy: 'Give the picture another name.',
    where: { file, field: '--picture' },
  };
}

function lengthArgument(name: string, text: string): number {
  const parsed = parseLength(text);
  if (parsed.ok && namesUnit(text)) return parsed.value;
  throw new FretlayError([
    {
      kind: 'argument-invalid',
      severity: 'error',
      message: parsed.ok ? `"${text}" names no unit` : parsed.problem,
      expected: 'a length such as "8 in" or "200 mm"',
      where: { field: name },
    },
  ]);
}

function asJson(pattern: Pattern) {
  return {
    unit: 'mm',
    scale: pattern.scale,
    set: measurePattern(pattern),
    layers: pattern.layers.map((layer) => ({
      name: layer.name,
      ...measureLayer(layer),
      parts: layer.parts.map((part) => ({ name: part.name, element: part.element, ...measurePart(part) })),
    })),
  };
}

function asTable(pattern: Pattern, unit: DisplayUnit): string {
  const head = [
    '',
    'width',
    'height',
    `area ${unit === 'mm' ? 'cm2' : 'in2'}`,
    'outline',
    'cut length',
    'openings',
    'veins',
  ];
  const row = (name: string, { bounds, area, perimeter, cutLength, openings, veins }: Measures) => [
    name,
    formatLength(bounds.maxX - bounds.minX, unit),
    formatLength(bounds.maxY - bounds.minY, unit),
    (area / (unit === 'mm' ? 100 : 645.16)).toFixed(2),
    formatLength(perimeter, unit, 0),
    formatLength(cutLength, unit, 0),
    `${openings}`,
    `${veins}`,
  ];
  const rows = pattern.layers.flatMap((layer) => [
    row(layer.name, measureLayer(layer)),
    ...layer.parts.map((part) => row(`  ${part.name}`, measurePart(part))),
  ]);
  return textTable([head, ...rows, row('One set', measurePattern(pattern))]);
}

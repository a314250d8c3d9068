import path from 'node:path';
import {
  checkOptions,
  checkPattern,
  counted,
  type DisplayUnit,
  drawCheckPicture,
  findingIssue,
  formatLength,
  type IssuePlace,
  type Job,
  type Measures,
  measureLayer,
  measurePart,
  measurePattern,
  namesUnit,
  type Pattern,
  type PatternCheck,
  parseLength,
  readJob,
} from '../index.ts';
import { inJob, isFinishedLength, readPatternStated } from '../job/read-pattern-stated.ts';
import { ExitCode } from './exit-code.ts';
import { isSameFile, readText, writeWhole } from './files.ts';
import { invalidArgument } from './invalid-argument.ts';
import { printIssues, refusedIn, textTable } from './messages.ts';

interface MeasureOptions {
  readonly json?: boolean;
  readonly scale?: string;
  readonly finishedWidth?: string;
  readonly unit?: DisplayUnit;
  readonly job?: string;
  readonly picture?: string;
}

/**
 * `fretlay measure`: the measures of every part, layer and the set, as a table or JSON on stdout. With a job, the
 * pattern is read and checked as the job would, and what the saw will meet is said on stderr.
 */
export async function measureCommand(file: string, options: MeasureOptions): Promise<number> {
  checkOneScale(options);
  await checkPicture(file, options);
  const job =
    options.job === undefined ? undefined : readJob(await readText(options.job), path.basename(options.job));
  const unit = options.unit ?? job?.unit ?? 'mm';
  return refusedIn(unit, () => measure(file, job, unit, options));
}

async function measure(
  file: string,
  job: Job | undefined,
  unit: DisplayUnit,
  options: MeasureOptions,
): Promise<number> {
  const { pattern, issues } = readPatternStated(
    await readText(file),
    { ...readOptions(options, job), secondOpinion: true, file: path.basename(file) },
    placeOf(options),
  );
  printIssues(issues, unit);
  const check = checkPattern(pattern, job === undefined ? {} : checkOptions(job));
  if (job !== undefined)
    printIssues(
      check.groups.map((group) => findingIssue(group, pattern.file)),
      unit,
    );
  if (options.picture !== undefined) {
    const { dir, base } = path.parse(options.picture);
    const text = drawCheckPicture(pattern, check, unit);
    // Before the table: where it cannot be written, nothing is told as done.
    await writeWhole(dir === '' ? '.' : dir, [{ name: base, text }]);
  }
  process.stdout.write(
    options.json ? `${JSON.stringify(asJson(pattern, check), null, 2)}\n` : `${asTable(pattern, unit)}\n`,
  );
  if (options.picture !== undefined)
    process.stderr.write(
      `${counted(check.findings.length, 'place')} for the saw to watch, drawn in ${options.picture}\n`,
    );
  return ExitCode.done;
}

/** How the job reads its pattern, but for the scale when the command line states one. */
function readOptions({ scale, finishedWidth }: MeasureOptions, job: Job | undefined) {
  const { scale: _, finishedSize: __, ...others } = job?.pattern ?? {};
  if (scale === undefined && finishedWidth === undefined) return job?.pattern ?? {};
  return {
    ...others,
    ...(scale === undefined ? {} : { scale: scaleArgument(scale) }),
    ...(finishedWidth === undefined
      ? {}
      : {
          finishedSize: {
            side: 'width' as const,
            length: finishedWidthArgument(finishedWidth),
          },
        }),
  };
}

/** Where a person stated what the pattern is read by: on the command line, which goes before the job, or in the job. */
function placeOf({ scale, finishedWidth, job }: MeasureOptions): (field: string) => IssuePlace {
  const ofJob = inJob(path.basename(job ?? ''));
  return (field) => {
    if (scale !== undefined && field === 'scale') return { field: '--scale' };
    const isWidth = finishedWidth !== undefined && field.startsWith('finishedSize');
    return isWidth ? { field: '--finished-width' } : ofJob(field);
  };
}

function checkOneScale({ scale, finishedWidth }: MeasureOptions): void {
  if (scale === undefined || finishedWidth === undefined) return;
  throw invalidArgument('--scale', {
    message: 'both a scale and a finished width are stated',
    remedy: 'Leave out --scale or --finished-width.',
  });
}

async function checkPicture(file: string, { picture, job }: MeasureOptions): Promise<void> {
  if (picture === undefined) return;
  for (const [read, what] of [
    [file, 'the pattern'],
    [job, 'the job'],
  ])
    if (read !== undefined && (await isSameFile(read, picture)))
      throw invalidArgument('--picture', {
        message: `the picture would take the place of ${what}`,
        remedy: 'Give the picture another name.',
      });
}

function scaleArgument(text: string): number {
  const value = Number(text);
  if (value > 0 && Number.isFinite(value)) return value;
  throw invalidArgument('--scale', {
    message: `"${text}" is not a scale`,
    expected: 'a number above 0, the finished length divided by the drawn one, such as 1.5',
  });
}

function finishedWidthArgument(text: string): number {
  const parsed = parseLength(text);
  if (parsed.ok && namesUnit(text) && isFinishedLength(parsed.value)) return parsed.value;
  const problem = namesUnit(text) ? `"${text}" is no size of a pattern` : `"${text}" names no unit`;
  throw invalidArgument('--finished-width', {
    message: parsed.ok ? problem : parsed.problem,
    expected: 'a length such as "8 in" or "200 mm"',
  });
}

function asJson(pattern: Pattern, { saw, findings }: PatternCheck) {
  return {
    unit: 'mm',
    scale: pattern.scale,
    set: measurePattern(pattern),
    layers: pattern.layers.map((layer) => ({
      name: layer.name,
      ...measureLayer(layer),
      parts: layer.parts.map((part) => ({ name: part.name, element: part.element, ...measurePart(part) })),
    })),
    check: { saw, findings },
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

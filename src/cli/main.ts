#!/usr/bin/env node
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { ExitCode } from './exit-code.ts';
import { outliveLostOutput } from './lost-output.ts';
import { measureCommand } from './measure-command.ts';
import { printIssues, refusedIn } from './messages.ts';
import { planCommand } from './plan-command.ts';
import { verifyCommand } from './verify-command.ts';

/** The command line: arguments in, one of the three commands run, an exit code out. */

const EXIT_CODES_HELP = `
Exit codes:
  0  done, nothing wrong
  1  done, but copies found no place or a check failed: read the messages
  2  the input or the command line was refused; nothing was written
  3  a fault in fretlay itself`;

/** The name of a file or folder: `--out --settle-rack` would else make a folder of that name, and settle nothing. */
function fileName(text: string): string {
  if (!text.startsWith('-')) return text;
  throw new InvalidArgumentError('A name is missing, or begins with "-": put "./" before one that does.');
}

function program(): Command {
  const root = new Command('fretlay')
    .description('From an SVG scroll-saw pattern to true-scale placement sheets for your boards.')
    .version('0.1.0')
    .showSuggestionAfterError()
    .exitOverride()
    // As all other errors begin.
    .configureOutput({
      outputError: (text, write) => write(text.replace(/^error:/, 'Error:')),
    })
    .addHelpText('after', EXIT_CODES_HELP);
  root
    .command('measure')
    .description('Measure the parts of a pattern: area, cut length, openings to drill, size.')
    .argument('<pattern.svg>', 'the drawing')
    .option('--json', 'print JSON instead of a table')
    .option('--scale <factor>', 'finished size / drawn size (instead of that in the job)')
    .option('--finished-width <length>', 'finished width of the whole drawing, such as "8 in"')
    .option(
      '--picture <file.svg>',
      'draw the parts with every place the saw will have trouble with',
      fileName,
    )
    .option(
      '--job <job.json>',
      'read and check the pattern as this job would: scale, kerf, blade, grain, necks',
      fileName,
    )
    .addOption(
      new Option('--unit <unit>', 'unit of table, messages and picture; that of the job, or mm').choices([
        'mm',
        'in',
      ]),
    )
    .action((file: string, options) => run(() => measureCommand(file, options)));
  root
    .command('plan')
    .description(
      'Run a whole job: lay the batch out, check it, write placement sheets, layout file and report.',
    )
    .argument('<job.json>', 'the job file')
    .requiredOption('--out <folder>', 'folder for the results; made when it is not there', fileName)
    .option('--effort <number>', 'search effort in thousands of moves (instead of that in the job)')
    .option('--seed <number>', 'seed of the search (instead of that in the job)')
    .option(
      '--minutes <number>',
      'stop searching after so many minutes and write the best layout found until then',
    )
    .option('--settle-rack', "replace the job's rack file by the rack after the batch; the old one is kept")
    .option('--settle-again', 'the same for one more batch of what the rack was settled for today')
    .action((file: string, options) => run(() => planCommand(file, options)));
  root
    .command('verify')
    .description('Check a layout file with independent geometry: distances, edges, grain, sets, figures.')
    .argument('<layout.json>', 'the layout file')
    .option('--json', 'print JSON instead of text')
    .option('--job <job.json>', 'check as well that the layout is what this job asks for', fileName)
    .action((file: string, options) => run(() => verifyCommand(file, options)));
  return root;
}

outliveLostOutput(process.stdout, ({ issues }) => printIssues(issues));
outliveLostOutput(process.stderr);

async function run(command: () => Promise<number>): Promise<void> {
  // A command that is refused before it has read a job does not know in which unit the person works.
  process.exitCode = await refusedIn('both', command);
}

try {
  await program().parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? ExitCode.done : ExitCode.refused;
  } else {
    const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(
      `fretlay met a fault of its own; nothing more was written. Please report this:\n${detail}\n`,
    );
    process.exitCode = ExitCode.fault;
  }
}

import type { FretlayError } from '../index.ts';
import { ExitCode } from './exit-code.ts';
import { fileError, isCode } from './files.ts';

/** What a stream of output is asked here. */
interface OutputStream {
  on(event: 'error', told: (error: unknown) => void): unknown;
}

/**
 * Lets a command do what is asked for to its end where its output cannot be written: its files may be in place then, and
 * the rack not yet settled. Whoever reads the output may have seen enough, as `head` does; any other failure, such as a
 * full disk, is told where that is possible, and the exit code is not that of a run that went well.
 *
 * @param tell what writes the failure down; none for the stream that failures are written to
 */
export function outliveLostOutput(stream: OutputStream, tell?: (words: FretlayError) => void): void {
  let isLost = false;
  stream.on('error', (error) => {
    // Each piece that is written fails again.
    if (isLost || isCode(error, 'EPIPE')) return;
    isLost = true;
    tell?.(fileError('folder-unwritable', 'cannot be written to', 'standard output', error));
    // The command, which is not yet at its end, states its own code last.
    process.once('exit', () => {
      if (process.exitCode === ExitCode.done) process.exitCode = ExitCode.incomplete;
    });
  });
}

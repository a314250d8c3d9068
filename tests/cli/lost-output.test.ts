import { EventEmitter } from 'node:events';
import { expect, it, vi } from 'vitest';
import { outliveLostOutput } from '../../src/cli/lost-output.ts';
import type { FretlayError } from '../../src/index.ts';

function failing(...codes: string[]): string[] {
  const stream = new EventEmitter();
  const told: string[] = [];
  outliveLostOutput(stream, ({ message }: FretlayError) => told.push(message));
  for (const code of codes) stream.emit('error', Object.assign(new Error(code), { code }));
  return told;
}

it('tells once that the output is lost, and ends as a run that did not go well', () => {
  const atEnd = vi.spyOn(process, 'once').mockReturnThis();
  const before = process.exitCode;
  try {
    expect(failing('EPIPE')).toEqual([]);
    expect(atEnd).not.toHaveBeenCalled();
    expect(failing('ENOSPC', 'ENOSPC')).toEqual([expect.stringContaining('the disk is full')]);
    const [event, end] = atEnd.mock.calls[0] as [string, () => void];
    process.exitCode = 0;
    end();
    expect([event, process.exitCode]).toEqual(['exit', 1]);
  } finally {
    process.exitCode = before;
    atEnd.mockRestore();
  }
});

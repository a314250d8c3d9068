import { expect, it } from 'vitest';
import { untilStopped } from '../../src/cli/until-stopped.ts';

it('hears Ctrl-C that came while the search did its last work and heard nothing', async () => {
  const before = process.listenerCount('SIGINT');
  const late = untilStopped(async () => {
    setImmediate(() => setImmediate(() => process.emit('SIGINT')));
    return 'laid out';
  });
  await expect(late).resolves.toEqual({ result: 'laid out', isInterrupted: true });
  const undisturbed = await untilStopped(async () => 'laid out');
  expect(undisturbed.isInterrupted).toBe(false);
  expect(process.listenerCount('SIGINT')).toBe(before);
});

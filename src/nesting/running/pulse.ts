/** The heartbeat of a long search: lets the event loop breathe, so that an abort or a message gets through. */

/** Milliseconds between two breaths. */
const BREATH = 10;

/** See the top of the file. */
export class Pulse {
  private last = performance.now();
  private readonly signal: AbortSignal | undefined;

  constructor(signal: AbortSignal | undefined) {
    this.signal = signal;
  }

  /** True once the search has been told to stop. */
  get stopped(): boolean {
    return this.signal?.aborted === true;
  }

  /** True when {@link breathe} is due; costs a clock reading. */
  get due(): boolean {
    return performance.now() - this.last >= BREATH;
  }

  /** Gives way to the event loop once. */
  async breathe(): Promise<void> {
    await nextTurn();
    this.last = performance.now();
  }
}

/** The next turn of the event loop; timers would let a millisecond or more go by idle. */
function nextTurn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(0);
  });
}

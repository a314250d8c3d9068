/** A stop of one's own that comes when the caller's does, too: what is begun with its signal can also be ended from here. */
export class OwnStop {
  readonly #stop = new AbortController();
  readonly #callers: AbortSignal | undefined;

  constructor(callers: AbortSignal | undefined) {
    this.#callers = callers;
    if (callers?.aborted) this.stop();
    callers?.addEventListener('abort', this.stop);
  }

  get signal(): AbortSignal {
    return this.#stop.signal;
  }

  readonly stop = (): void => this.#stop.abort();

  /** No longer listens to the caller's signal, which may live on for many a search. */
  release(): void {
    this.#callers?.removeEventListener('abort', this.stop);
  }
}

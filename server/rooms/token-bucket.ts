/** How many seconds' worth of its rate somebody may use at once who was quiet before. */
export const BURST_SECONDS = 60;

/**
 * A steady rate with room for a burst: what a phone brings back from a month without signal passes, a flood does not.
 * Common practice ("token bucket"), no published source for the numbers.
 */
export class TokenBucket {
  readonly #perMs: number;
  readonly #size: number;
  readonly #clock: () => number;
  #level: number;
  #at: number;

  /** `perSecond` is what may be used for ever; `clock` in ms. */
  constructor(perSecond: number, clock: () => number) {
    this.#perMs = perSecond / 1000;
    this.#size = perSecond * BURST_SECONDS;
    this.#clock = clock;
    this.#level = this.#size;
    this.#at = clock();
  }

  /** Takes so many, and may go below nothing once; false when it was empty already. */
  take(count: number): boolean {
    const now = this.#clock();
    this.#level = Math.min(this.#size, this.#level + Math.max(0, now - this.#at) * this.#perMs);
    this.#at = now;
    if (this.#level <= 0) return false;
    this.#level -= count;
    return true;
  }

  /** What is left, as a share of a full bucket. */
  get left(): number {
    return this.#level / this.#size;
  }
}

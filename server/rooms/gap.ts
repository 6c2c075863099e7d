import type { Connection } from "./connection.ts";
import type { LiveDocument } from "./live-document.ts";

/**
 * Changes that wait for an earlier one. Two frames that crossed fill such a gap within moments; one that stays means
 * that a device has lost something it sent, and what builds on it can never be taken.
 */
export class Gap {
  readonly #maxBytes: number;
  readonly #maxMs: number;
  #since = 0;
  readonly #by = new Set<Connection>();

  constructor(maxBytes: number, maxMs: number) {
    this.#maxBytes = maxBytes;
    this.#maxMs = maxMs;
  }

  /** Who has brought what waits now. */
  get by(): ReadonlySet<Connection> {
    return this.#by;
  }

  /** Looks at the document after a change; `before` is how many bytes waited before it. */
  note(live: LiveDocument, before: number, from: Connection, now: number): void {
    const bytes = live.gapBytes;
    if (bytes === 0) this.#by.clear();
    if (before === 0) this.#since = now;
    if (bytes > before) this.#by.add(from);
  }

  /** Whom to send away because the gap is too large or too old; then it is dropped. Empty while it may still fill. */
  overdue(live: LiveDocument, now: number): readonly Connection[] {
    const bytes = live.gapBytes;
    if (bytes === 0 || (bytes <= this.#maxBytes && now - this.#since < this.#maxMs)) return [];
    const by = [...this.#by];
    live.dropGaps();
    this.#by.clear();
    return by;
  }

  leave(connection: Connection): void {
    this.#by.delete(connection);
  }
}

import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import type { RoomBounds } from "./bounds.ts";
import type { Room } from "./room.ts";

export interface HousekeepingParts {
  readonly bounds: RoomBounds;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Time that only moves on, ms. */
  readonly elapsed: () => number;
}

/** How long (ms) nobody must have sent anything before a document is folded: writing it out holds everybody up. */
const QUIET_MS = 400;
/** With so many times the rows or bytes after which folding is due, it no longer waits for a quiet moment. */
const OVERDUE = 4;
/** A document used within this time (ms) stays in memory even beyond the bound: it would be read again at once. */
const DWELL_MS = 30_000;
/** After a failure, e.g. of a full disk, folding waits so long (ms). */
const AFTER_FAILURE_MS = 60_000;
/** An idle document with less than this after its snapshot is let go as it is. */
const WORTH_ROWS = 20;
const WORTH_BYTES = 16_384;

/** Folds documents when nobody is held up by it, and lets the least used out of memory when there are too many. */
export class Housekeeping {
  readonly #parts: HousekeepingParts;
  readonly #failedAt = new WeakMap<Room, number>();
  /** One at a time: each holds everybody up while it writes its document out. */
  #folding = false;

  constructor(parts: HousekeepingParts) {
    this.#parts = parts;
  }

  /** Begins at most one folding. `quietSince` is when anybody sent something last. */
  tick(rooms: Iterable<Room>, quietSince: number): void {
    if (this.#folding) return;
    const all = [...rooms];
    const quiet = this.#parts.elapsed() - quietSince >= QUIET_MS;
    const due = all.find((room) => this.#mayFold(room) && this.#amount(room) >= (quiet ? 1 : OVERDUE));
    if (due !== undefined) void this.#fold(due);
    else this.#coolDown(all);
  }

  /** True when a room that nobody needs was worth folding first, and is being folded. */
  foldsBeforeLettingGo(room: Room): boolean {
    const { tailRows, tailBytes } = room.kept.facts;
    const worth = tailRows >= WORTH_ROWS || tailBytes >= WORTH_BYTES;
    if (!worth || !this.#mayFold(room)) return false;
    if (!this.#folding) void this.#fold(room);
    return true;
  }

  /** Rows or bytes since the last snapshot, as a share of what makes folding due. */
  #amount({ kept }: Room): number {
    const { foldRows, foldBytes } = this.#parts.bounds;
    const { tailRows, tailBytes } = kept.facts;
    return Math.max(tailRows / foldRows, tailBytes / foldBytes);
  }

  #mayFold(room: Room): boolean {
    const failedAt = this.#failedAt.get(room);
    const waited = failedAt === undefined || this.#parts.elapsed() - failedAt >= AFTER_FAILURE_MS;
    return waited && !room.kept.busy;
  }

  async #fold(room: Room): Promise<void> {
    const { log, metrics, elapsed } = this.#parts;
    const { document } = room;
    this.#folding = true;
    try {
      log.info("folding", { document, rows: room.kept.facts.tailRows });
      if (await room.fold()) log.info("folded", { document, bytes: room.kept.facts.bytes });
      else this.#failedAt.set(room, elapsed());
    } catch (error) {
      this.#failedAt.set(room, elapsed());
      metrics.foldingFailures.add();
      log.warn("not-folded", { document, why: whyOf(error) });
    } finally {
      this.#folding = false;
    }
  }

  #coolDown(rooms: readonly Room[]): void {
    const { boardsInMemory, memoryBytes } = this.#parts.bounds;
    const live = rooms.filter(({ kept }) => kept.live !== null);
    let count = live.length;
    let bytes = live.reduce((sum, { kept }) => sum + kept.facts.bytes, 0);
    for (const room of live.sort((a, b) => a.kept.usedAt - b.kept.usedAt)) {
      const resting = this.#parts.elapsed() - room.kept.usedAt >= DWELL_MS;
      if (!resting || (count <= boardsInMemory && bytes <= memoryBytes)) return;
      if (room.kept.facts.tailRows > 0) {
        if (this.#mayFold(room)) return void this.#fold(room);
      } else if (room.kept.cool()) {
        count -= 1;
        bytes -= room.kept.facts.bytes;
      }
    }
  }
}

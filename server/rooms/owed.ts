import * as Y from "yjs";
import type { Metrics } from "../metrics/metrics.ts";
import type { Connection } from "./connection.ts";
import { acknowledgementFrame } from "./frames.ts";
import type { KeptDocument } from "./kept-document.ts";

interface Debt {
  readonly clients: Set<number>;
  /** When the first change of it arrived (ms, monotonic); null when it is only an answer to a question. */
  arrived: number | null;
}

const MS_PER_S = 1000;

/** Acknowledgements that wait for the disk: one flush for all who wait, as often as somebody has begun to. */
export class Owed {
  readonly #kept: KeptDocument;
  readonly #metrics: Metrics;
  #debts = new Map<Connection, Debt>();
  #settling = false;

  constructor(kept: KeptDocument, metrics: Metrics) {
    this.#kept = kept;
    this.#metrics = metrics;
  }

  get settling(): boolean {
    return this.#settling;
  }

  add(to: Connection, clients: Iterable<number>, arrived: number | null): void {
    const debt = this.#debts.get(to) ?? { clients: new Set(), arrived };
    for (const client of clients) debt.clients.add(client);
    debt.arrived ??= arrived;
    this.#debts.set(to, debt);
    if (!this.#settling) void this.#settle();
  }

  forget(connection: Connection): void {
    this.#debts.delete(connection);
  }

  async #settle(): Promise<void> {
    this.#settling = true;
    while (this.#debts.size > 0) {
      const debts = this.#debts;
      this.#debts = new Map();
      // Clocks are read before the flush begins: later rows may miss it.
      const frames = await this.#framesFor(debts);
      const durable = this.#kept.writeBacklog() && (await this.#kept.flush());
      for (const [to, frame, arrived] of frames) {
        if (!durable) to.close(4507);
        else {
          to.send(frame);
          if (arrived !== null)
            this.#metrics.acknowledgement.observe((performance.now() - arrived) / MS_PER_S);
        }
      }
    }
    this.#settling = false;
  }

  #framesFor(debts: ReadonlyMap<Connection, Debt>) {
    return new Promise<(readonly [Connection, Uint8Array, number | null])[]>((resolve) =>
      this.#kept.whenKnown(({ clockOf }) =>
        resolve(
          [...debts].map(([to, { clients, arrived }]) => {
            const clocks = new Map([...clients].map((client) => [client, clockOf(client)]));
            return [to, acknowledgementFrame(Y.encodeStateVector(clocks)), arrived] as const;
          }),
        ),
      ),
    );
  }
}

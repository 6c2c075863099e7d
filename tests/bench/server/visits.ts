import { setTimeout as wait } from "node:timers/promises";
import { seeded } from "#tests/support/big-board.ts";
import { cardOf, memberOf } from "#tests/support/seed-full.ts";
import { BenchClient } from "./bench-client.ts";
import { BOARDS } from "./boards.ts";
import type { Dialect } from "./dialects.ts";
import { epochNow } from "./measuring.ts";

export interface VisitedServer {
  readonly origin: string;
  readonly dialect: Dialect;
  /** How many boards there are, called `soak-0` and up. */
  readonly boards: number;
}

/** Visitors at the same time. */
const VISITORS = 60;
const STAY_MS = 2000;
const TICKS = 3;
/** Who has got nothing by then is stuck. */
const PATIENCE_MS = 60_000;

/**
 * Lets visitors come and go: each joins some board, fetches it, ticks, stays a little and leaves, every third one
 * without saying so. `onVisit` hears whether the board came. Answers how to end it, which resolves when all have gone.
 */
export const startVisits = (
  server: VisitedServer,
  onVisit: (served: boolean) => void,
): (() => Promise<void>) => {
  let ending = false;
  const visitor = async (seat: number): Promise<void> => {
    const random = seeded(seat);
    while (!ending) {
      onVisit(await visit(server, seat, random));
    }
  };
  const all = Promise.all(Array.from({ length: VISITORS }, (_, seat) => visitor(seat)));
  return async () => {
    ending = true;
    await all;
  };
};

const visit = async (
  { origin, dialect, boards }: VisitedServer,
  seat: number,
  random: () => number,
): Promise<boolean> => {
  const board = `soak-${Math.floor(random() * boards)}`;
  const client = await BenchClient.connect({ origin, dialect, board });
  const served = await Promise.race([client.synced.then(() => true), wait(PATIENCE_MS).then(() => false)]);
  const member = memberOf(seat % BOARDS.small.chairs);
  for (let n = 0; n < TICKS; n++) {
    const key = `${cardOf(Math.floor(random() * BOARDS.small.cards))}/${member}/phone-${seat}`;
    const level = Math.floor(random() * 4);
    client.doc.getMap("statuses").set(key, { level, from: 0, anchor: 0, fromAnchor: 0, at: epochNow() });
    await wait(random() * STAY_MS);
  }
  if (!served || random() < 1 / 3) client.kill();
  else await client.close();
  return served;
};

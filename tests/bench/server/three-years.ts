/** A band's document after three years: what a phone that is new to the board has to fetch. Always the same bytes. */
import * as Y from "yjs";
import type { Level } from "#shared/board/status.ts";
import { idsFrom } from "#shared/commands/command.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner, type Runner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { seeded } from "#tests/support/big-board.ts";
import { cardOf, chairOf, memberOf, seedFull, songOf } from "#tests/support/seed-full.ts";

const SIZE = { songs: 60, chairs: 8, cards: 60 * 8 * 10, takes: 0 };
/** Every visit is a page of its own, and so a Yjs client of its own. */
const VISITS = 900;
const MARKS_PER_VISIT = 80;
const TAKES = 10_000;

const DAY_MS = 86_400_000;
const BEGUN = Date.UTC(2023, 0, 1);
const SEASON_DAYS = 270;
const DAYS = 3 * 365;

/** 60 songs × 8 chairs × 10 details, 72,000 changes of a status, 10,000 takes, in 900 visits. */
export const threeYears = (): Uint8Array => {
  const random = seeded(31);
  const ydoc = new Y.Doc();
  ydoc.clientID = clientFrom(random);
  seedFull(ydoc, BEGUN + SEASON_DAYS * DAY_MS, SIZE);
  const runner = createRunner(createBoardDocument(ydoc));
  for (let n = 0; n < VISITS; n++) {
    ydoc.clientID = clientFrom(random);
    // One transaction a visit: the work at a transaction's end grows with the clients there have been.
    ydoc.transact(() => visit(runner, n, random));
  }
  runner.close();
  return Y.encodeStateAsUpdate(ydoc);
};

const clientFrom = (random: () => number): number => Math.floor(random() * 2 ** 32);

/** One player marks details of their chair on one of their two phones and logs takes. */
const visit = (runner: Runner, n: number, random: () => number): void => {
  const chair = n % SIZE.chairs;
  const author = {
    member: memberOf(chair),
    writer: `phone-${chair}-${n < VISITS / 2 ? "old" : "new"}`,
    role: "member",
  } as const;
  const begun = BEGUN + (SEASON_DAYS + (n / VISITS) * (DAYS - SEASON_DAYS)) * DAY_MS;
  const context = (id: string, now: number) => ({ id, now, author, newId: idsFrom(id) });
  const first = Math.floor(random() * SIZE.cards);
  for (let i = 0; i < MARKS_PER_VISIT; i++) {
    // A step of as many chairs stays on this player's column.
    const card = (first - (first % SIZE.chairs) + chair + i * SIZE.chairs) % SIZE.cards;
    const level = Math.floor(random() * 4) as Level;
    const now = Math.round(begun + i * 4000);
    expectDone(
      runner.run(
        markDetail,
        { card: cardOf(card), member: author.member, level },
        context(`visit-${n}-${i}`, now),
      ),
    );
  }
  const [from, to] = [n, n + 1].map((visits) => Math.round((visits * TAKES) / VISITS));
  for (let take = from ?? 0; take < (to ?? 0); take++) {
    const at = Math.round(begun + (take - (from ?? 0)) * 300_000);
    const seats = Array.from({ length: SIZE.chairs }, (_, c) => ({ chair: chairOf(c), member: memberOf(c) }));
    const occasion = `r:${new Date(at).toISOString().slice(0, 10)}`;
    const feel = random() < 0.7 ? "clean" : "wobble";
    expectDone(
      runner.run(
        logTake,
        { song: songOf(take % SIZE.songs), occasion, kind: "run", at, seats, feel },
        context(`take-${take}`, at),
      ),
    );
  }
};

const expectDone = (done: ReturnType<Runner["run"]>): void => {
  if (!done.ok) throw new Error(done.error.sentence);
};

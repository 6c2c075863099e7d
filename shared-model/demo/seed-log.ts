import type { Id } from "../board/ids.ts";
import type { Scope, Take } from "../board/take.ts";
import { flagSlip } from "../commands/flag-slip.ts";
import { logTake } from "../commands/log-take.ts";
import type { DemoEvening, DemoSlip, DemoSolo, DemoTake, PersonCode } from "./demo-data.ts";
import { cardId, chairId, gigId, personId, songId } from "./demo-ids.ts";
import { seatsOf } from "./demo-seats.ts";
import { roomMinutes } from "./season/minutes.ts";
import type { DemoNight } from "./season/nights.ts";
import type { Seeder } from "./seeder.ts";

const MINUTE = 60_000;
const START_HOUR = 19.5;

/** Who taps the log, evening by evening; none of them was ever away. */
const LOGGERS: readonly PersonCode[] = ["lucia", "priya", "tomasz"];
/** Taps a take a second time now and then, as happens in a room; the two are one take. */
const SECOND_LOGGER: PersonCode = "anneli";
const SECOND_EVERY = 5;

interface Occasion {
  readonly id: Id;
  readonly kind: DemoTake["kind"] | "gig" | null;
  readonly evening: DemoEvening;
  readonly logger: PersonCode;
}

/** Logs the rehearsals, in order of time. */
export const seedRehearsals = (seeder: Seeder, evenings: readonly DemoEvening[]): void => {
  evenings.forEach((evening, i) => {
    const logger = LOGGERS[i % LOGGERS.length] ?? "tomasz";
    const id = `r:${seeder.calendar.day(evening.day)}`;
    logEvening(seeder, { id, kind: null, evening, logger });
  });
};

/** Logs the gigs behind us; the leader taps after each song. */
export const seedNights = (seeder: Seeder, nights: readonly DemoNight[]): void => {
  for (const { gig, night } of nights) {
    logEvening(seeder, { id: `g:${gigId(gig.code)}`, kind: "gig", evening: night, logger: "tomasz" });
  }
};

/** Logs work at home, each sitting by the player alone. */
export const seedHomework = ({ as, calendar }: Seeder, sittings: readonly DemoSolo[]): void => {
  for (const { day, by, chair, song, feel } of sittings) {
    const at = calendar.at(day, 20);
    as(by, at, logTake, {
      song: songId(song),
      occasion: `s:${personId(by)}:${calendar.day(day)}`,
      kind: "solo",
      at,
      seats: [{ chair: chairId(chair), member: personId(by) }],
      feel,
    });
  }
};

const logEvening = (seeder: Seeder, occasion: Occasion): void => {
  let at = seeder.calendar.at(occasion.evening.day, START_HOUR);
  occasion.evening.takes.forEach((take, i) => {
    at += Math.round(roomMinutes(take)) * MINUTE;
    logOne(seeder, occasion, take, at);
    const twice = i % SECOND_EVERY === 0 && !occasion.evening.away.includes("Ky");
    if (twice) tap(seeder, occasion, { ...take, slips: [] }, at + MINUTE / 2, SECOND_LOGGER);
  });
};

/** The logger taps the take with the slips nobody else owns; players flag their own on their own phones. */
const logOne = (seeder: Seeder, occasion: Occasion, take: DemoTake, at: number): void => {
  const seats = seatsOf(take.song, occasion.evening);
  const ownerOf = ({ chair }: DemoSlip): PersonCode => {
    const member = seats.find((seat) => seat.chair === chair)?.member;
    return member === undefined || member === "karim" ? occasion.logger : member;
  };
  const byLogger = take.slips.filter((slip) => ownerOf(slip) === occasion.logger);
  tap(seeder, occasion, { ...take, slips: byLogger }, at, occasion.logger);
  const logged = latestTake(seeder, take, occasion.id);
  for (const slip of take.slips) {
    const owner = ownerOf(slip);
    if (owner === occasion.logger) continue;
    seeder.as(owner, at + MINUTE, flagSlip, {
      song: songId(take.song),
      take: logged.id,
      ...slipEntryOf(slip),
    });
  }
};

const latestTake = ({ board }: Seeder, { song }: DemoTake, occasion: Id): Take => {
  const takes = board().songs.get(songId(song))?.takes ?? [];
  const found = takes.filter((take) => take.occasion === occasion).at(-1);
  if (found === undefined) throw new Error(`No take of ${song} on ${occasion}`);
  return found;
};

const tap = ({ as, board }: Seeder, occasion: Occasion, take: DemoTake, at: number, by: PersonCode): void => {
  const { song, feel, tempoStart, tempoEnd } = take;
  as(by, at, logTake, {
    song: songId(song),
    occasion: occasion.id,
    kind: occasion.kind ?? take.kind,
    at,
    seats: seatsOf(song, occasion.evening).map(({ chair, member }) => ({
      chair: chairId(chair),
      member: personId(member),
    })),
    scope: scopeOf(take, board().songs.get(songId(song))?.sections ?? []),
    feel,
    tempoStart,
    tempoEnd,
    slips: take.slips.map(slipEntryOf),
  });
};

const slipEntryOf = ({ chair, card, severity }: DemoSlip) => ({
  chair: chair === null ? null : chairId(chair),
  card: card === null ? null : cardId(card),
  severity,
});

const scopeOf = (
  { song, scope }: DemoTake,
  sections: readonly { readonly id: Id; readonly name: string }[],
): { of: "whole" } | { of: "sections"; sections: Id[] } | { of: "cards"; cards: Id[] } => {
  if (scope.of === "whole") return { of: "whole" };
  if (scope.of === "cards") return { of: "cards", cards: scope.cards.map(cardId) };
  const ids = scope.sections.map((name) => {
    const found = sections.find((section) => section.name === name);
    if (found === undefined) throw new Error(`${song} has no section ${name}`);
    return found.id;
  });
  return { of: "sections", sections: ids } satisfies Scope;
};

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clockWords } from "#shared/lib/moment-words.ts";
import {
  attendanceOf,
  awayOn,
  eveningOn,
  eveningsAhead,
  gigOfEvening,
  hereAt,
  missingOn,
  momentOn,
  playingMinutes,
} from "#shared/selectors/evenings.ts";
import { seatsFor } from "#shared/selectors/seating.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";
import { laws } from "#tests/support/fuzz.ts";

const DAY = "2026-03-11";
const HOUR = 3_600_000;

test("an evening nobody planned is as evenings usually are: 85 minutes of 120", () => {
  const evening = eveningOn(smallBand().board(), "2027-01-01");
  expect(evening).toMatchObject({ booked: 120, startedAt: null, plan: [] });
  expect(playingMinutes(evening)).toBe(85);
  expect(playingMinutes({ booked: 20, setUp: 15, pause: 10, packDown: 10 })).toBe(0);
});

test("the evening serves the gig that was named, else the next one, else none", () => {
  const trial = smallBand();
  const board = trial.board();
  expect(eveningsAhead(board, "2026-03-05").map(({ day }) => day)).toEqual([DAY]);
  expect(gigOfEvening(board, eveningOn(board, DAY))?.id).toBe("harbour");
  expect(gigOfEvening(board, eveningOn(board, "2026-04-01"))?.id).toBe("harbour");
  expect(gigOfEvening(board, eveningOn(board, "2026-06-01"))).toBeNull();
});

describe("who is there", () => {
  test("who said they are away is missing with their chairs, unless they come all the same", () => {
    const trial = smallBand();
    expect(awayOn(trial.board(), "2026-03-17")).toEqual([]);
    expect(awayOn(trial.board(), "2026-03-18")).toEqual(["minjae"]);
    const missing = missingOn(trial.board(), "2026-03-19");
    expect(missing.map(({ person, chairs }) => [person, chairs.map(({ name }) => name)])).toEqual([
      ["minjae", ["Bass"]],
    ]);
    const evening = () => eveningOn(trial.board(), "2026-03-18");
    expect(hereAt(trial.board(), evening(), NOON).away).toEqual(["minjae"]);
    trial.done("sayWhoIsHere", { day: "2026-03-18", person: "minjae", here: true, from: NOON });
    expect(hereAt(trial.board(), evening(), NOON).away).toEqual([]);
    expect(hereAt(trial.board(), evening(), NOON - 1).away).toEqual(["minjae"]);
  });

  test("at a gig its own line-up says whose chair is empty", () => {
    const trial = smallBand();
    trial.done("sayAway", { person: "lucia", from: "2026-04-18", to: "2026-04-18" });
    const gig = () => trial.board().gigs.find(({ id }) => id === "harbour") ?? null;
    expect(missingOn(trial.board(), "2026-04-18", gig()).map(({ person }) => person)).toEqual(["lucia"]);
    trial.done("seatForGig", { gig: "harbour", chair: "drums", member: "minjae" });
    expect(missingOn(trial.board(), "2026-04-18", gig())).toEqual([]);
  });

  test("who comes late is seated in takes from then on, who leaves early in those until then", () => {
    const trial = smallBand();
    const day = "2026-03-03";
    const start = Date.UTC(2026, 2, 3, 19);
    trial.done("sayWhoIsHere", { day, person: "minjae", here: true, from: start + HOUR });
    trial.done("sayWhoIsHere", { day, person: "lucia", here: true, to: start + 2 * HOUR });
    for (const hours of [0.5, 1.5, 2.5]) {
      const board = trial.board();
      const at = start + hours * HOUR;
      const file = board.songs.get("diesel");
      if (file === undefined) throw new Error("no song");
      const seats = seatsFor(board, file, hereAt(board, eveningOn(board, day), at), null);
      trial.done("logTake", { song: "diesel", occasion: `r:${day}`, kind: "run", at, seats, feel: "clean" });
    }
    const takes = trial
      .board()
      .songs.get("diesel")
      ?.takes.filter(({ occasion }) => occasion === `r:${day}`);
    expect(takes?.map(({ seats }) => seats.map(({ member }) => member).sort())).toEqual([
      ["lucia"],
      ["lucia", "minjae"],
      ["minjae"],
    ]);
  });
});

test("what was said for the evening goes before the days away", () => {
  const trial = smallBand();
  trial.done("sayWhoIsHere", { day: DAY, person: "lucia", here: false });
  const board = trial.board();
  expect(attendanceOf(board, eveningOn(board, DAY), "lucia").here).toBe(false);
  expect(attendanceOf(board, eveningOn(board, DAY), "minjae").here).toBe(true);
});

test("a clock time on a day is the moment that clock shows it, also when the clocks change", () => {
  const days = fc.constantFrom("2026-03-29", "2026-10-25", "2026-07-01", "2026-12-31");
  const clock = fc
    .tuple(fc.integer({ min: 4, max: 23 }), fc.integer({ min: 0, max: 59 }))
    .map(([h, m]) => `${String(h).padStart(2, "0")}:${String(m).padStart(2, "0")}`);
  fc.assert(
    fc.property(
      days,
      clock,
      fc.constantFrom("Europe/Lisbon", "Asia/Seoul", "America/Sao_Paulo"),
      (day, at, zone) => {
        const moment = momentOn(day, at, zone);
        expect(moment === null ? null : clockWords(moment, zone)).toBe(at);
      },
    ),
    laws(),
  );
  expect(momentOn(DAY, "", "UTC")).toBeNull();
});

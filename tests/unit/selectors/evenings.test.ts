import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { awayOn } from "#shared/board/away-on.ts";
import type { Board, SongFile } from "#shared/board/board.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { namesOf } from "#shared/readiness/names.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { awayDays, awaysAhead, daysBeside, reasonKey, reasonsIn } from "#shared/selectors/away-days.ts";
import {
  attendanceOf,
  eveningOn,
  eveningsAhead,
  eveningWords,
  gigOfEvening,
  hereAt,
  lastEvening,
  missingOn,
  missingWords,
  momentOn,
  playingMinutes,
  withAways,
} from "#shared/selectors/evenings.ts";
import { presentAt, seatsFor } from "#shared/selectors/seating.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";
import { laws } from "#tests/support/fuzz.ts";
import { meet, openReplica, startClock } from "#tests/support/replicas.ts";

const DAY = "2026-03-11";
const HOUR = 3_600_000;

const songOf = (board: Board): SongFile => {
  const file = board.songs.get("diesel");
  if (file === undefined) throw new Error("no song");
  return file;
};

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

  test("whoever is away on the day of a gig sits nowhere at it, until they take that back", () => {
    const trial = smallBand();
    const gig = () => trial.board().gigs.find(({ id }) => id === "harbour") ?? null;
    const seat = () => {
      const file = trial.board().songs.get("diesel");
      return file === undefined ? undefined : lineUpFor(trial.board(), file, gig()).get("drums");
    };
    const before = gig();
    expect(before?.away).toEqual([]);
    expect(seat()).toBe("lucia");
    trial.done("sayAway", { person: "lucia", from: "2026-04-17", to: "2026-04-18" }, {}, "wedding");
    expect(gig()?.away).toEqual(["lucia"]);
    expect(seat()).toBeNull();
    // Nothing else makes it another gig: screens tell by that what to draw anew.
    const away = gig();
    trial.done("sayAway", { person: "minjae", from: "2026-04-19", to: "2026-04-19" });
    expect(gig()).toBe(away);
    const [said] = trial.board().aways.filter(({ person }) => person === "lucia");
    trial.done("withdrawAway", { away: said?.id });
    expect(gig()).toBe(before);
    expect(seat()).toBe("lucia");
  });

  test("whoever is seated for the night plays a song whose own player is away, and nobody does where the holder alone is left", () => {
    const trial = smallBand();
    trial.done("addPerson", { name: "Ines Calvo" }, {}, "ines");
    trial.done("addPerson", { name: "Carla Dunmore", dep: true }, {}, "carla");
    trial.done("castPart", { song: "diesel", chair: "drums", holder: "ines" });
    const seat = () => {
      const board = trial.board();
      const file = board.songs.get("diesel");
      const gig = board.gigs.find(({ id }) => id === "harbour") ?? null;
      return file === undefined ? undefined : lineUpFor(board, file, gig).get("drums");
    };
    expect(seat()).toBe("ines");
    trial.done("seatForGig", { gig: "harbour", chair: "drums", member: "carla" });
    expect(seat()).toBe("ines");
    trial.done("sayAway", { person: "ines", from: "2026-04-18", to: "2026-04-18" });
    expect(seat()).toBe("carla");
    trial.done("seatForGig", { gig: "harbour", chair: "drums", member: null });
    expect(seat()).toBeNull();
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

test("who comes late has evidence from then on, who leaves early until then", () => {
  const day = "2026-03-03";
  const start = Date.UTC(2026, 2, 3, 19);
  const evidence = (hours: number, member: string, chair: string): number | null => {
    const trial = smallBand();
    trial.done("sayWhoIsHere", { day, person: "minjae", here: true, from: start + HOUR });
    trial.done("sayWhoIsHere", { day, person: "lucia", here: true, to: start + 2 * HOUR });
    const at = start + hours * HOUR;
    const seats = seatsFor(
      trial.board(),
      songOf(trial.board()),
      hereAt(trial.board(), eveningOn(trial.board(), day), at),
      null,
    );
    const written = { song: "diesel", occasion: `r:${day}`, kind: "run", at, seats, feel: "clean" };
    trial.done("logTake", written);
    const board = trial.board();
    const file = songOf(board);
    const { units } = scoreSong({
      file,
      chairs: board.chairs,
      lineUp: lineUpFor(board, file, null),
      settings: board.band.settings,
      t: start + 3 * HOUR,
      asOf: start + 3 * HOUR,
    });
    const part = units.find(
      ({ unit }) => unit.of === "part" && unit.member === member && unit.chair === chair,
    );
    const last = part?.evidence.lastClean ?? Number.NaN;
    return last === Number.NEGATIVE_INFINITY ? null : (last - start) / HOUR;
  };
  expect(evidence(0.5, "minjae", "bass")).toBeNull();
  expect(evidence(0.5, "lucia", "drums")).toBe(0.5);
  expect(evidence(1.5, "minjae", "bass")).toBe(1.5);
  expect(evidence(1.5, "lucia", "drums")).toBe(1.5);
  expect(evidence(2.5, "minjae", "bass")).toBe(2.5);
  expect(evidence(2.5, "lucia", "drums")).toBeNull();
});

test("who said they are away is not in the room until they come all the same, and an undo sends them away again", () => {
  const day = "2026-03-18";
  const trial = smallBand();
  const away = () => presentAt(withAways(trial.board(), eveningOn(trial.board(), day)), NOON).away;
  expect(away()).toEqual(["minjae"]);
  const written = trial.done("sayWhoIsHere", { day, person: "minjae", here: true });
  expect(away()).toEqual([]);
  expect(hereAt(trial.board(), eveningOn(trial.board(), day), NOON).away).toEqual([]);
  trial.done("takeBack", { written });
  expect(away()).toEqual(["minjae"]);
});

test("who is missing and when an evening is are said in words", () => {
  const board = smallBand().board();
  expect(missingWords(missingOn(board, "2026-03-19"), namesOf(board))).toBe("Away: Min-jae Pardal (Bass)");
  expect(missingWords(missingOn(board, "2026-03-20"), namesOf(board))).toBe("");
  expect(eveningWords(eveningOn(board, DAY))).toBe("19:30 · 120 minutes, 85 of them to play");
  expect(lastEvening(board)?.day).toBe(DAY);
});

describe("days away", () => {
  const away = {
    id: "Porto_1",
    person: "minjae",
    from: "2026-03-18",
    to: "2026-03-19",
    by: "",
    at: 0,
  } as const;

  test("are listed until they are over", () => {
    expect(awaysAhead([away], "2026-03-19")).toEqual([away]);
    expect(awaysAhead([away], "2026-03-20")).toEqual([]);
    expect(awayDays(away, "2026-03-01")).toBe("Wed 18 March to Thu 19 March");
    expect(awayDays({ from: "2027-03-18", to: "2027-03-18" }, "2026-03-01")).toBe("Thu 18 March 2027");
  });

  test("have a reason under a name the server takes, one for each", () => {
    const ids = fc.array(fc.constantFrom(..."abcXYZ019-_"), { minLength: 22, maxLength: 22 });
    fc.assert(
      fc.property(ids, ids, (a, b) => {
        const [one, other] = [a.join(""), b.join("")];
        expect(reasonKey(one)).toMatch(/^[a-z0-9-]{1,64}$/);
        expect(reasonKey(one) === reasonKey(other)).toBe(one === other);
      }),
      laws(),
    );
    const values = [
      { key: reasonKey(away.id), value: "A wedding" },
      { key: reasonKey("b"), value: 7 },
      { key: "voice", value: "low" },
    ];
    expect([...reasonsIn(values)]).toEqual([[reasonKey(away.id), "A wedding"]]);
  });
});

describe("two phones without a signal", () => {
  const apart = () => {
    const clock = startClock();
    const [hers, his] = [openReplica("hers", clock), openReplica("his", clock)];
    hers.run("addPerson", { name: "Min-jae Pardal" });
    hers.run("addPerson", { name: "Lucía Borrasco" });
    meet(hers, his);
    return { hers, his, people: [...hers.board().people.keys()] as [string, string] };
  };
  const of = ({ board }: { board: () => Board }) => eveningOn(board(), DAY);

  test("[SYNC-1] say of different people who is there, and both words stand", () => {
    const { hers, his, people } = apart();
    hers.run("sayWhoIsHere", { day: DAY, person: people[0], here: false });
    his.run("sayWhoIsHere", { day: DAY, person: people[1], here: true, from: NOON });
    meet(hers, his);
    expect(of(hers)).toEqual(of(his));
    expect([...of(hers).attendance]).toEqual([
      [people[0], { here: false, from: null, to: null }],
      [people[1], { here: true, from: NOON, to: null }],
    ]);
  });

  test("[SYNC-1] say different things of one person, and both phones show the same one", () => {
    const { hers, his, people } = apart();
    hers.run("sayWhoIsHere", { day: DAY, person: people[0], here: false });
    his.run("sayWhoIsHere", { day: DAY, person: people[0], here: true, to: NOON });
    meet(hers, his);
    expect(of(hers)).toEqual(of(his));
    expect(of(hers).attendance.get(people[0])?.here).toBeTypeOf("boolean");
  });

  test("start and end an evening one after the other: the earlier start and the later end stand", () => {
    const { hers, his } = apart();
    hers.run("startRehearsal", { day: DAY });
    meet(hers, his);
    const started = of(hers).startedAt;
    his.run("startRehearsal", { day: DAY });
    his.run("endRehearsal", { day: DAY });
    meet(hers, his);
    const ended = of(hers).endedAt ?? 0;
    hers.run("endRehearsal", { day: DAY });
    meet(hers, his);
    expect(of(his)).toEqual(of(hers));
    expect(of(his).startedAt).toBe(started);
    expect(of(his).endedAt).toBeGreaterThan(ended);
  });
});

test("[DOC-3] an evening that a change is not about keeps its reference", () => {
  const trial = smallBand();
  const before = eveningOn(trial.board(), DAY);
  trial.done("sayWhoIsHere", { day: "2026-03-04", person: "lucia", here: false });
  trial.done("markDetail", { card: "choke", member: "lucia", level: 3 });
  expect(eveningOn(trial.board(), DAY)).toBe(before);
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

test("whoever was there on one of their days away keeps the others", () => {
  const away = { from: "2026-04-17", to: "2026-04-19" };
  expect(daysBeside(away, "2026-04-18")).toEqual([
    { from: "2026-04-17", to: "2026-04-17" },
    { from: "2026-04-19", to: "2026-04-19" },
  ]);
  expect(daysBeside(away, "2026-04-17")).toEqual([{ from: "2026-04-18", to: "2026-04-19" }]);
  expect(daysBeside({ from: "2026-04-18", to: "2026-04-18" }, "2026-04-18")).toEqual([]);
});

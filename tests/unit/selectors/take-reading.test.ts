import { describe, expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Take } from "#shared/board/take.ts";
import { readTake, type TakeContext, takeSentence } from "#shared/selectors/take-reading.ts";
import { CHAIRS } from "#tests/support/histories.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { aCard, aRun, aSong, holderOf } from "#tests/support/ready-song.ts";

const chair = (id: string): Chair => ({
  id,
  name: `chair ${id}`,
  short: id,
  instrument: "other",
  holder: holderOf(id),
  order: id,
});

const context: TakeContext = {
  file: aSong({ cards: [aCard("c1", { kind: "ending", text: "Choke on 4-and" })] }),
  chairs: CHAIRS.map(chair),
  gigs: [
    {
      id: "spring",
      name: "Spring fair",
      place: "",
      date: "2026-03-14",
      minutes: 25,
      ...NOTHING_AGREED,
      songs: [],
      lineUp: new Map(),
      waivers: [],
    },
  ],
  names: { member: (id) => `member ${id}`, chair: (id) => `chair ${id}` },
  timeZone: "Europe/Lisbon",
};

const read = (change: Partial<Take>) => readTake(aRun(62, change), context);

describe("a take in words", () => {
  test("has the day of its rehearsal, whenever it was logged", () => {
    expect(read({}).day).toBe("2026-03-04");
    expect(read({ at: Date.UTC(2026, 2, 9) }).day).toBe("2026-03-04");
  });

  test("of a gig has the gig's day and name", () => {
    expect(read({ kind: "gig", occasion: "g:spring" })).toMatchObject({
      day: "2026-03-14",
      kind: "gig, Spring fair",
    });
  });

  test("of a gig that was called off has the day it was logged", () => {
    expect(read({ kind: "gig", occasion: "g:gone" })).toMatchObject({ day: "2026-03-04", kind: "gig" });
  });

  test.each([
    [112, 115, "112 → 115, 2.7 % faster"],
    [54, 53, "54 → 53, 1.9 % slower"],
    [94, 94, "94 → 94, steady"],
    [94, null, "94 at the start"],
    [null, 95, "95 at the end"],
    [null, null, ""],
  ])("from %s to %s reads %j", (tempoStart, tempoEnd, words) => {
    expect(read({ tempoStart, tempoEnd }).tempo).toBe(words);
  });

  test("names who was away by chair, and nobody whose chair somebody else sat on", () => {
    const seats = CHAIRS.map((id) => ({ chair: id, member: holderOf(id) }));
    expect(read({}).away).toEqual([]);
    expect(read({ seats: seats.slice(1) }).away).toEqual([`member ${holderOf("gt")}`]);
    const depped = [{ chair: "gt", member: "karim" }, ...seats.slice(1)];
    expect(read({ seats: depped }).away).toEqual([]);
  });

  test("alone names the player and misses nobody", () => {
    const solo = read({ kind: "solo", seats: [{ chair: "gt", member: "tomasz" }] });
    expect(solo).toMatchObject({ kind: "solo, member tomasz", away: [] });
  });

  test("tells the worst slip first and each slip once", () => {
    const slip = (card: string | null, chair: string | null, severity: 0.5 | 1 | 2, writer: string) => ({
      card,
      chair,
      severity,
      at: 0,
      writer,
    });
    const slips = [
      slip(null, "bs", 0.5, "a"),
      slip("c1", "dr", 1, "a"),
      slip("c1", "dr", 2, "b"),
      slip(null, null, 1, "a"),
    ];
    expect(read({ slips }).slips).toEqual([
      { about: "Ending: 'Choke on 4-and' (chair dr)", severity: 2 },
      { about: "nobody's in particular", severity: 1 },
      { about: "chair bs", severity: 0.5 },
    ]);
  });

  test("of a section or of some details says so", () => {
    expect(read({ scope: { of: "sections", sections: ["v1"] } }).scope).toBe("V1 only");
    expect(read({ scope: { of: "cards", cards: ["c1", "gone"] } }).scope).toBe("1 detail only");
  });

  test("makes one sentence", () => {
    const seats = CHAIRS.slice(1).map((id) => ({ chair: id, member: holderOf(id) }));
    const reading = read({ feel: "wobble", tempoStart: 170, tempoEnd: 179, seats, key: "E" });
    expect(takeSentence(reading)).toBe(
      `Run: wobble, in E, 170 → 179, 5.3 % faster, without member ${holderOf("gt")}.`,
    );
  });
});

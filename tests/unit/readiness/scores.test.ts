import { expect, test } from "vitest";
import type { Casting } from "#shared/board/song.ts";
import { scoreMember, scoreMemberOver } from "#shared/readiness/member-score.ts";
import { cardName, takeName } from "#shared/readiness/names.ts";
import { readyMinutes } from "#shared/readiness/ready-minutes.ts";
import { sinceOf } from "#shared/readiness/since.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { SONG } from "#tests/support/histories.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aMark, aRun, aSong, asked, readyFile } from "#tests/support/ready-song.ts";

const casting = (chair: string, change: Partial<Casting>): [string, Casting] => [
  chair,
  { song: SONG, chair, plays: true, needed: true, holder: null, share: 1, nothingSpecial: null, ...change },
];

const shareOf = (file: Parameters<typeof asked>[0], chair: string | null): number =>
  scoreSong(asked(file, 26))
    .units.filter(({ unit }) => unit.chair === chair)
    .reduce((sum, { unit }) => sum + unit.share, 0);

test("a new song scores 0, all of it unsaid", () => {
  const { score, split, logShare } = scoreSong(asked(aSong(), 26));
  expect({ score, logShare, unsaid: split.unsaid }).toEqual({ score: 0, logShare: 0, unsaid: 1 });
});

test("a song nobody plays is 0 and still splits to 1", () => {
  const castings = new Map(["gt", "bs", "dr", "vx"].map((chair) => casting(chair, { plays: false })));
  const { score, split, units } = scoreSong(asked(aSong({ castings }), 26));
  expect([score, split.unsaid, units.length]).toEqual([0, 1, 1]);
});

test("parts are equal however many details they have, and the band together has a quarter", () => {
  const cards = ["1", "2", "3", "4", "5"].map((id) => aCard(id, { chairs: ["dr"] }));
  const file = aSong({ cards });
  expect(shareOf(file, "dr")).toBeCloseTo(0.75 / 4, 12);
  expect(shareOf(file, "vx")).toBeCloseTo(0.75 / 4, 12);
  expect(shareOf(file, null)).toBe(0.25);
});

test("inside a part the part itself weighs 3, a must 4, a lift 2 and a polish 1", () => {
  const cards = (["must", "lift", "polish"] as const).map((weight) => aCard(weight, { weight }));
  const { units } = scoreSong(asked(aSong({ cards }), 26));
  const shares = new Map(
    units.filter(({ unit }) => unit.chair === "gt").map(({ unit }) => [unit.card?.id ?? "part", unit.share]),
  );
  const one = 0.75 / 4 / 10;
  expect(shares.get("part")).toBeCloseTo(3 * one, 12);
  expect(shares.get("must")).toBeCloseTo(4 * one, 12);
  expect(shares.get("lift")).toBeCloseTo(2 * one, 12);
  expect(shares.get("polish")).toBeCloseTo(one, 12);
});

test("a part that is not needed has about a third of a share, one with nothing to play none", () => {
  const castings = new Map([casting("dr", { needed: false }), casting("vx", { plays: false })]);
  const file = aSong({ castings });
  expect(shareOf(file, "dr") / shareOf(file, "gt")).toBeCloseTo(0.35, 12);
  expect(shareOf(file, "vx")).toBe(0);
});

test("an empty chair keeps its share as uncovered, and its partner waits", () => {
  const input = asked(readyFile(), 26);
  const full = scoreSong(input);
  const { score, split, units } = scoreSong({ ...input, lineUp: new Map(input.lineUp).set("bs", null) });
  expect(split.uncovered).toBeCloseTo(0.75 / 4, 12);
  expect(score).toBeLessThan(full.score);
  const ending = units.find(({ unit }) => unit.card?.id === "must-all" && unit.chair === "gt");
  expect(ending).toMatchObject({ r: 0 });
  expect(ending?.split.waiting).toBe(ending?.ownR);
});

test("a member's own score does not wait for partners; somebody with nothing to play has none", () => {
  const statuses = new Map([["ending", new Map([["tomasz", aMark(3, 20)]])]]);
  const file = aSong({ cards: [aCard("ending", { chairs: ["gt", "bs"] })], statuses });
  const song = scoreSong(asked(file, 26));
  expect(scoreMember(song, "tomasz")).toBeGreaterThan(0.2);
  expect(scoreMember(song, "ifeoma")).toBe(0);
  expect(scoreMember(song, "dep-karim")).toBeNull();
  expect(scoreMemberOver([song, scoreSong(asked(aSong(), 26))], "tomasz")).toBe(
    (scoreMember(song, "tomasz") ?? 0) / 2,
  );
  expect(scoreMemberOver([song], "dep-karim")).toBeNull();
});

test("trouble counts the musts expected to slip", () => {
  expect(
    scoreSong(asked(aSong({ cards: [aCard("a"), aCard("b"), aCard("c", { weight: "lift" })] }), 26)).trouble,
  ).toBe(2);
});

test("a change of key asks for positions again, of tempo for grooves, of form for what stands in a section", () => {
  const file = aSong();
  const song = { ...file.song, since: { key: 1, tempo: 2, form: 3, ending: 4 } };
  const sections = [{ id: "v1", song: SONG, name: "V1", bars: 8, ...PLAIN_SECTION, order: "a", since: 5 }];
  const at = (change: Parameters<typeof aCard>[1]): number => sinceOf({ song, sections }, aCard("c", change));
  for (const kind of ["position", "shape", "register", "harmony", "vocal entry"] as const)
    expect(at({ kind })).toBe(1);
  for (const kind of ["groove", "pattern", "tempo"] as const) expect(at({ kind })).toBe(2);
  expect(at({ kind: "ending" })).toBe(4);
  expect(at({ kind: "tone" })).toBe(0);
  expect(at({ kind: "tone", since: 9 })).toBe(9);
  expect(at({ kind: "tone", where: { from: { section: "removed" } } })).toBe(3);
  expect(at({ kind: "tone", where: { from: { section: "v1" } } })).toBe(5);
});

test("ready minutes are the ready songs' lengths with gaps between them, against the contract", () => {
  const song = (id: string, length: number | null) => {
    const file = aSong();
    return [id, { ...file, song: { ...file.song, id, length } }] as const;
  };
  const songs = new Map([song("a", 240), song("b", 180), song("c", 200), song("d", null)]);
  const order = ["a", "b", "c", "d", "removed"].map((id) => ({
    song: id,
    order: id,
    key: null,
    tempo: null,
    tuning: null,
    block: 0,
    pin: "" as const,
  }));
  const gig = { songs: order, minutes: 25 };
  expect(readyMinutes(gig, songs, (id) => id === "a" || id === "c", { gapSeconds: 20 })).toEqual({
    ready: (240 + 200 + 20) / 60,
    planned: (240 + 180 + 200 + 60) / 60,
    contracted: 25,
    unknownLength: ["d"],
  });
  expect(readyMinutes(gig, songs, () => false, { gapSeconds: 20 }).ready).toBe(0);
});

test("cards and takes are called what people call them", () => {
  const { sections } = aSong();
  expect(cardName({ sections }, aCard("c", { where: { from: { section: "v1" } } }))).toBe(
    "V1: 'Hit on 4-and'",
  );
  expect(cardName({ sections }, aCard("c", { kind: "vocal entry", text: "" }))).toBe(
    "Vocal entry: a detail without words",
  );
  expect(cardName({ sections }, aCard("c", { text: "x".repeat(200) }))).toBe(`'${"x".repeat(60)}…'`);
  expect(takeName(aRun(0))).toBe("the run of 1 January");
  expect(takeName(aRun(0, { kind: "gig", occasion: "g:spring" }))).toBe("the gig");
});

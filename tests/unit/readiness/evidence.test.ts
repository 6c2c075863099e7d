import { expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import { partCardId } from "#shared/board/ids.ts";
import type { Slip, Take } from "#shared/board/take.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { SONG } from "#tests/support/histories.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aRun, aSong, asked } from "#tests/support/ready-song.ts";

const PART = partCardId(SONG, "gt");
const riff = aCard("riff", { chairs: ["gt"] });
const ending = aCard("ending", { chairs: ["gt", "bs"], kind: "ending" });

const slip = (change: Partial<Slip>): Slip => ({
  chair: null,
  card: null,
  severity: 1,
  at: 0,
  writer: "phone",
  ...change,
});

/** What takes say about one unit, in short: kind and outcome, in order. */
const said = (takes: readonly Take[], id: string, chair = "gt", change: Partial<SongFile> = {}): string[] => {
  const { units } = scoreSong(asked(aSong({ cards: [riff, ending], takes, ...change }), 60));
  const unit = units.find((one) => one.unit.statusId === id && one.unit.chair === chair);
  return (unit?.evidence.events() ?? []).map(({ kind, outcome }) => `${kind} ${outcome}`);
};

const bandSaid = (takes: readonly Take[]): string[] => {
  const { units } = scoreSong(asked(aSong({ takes }), 60));
  return (units.at(-1)?.evidence.events() ?? []).map(({ kind, outcome }) => `${kind} ${outcome}`);
};

test("a clean whole run is clean for every card, part and the band", () => {
  expect(said([aRun(3)], "riff")).toEqual(["run clean"]);
  expect(said([aRun(3)], PART)).toEqual(["run clean"]);
  expect(bandSaid([aRun(3)])).toEqual(["run clean"]);
});

test("a slip on a card beats clean for that card only", () => {
  const take = aRun(3, { slips: [slip({ card: "riff", chair: "gt" })] });
  expect(said([take], "riff")).toEqual(["run slip"]);
  expect(said([take], "ending")).toEqual(["run clean"]);
  expect(said([take], PART)).toEqual(["run clean"]);
});

test("a slip on a chair without a card is a slip for the part and says nothing about its cards", () => {
  const take = aRun(3, { slips: [slip({ chair: "gt" })] });
  expect(said([take], PART)).toEqual(["run slip"]);
  expect(said([take], "riff")).toEqual([]);
  expect(said([take], "ending", "bs")).toEqual(["run clean"]);
});

test("a slip flagged on the part itself is the same as one on its chair", () => {
  const take = aRun(3, { slips: [slip({ card: PART })] });
  expect(said([take], PART)).toEqual(["run slip"]);
  expect(said([take], "riff")).toEqual([]);
});

test("of two slips on one card in one take the worse counts, once", () => {
  const slips = [slip({ card: "riff", severity: 0.5 }), slip({ card: "riff", chair: "gt", severity: 2 })];
  const { units } = scoreSong(asked(aSong({ cards: [riff], takes: [aRun(3, { slips })] }), 60));
  const unit = units.find((one) => one.unit.statusId === "riff");
  expect(unit?.evidence.slips).toEqual([{ severity: 2, litAfter: 0 }]);
});

test("a slip nobody could place is the band's, and leaves the parts as they were", () => {
  const take = aRun(3, { slips: [slip({})] });
  expect(bandSaid([take])).toEqual(["run slip"]);
  expect(said([take], PART)).toEqual(["run clean"]);
});

test("a stopped run is no evidence for the parts and a slip for the band", () => {
  const take = aRun(3, { feel: "stopped" });
  expect(said([take], PART)).toEqual([]);
  expect(bandSaid([take])).toEqual(["run slip"]);
});

test("takes before a card was written, or changed with learn again, are no evidence for it", () => {
  const changed = { ...riff, since: aRun(10).at };
  const takes = [aRun(3), aRun(10), aRun(17)];
  expect(said(takes, "riff", "gt", { cards: [changed] })).toEqual(["run clean", "run clean"]);
  expect(said(takes, PART, "gt", { cards: [changed] })).toHaveLength(3);
});

test("a take by somebody else on the chair says nothing about its player", () => {
  const seats = aRun(3).seats.map((seat) => (seat.chair === "gt" ? { ...seat, member: "dep-karim" } : seat));
  expect(said([aRun(3, { seats })], PART)).toEqual([]);
});

test("a member named on a chair by any of the take's writers was on it", () => {
  const seats = [{ chair: "gt", member: "dep-karim" }, ...aRun(3).seats];
  expect(said([aRun(3, { seats })], PART)).toEqual(["run clean"]);
});

test("a shared card counts as solo work while one of its chairs was empty, and a stand-in fills it", () => {
  const seats = aRun(3).seats.filter(({ chair }) => chair !== "bs");
  expect(said([aRun(3, { seats })], "ending")).toEqual(["solo clean"]);
  expect(said([aRun(3, { seats })], "riff")).toEqual(["run clean"]);
  const standIn = [...seats, { chair: "bs", member: "dep-karim" }];
  expect(said([aRun(3, { seats: standIn })], "ending")).toEqual(["run clean"]);
});

test("a section drill reaches the cards inside it, not the part nor cards about the whole song", () => {
  const sections = ["v1", "ch1", "v2"].map((id) => ({
    id,
    song: SONG,
    name: id,
    bars: 8,
    ...PLAIN_SECTION,
    order: id,
    since: 0,
  }));
  const inside = aCard("inside", { where: { from: { section: "ch1" } } });
  const across = aCard("across", { where: { from: { section: "v1" }, to: { section: "v2" } } });
  const drill = aRun(3, { kind: "drill", scope: { of: "sections", sections: ["ch1"] } });
  const file = { cards: [riff, inside, across], sections };
  expect(said([drill], "inside", "gt", file)).toEqual(["drill clean"]);
  expect(said([drill], "across", "gt", file)).toEqual([]);
  expect(said([drill], "riff", "gt", file)).toEqual([]);
  expect(said([drill], PART, "gt", file)).toEqual([]);
  const all = { ...drill, scope: { of: "sections", sections: ["v1", "ch1", "v2"] } } as const;
  expect(said([all], "across", "gt", file)).toEqual(["drill clean"]);
  expect(said([all], PART, "gt", file)).toEqual(["drill clean"]);
});

test("a drill of named cards reaches those cards only", () => {
  const drill = aRun(3, { kind: "drill", scope: { of: "cards", cards: ["riff", "gone"] } });
  expect(said([drill], "riff")).toEqual(["drill clean"]);
  expect(said([drill], "ending")).toEqual([]);
  expect(said([drill], PART)).toEqual([]);
});

test("the band needs half of the needed players, and its takes are worth the square of who was there", () => {
  const of = (chairs: readonly string[]) => {
    const seats = aRun(3).seats.filter(({ chair }) => chairs.includes(chair));
    return scoreSong(asked(aSong({ takes: [aRun(3, { seats })] }), 60)).units.at(-1)?.evidence.lit;
  };
  expect(of(["gt"])).toBe(0);
  expect(of(["gt", "bs"])).toBeCloseTo(0.25, 12);
  expect(of(["gt", "bs", "dr"])).toBeCloseTo(0.5625, 12);
  expect(of(["gt", "bs", "dr", "vx"])).toBeCloseTo(1, 12);
});

test("takes of one night overlap and count once; takes a week apart count fully", () => {
  const lit = (days: readonly number[]) => {
    const takes = days.map((day, i) => aRun(day, { id: `take-${i}` }));
    return scoreSong(asked(aSong({ takes }), 60)).units[0]?.evidence.lit;
  };
  expect(lit([3, 3, 3, 3])).toBeCloseTo(1, 12);
  expect(lit([3, 10, 17, 24])).toBeCloseTo(4, 12);
  expect(lit([3, 6.5])).toBeCloseTo(1.5, 12);
});

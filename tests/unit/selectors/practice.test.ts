import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import type { Take } from "#shared/board/take.ts";
import {
  clickGround,
  clickPlanOf,
  firstChoices,
  perBeatChoices,
  startVolume,
} from "#shared/selectors/practice-click.ts";
import {
  byValueAndAge,
  canPractise,
  DAY_MOST,
  detailsIn,
  lastPlayed,
  lastPlayedWords,
  partnersSentence,
  staleness,
} from "#shared/selectors/practice-list.ts";
import {
  fillSitting,
  keepSitting,
  keptSitting,
  markAfter,
  outcomeOf,
  outcomeWords,
  practisedOn,
} from "#shared/selectors/practice-sitting.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aSong } from "#tests/support/ready-song.ts";

const DAY = "2026-03-20";
const WHERE = { today: DAY, timeZone: "UTC" };
const at = (day: string): number => Date.parse(`${day}T20:00:00Z`);

/** A take of one detail by tomasz alone, `day` as YYYY-MM-DD. */
const alone = (day: string, change: Partial<Take> = {}): Take => ({
  id: `s:tomasz:${day}/song/1`,
  song: "song",
  occasion: `s:tomasz:${day}`,
  no: 1,
  kind: "solo",
  at: at(day),
  seats: [{ chair: "gt", member: "tomasz" }],
  scope: { of: "cards", cards: ["card"] },
  feel: "clean",
  tempoStart: null,
  tempoEnd: null,
  key: null,
  slips: [],
  writers: ["phone"],
  ...change,
});

const card = aCard("card");
const withTakes = (...takes: readonly Take[]): SongFile => aSong({ cards: [card], takes });

describe("how long a detail has lain", () => {
  test("never, today, a second day, weeks", () => {
    const ages = [
      withTakes(),
      withTakes(alone(DAY)),
      withTakes(alone("2026-03-19")),
      withTakes(alone("2026-03-16")),
      withTakes(alone("2026-03-15"), alone("2026-03-16")),
      withTakes(alone("2026-02-27")),
    ].map((file) => lastPlayed(file, card, "tomasz", WHERE));
    expect(ages.map(lastPlayedWords)).toEqual([
      "not played yet",
      "played today",
      "for the second day",
      "played 4 days ago, for the second day",
      "played 4 days ago",
      "played 21 days ago",
    ]);
    const [never, today, second, week, twice, old] = ages.map((age) => staleness(age, DEFAULT_SETTINGS));
    expect([never, today, second, week]).toEqual([1, 0, 1, 1]);
    expect(twice).toBeGreaterThan(0);
    expect(twice).toBeLessThan(0.2);
    // The half-life of the log's freshness is 21 days.
    expect(old).toBeCloseTo(0.5, 12);
  });

  test("takes before the detail changed, of others, and of another place say nothing", () => {
    const changed = { ...card, since: at(DAY) };
    expect(lastPlayed(withTakes(alone("2026-03-19")), changed, "tomasz", WHERE).days).toBeNull();
    expect(lastPlayed(withTakes(alone("2026-03-19")), card, "lucia", WHERE).days).toBeNull();
    const elsewhere = alone("2026-03-19", { scope: { of: "cards", cards: ["other"] } });
    expect(lastPlayed(withTakes(elsewhere), card, "tomasz", WHERE).days).toBeNull();
  });

  test("a detail that lies longer is never less stale", () => {
    const days = fc.integer({ min: 0, max: 900 });
    fc.assert(
      fc.property(days, days, fc.integer({ min: 2, max: 9 }), (a, b, solo) => {
        const [near, far] = [Math.min(a, b), Math.max(a, b)].map((n) =>
          staleness({ days: n, alone: solo }, DEFAULT_SETTINGS),
        );
        expect(far).toBeGreaterThanOrEqual(near ?? 1);
        expect(far).toBeLessThan(1);
      }),
      { numRuns: 1000 },
    );
  });
});

describe("what is worth the minutes", () => {
  test("five to seven and a half minutes a detail, at most half an hour a day", () => {
    expect([1, 5, 10, 15, 20, 30, 45, 600].map(detailsIn)).toEqual([1, 1, 2, 2, 3, 4, 4, 4]);
    for (let minutes = 10; minutes <= DAY_MOST; minutes++) {
      expect(minutes / detailsIn(minutes)).toBeGreaterThanOrEqual(5);
      expect(minutes / detailsIn(minutes)).toBeLessThanOrEqual(7.5);
    }
  });

  test("value times staleness decides, then musts; what was played today is left out", () => {
    const worth = (id: string, difference: number, stale: number, weight: "must" | "polish" = "polish") => ({
      song: "song",
      card: aCard(id, { weight }),
      difference,
      stale,
    });
    const best = byValueAndAge([
      worth("fresh", 0.9, 0),
      worth("a", 0.02, 0.5),
      worth("b", 0.1, 0.5),
      worth("c", 0.02, 0.5, "must"),
      worth("lost", -0.1, 1),
    ]);
    expect(best.map(({ card: { id } }) => id)).toEqual(["b", "c", "a"]);
  });

  const standing = (chair: string, level: 0 | 1 | 2 | 3, change: object = {}) => ({
    chair,
    member: chair,
    statusId: "card",
    level,
    marked: level,
    effective: null,
    mark: null,
    slipped: false,
    waiting: false,
    ...change,
  });
  const names = {
    member: (id: string) => id,
    chair: (id: string) => ({ bs: "Bass", dr: "Drums" })[id] ?? id,
  };

  test("a shared detail is worth practising alone up to practised, or after a slip", () => {
    const shared = aCard("card", { chairs: ["gt", "bs", "dr"] });
    const line = (level: 0 | 1 | 2 | 3, change: object = {}) => ({
      card: shared,
      standings: [standing("gt", level, change), standing("bs", 0), standing("dr", 0)],
    });
    expect(canPractise(line(1))).toBe(true);
    expect(canPractise(line(2))).toBe(false);
    expect(canPractise(line(2, { slipped: true }))).toBe(true);
    expect(canPractise(line(2, { waiting: true, slipped: true }))).toBe(false);
    expect(canPractise({ card, standings: [standing("gt", 3)] })).toBe(true);
    expect(partnersSentence(line(1), names)).toBe(
      "Needs Bass and Drums too: alone it stays practised until you have played it together.",
    );
    expect(partnersSentence({ card, standings: [standing("gt", 1)] }, names)).toBeNull();
  });

  test("practice marks up to practised, and leaves what was locked in to its player", () => {
    expect(markAfter("practised", { level: 0, marked: 0 })).toBe(2);
    expect(markAfter("practised", { level: 1, marked: 2 })).toBe(2);
    expect(markAfter("practised", { level: 2, marked: 2 })).toBeNull();
    expect(markAfter("practised", { level: 2, marked: 3 })).toBeNull();
    expect(markAfter("still shaky", { level: 0, marked: 0 })).toBe(1);
    expect(markAfter("still shaky", { level: 2, marked: 2 })).toBeNull();
  });
});

describe("a day's sitting", () => {
  const item = (n: string) => ({ song: "song", card: n });

  test("what is done stays when the minutes change, the best of the rest fill up", () => {
    const ranked = ["a", "b", "c", "d", "e"].map(item);
    expect(fillSitting(ranked, 20, [])).toEqual(["a", "b", "c"].map(item));
    expect(fillSitting(ranked, 30, [item("c")])).toEqual(["c", "a", "b", "d"].map(item));
    expect(fillSitting(ranked, 5, ["d", "e"].map(item))).toEqual(["d", "e"].map(item));
  });

  test("it is kept for its day and person; nonsense and another day begin anew with the same minutes", () => {
    const kept = { day: DAY, member: "tomasz", minutes: 30, items: [item("a")], played: 1000, seen: 5 };
    expect(keptSitting(keepSitting(kept), DAY, "tomasz")).toEqual(kept);
    expect(keptSitting(keepSitting(kept), "2026-03-21", "tomasz")).toMatchObject({
      minutes: 30,
      items: [],
      played: 0,
    });
    expect(keptSitting(keepSitting(kept), DAY, "lucia")).toMatchObject({ minutes: 20, items: [] });
    for (const text of ["", "{", "null", '{"day":3}', "[]"])
      expect(keptSitting(text, DAY, "tomasz")).toMatchObject({ minutes: 20, items: [] });
  });

  test("practice adds up until somebody was away for five minutes", () => {
    const minute = 60_000;
    const on = practisedOn({ played: 20 * minute, seen: 100 * minute }, minute, 101 * minute);
    expect(on).toEqual({ played: 21 * minute, seen: 101 * minute });
    expect(practisedOn(on, minute, 107 * minute)).toEqual({ played: minute, seen: 107 * minute });
  });

  test("the latest word of the day counts, and a take taken back is none", () => {
    const first = alone(DAY, { feel: "wobble" });
    const second = alone(DAY, { no: 2, at: at(DAY) + 60_000 });
    expect(outcomeOf(withTakes(first), "card", "tomasz", DAY)).toBe("still shaky");
    expect(outcomeOf(withTakes(first, second), "card", "tomasz", DAY)).toBe("practised");
    expect(outcomeOf(withTakes(alone("2026-03-19")), "card", "tomasz", DAY)).toBeNull();
    expect(outcomeOf(undefined, "card", "tomasz", DAY)).toBeNull();
  });

  test("the day in words", () => {
    expect(outcomeWords(["practised", "practised", "still shaky", null])).toBe(
      "Practised: two, still shaky: one.",
    );
    expect(outcomeWords(["still shaky"])).toBe("Still shaky: one.");
    expect(outcomeWords([null, null])).toBeNull();
  });
});

describe("the click of a detail", () => {
  const section = (id: string, bars: number) => ({
    id,
    song: "song",
    name: id,
    bars,
    ...PLAIN_SECTION,
    order: id,
    since: 0,
  });
  const sections = [section("V1", 16), section("Ch1", 8), section("Out", 4)];
  const stretch = (where: Parameters<typeof clickGround>[1]["where"]) =>
    clickGround(aSong({ sections }), { where }, "gt").stretch;

  test("it comes round over its bars; one bar comes round with its section", () => {
    expect(stretch({})).toBeNull();
    expect(stretch({ from: { section: "gone" } })).toBeNull();
    expect(stretch({ from: { section: "Ch1" }, pass: 2 })).toEqual({ name: "Ch1", bars: 8 });
    expect(stretch({ from: { section: "V1", bar: 9 }, to: { section: "V1", bar: 12 } })?.bars).toBe(4);
    expect(stretch({ from: { section: "V1", bar: 13 }, to: { section: "Out" } })?.bars).toBe(4 + 8 + 4);
    expect(stretch({ from: { section: "Ch1", bar: 8, beat: 4 } })).toEqual({ name: "Ch1", bars: 8 });
  });

  test("what the song does not say is guessed, and said", () => {
    const { song } = aSong();
    const ground = clickGround(aSong({ song: { ...song, tempo: null, metre: "" } }), card, "gt");
    expect([ground.tempo, ground.metre, ground.guessed]).toEqual([
      100,
      { groups: [4], unit: 4 },
      "Not settled for this song: tempo (100 here) and metre (4/4 here).",
    ]);
    expect(clickGround(aSong(), card, "gt").guessed).toBeNull();
  });

  test("choices become a plan; a rise goes up to the song's tempo and needs something to count", () => {
    const ground = clickGround(aSong({ sections }), { where: { from: { section: "Ch1" } } }, "gt");
    const first = firstChoices(ground);
    expect(clickPlanOf(ground, first)).toMatchObject({ bpm: 112, bars: 8, silentEvery: null, rise: null });
    const chosen = { ...first, bpm: 90, loop: false, mute: true, rise: 5 };
    expect(clickPlanOf(ground, chosen)).toMatchObject({
      bars: 4,
      silentEvery: 4,
      rise: { percent: 5, every: 4, to: 112 },
    });
    const grid = { steps: 16, perBeat: 4, rows: [{ chair: "dr", hits: "x...X...x...X..." }] };
    expect(clickGround(aSong(), { where: {}, grid }, "dr").grid).toEqual({
      perBeat: 4,
      hits: "x...X...x...X...",
    });
    expect(clickGround(aSong(), { where: {}, grid }, "gt").grid).toBeNull();
    expect(perBeatChoices({ groups: [12], unit: 8 })).toEqual([1, 3, 6]);
  });

  test("it starts at half volume at most, whatever was set the last time", () => {
    expect([null, "", "nonsense", "0", "-1", "0.2", "0.5", "1", "Infinity"].map(startVolume)).toEqual([
      0.5, 0.5, 0.5, 0.5, 0.5, 0.2, 0.5, 0.5, 0.5,
    ]);
  });
});

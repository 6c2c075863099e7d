import { describe, expect, test } from "vitest";
import type { SetBrief, SetSong } from "#shared/order/set-facts.ts";
import { compareOrders, joinWords, readOrder, whyNot } from "#shared/selectors/order-words.ts";

const song = (id: string, change: Partial<SetSong> = {}): SetSong => ({
  id,
  seconds: 240,
  energy: 0.5,
  dance: 0.5,
  value: 0.5,
  opener: 0.5,
  closer: 0.5,
  tempo: 112,
  key: "",
  tuning: "standard|0",
  rig: "",
  lead: "priya",
  hardToSing: false,
  mustPlay: false,
  ...change,
});
const briefOf = (songs: readonly SetSong[], minutes = 25): SetBrief => ({
  songs,
  blocks: [{ minutes, arc: [0.5] }],
  pins: [],
  standing: [],
  gapSeconds: 20,
  talkSeconds: 0,
});
const names = { member: () => "Priya", chair: (id: string) => id };
const titleOf = (id: string): string => id.toUpperCase();

describe("a join", () => {
  test.each([
    [{}, {}, []],
    [{}, { tuning: "D-standard|0" }, ["retune: standard to D-standard, 45 s"]],
    [{}, { tuning: "standard|5" }, ["retune: standard to standard, capo 5, 45 s"]],
    [{}, { rig: "acoustic guitar" }, ["change to acoustic guitar"]],
    [{ rig: "acoustic guitar" }, {}, ["back from acoustic guitar"]],
    [{ dance: 0.9 }, { dance: 0.2 }, ["the floor empties"]],
    [{ key: "Em" }, { key: "Em" }, ["Em twice in a row"]],
    [{ tempo: 168 }, { tempo: 116 }, ["a big step in tempo: 168 to 116"]],
    // Half time is near: 84 is half of 168.
    [{ tempo: 168 }, { tempo: 84 }, []],
  ])("%#", (from, to, words) => {
    expect(joinWords(song("a", from), song("b", to))).toEqual(words);
  });
});

describe("a block", () => {
  test("says when each song starts, gaps and retunings counted", () => {
    const brief = briefOf(
      [song("a"), song("b", { tuning: "D-standard|0" }), song("c", { tuning: "D-standard|0" })],
      14,
    );
    const [block] = readOrder([["a", "b", "c"]], brief, names);
    // 240 + 20 + 45, then 240 + 20 more; in all 3 × 240 + 2 × 20 + 45.
    expect(block?.rows.map(({ startsAt }) => startsAt)).toEqual([0, 305, 565]);
    expect(block?.seconds).toBe(805);
    expect(block?.warnings).toEqual([]);
  });

  test("warns of what a player would: too long, too short, hard sings, retunings, one key", () => {
    const hard = ["a", "b", "c"].map((id) => song(id, { hardToSing: true, key: "D" }));
    const [long] = readOrder([["a", "b", "c"]], briefOf(hard, 10), names);
    expect(long?.warnings).toEqual([
      "3 minutes too long: 12:40 in 10 minutes.",
      "3 hard sings in a row for Priya, from number 1 on.",
      "3 songs in D in a row, from number 1 on.",
    ]);
    const [short] = readOrder([["a"]], briefOf(hard, 25), names);
    expect(short?.warnings).toEqual(["21 minutes short of the 25 that are booked."]);
    const there = ["a", "b", "c"].map((id, i) =>
      song(id, { tuning: i === 1 ? "drop|0" : "standard|0", lead: id }),
    );
    const [tuned] = readOrder([["a", "b", "c"]], briefOf(there, 15), names);
    expect(tuned?.warnings).toEqual(["2 retunings or capo changes within the block."]);
  });

  test("warns of leads in a row only where somebody else sings, too", () => {
    const songs = ["a", "b", "c", "d", "e"].map((id) => song(id, { lead: id === "e" ? "minjae" : "priya" }));
    const [block] = readOrder([["a", "b", "c", "d", "e"]], briefOf(songs, 22), names);
    expect(block?.warnings).toEqual(["4 leads in a row for Priya, from number 1 on."]);
    const [alone] = readOrder([["a", "b", "c", "d"]], briefOf(songs.slice(0, 4), 18), names);
    expect(alone?.warnings).toEqual([]);
  });
});

test("why not: the best place and what speaks against it", () => {
  const songs = [song("a"), song("b"), song("c", { tuning: "drop|0", value: 0 })];
  expect(whyNot(briefOf(songs, 8), [["a", "b"]], "c", titleOf)).toBe(
    "It would fit best first. Against it: the minutes fit less well and more retuning.",
  );
  expect(whyNot(briefOf(songs, 13), [["a"]], "b", titleOf)).toMatch(
    /^It would fit .* and make the order better\.$/,
  );
  expect(whyNot({ ...briefOf(songs), blocks: [] }, [], "b", titleOf)).toBe("There is no block to put it in.");
});

test("two orders are compared by what changes most", () => {
  const songs = [song("a"), song("b", { tuning: "drop|0" }), song("c")];
  const brief = briefOf(songs, 15);
  expect(compareOrders([["a", "b", "c"]], [["a", "c", "b"]], brief).better).toEqual(["less retuning"]);
  expect(compareOrders([["a", "c", "b"]], [["a", "b", "c"]], brief).worse).toEqual(["more retuning"]);
  expect(compareOrders([["a"]], [["a"]], brief)).toEqual({ better: [], worse: [] });
});

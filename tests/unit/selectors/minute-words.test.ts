import { expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { addedSentence, lengthSentence, unknownSentence } from "#shared/selectors/minute-words.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { aSong } from "#tests/support/ready-song.ts";

const outlook = (planned: number, contracted: number, unknownLength: readonly string[] = []) => ({
  minutes: { ready: 0, planned, contracted, unknownLength },
  songs: [{ song: "a", title: "A", points: 0, ready: false, waived: 0, reason: null, length: 60 }],
});

test("what is over or short is named to the second; nothing is neither", () => {
  expect(lengthSentence(outlook(25.005, 25))).toBe("25:00 with the gaps, exactly the 25 minutes.");
  expect(lengthSentence(outlook(25.4, 25))).toBe("25:24 with the gaps, 0:24 over the 25 minutes.");
  expect(lengthSentence(outlook(26, 25))).toBe("26:00 with the gaps, 1:00 over the 25 minutes.");
  expect(lengthSentence(outlook(24.25, 25))).toBe("24:15 with the gaps, 0:45 short of the 25 minutes.");
});

test("an empty running order has no length, and unknown lengths are counted", () => {
  expect(lengthSentence({ ...outlook(0, 25), songs: [] })).toBe("");
  expect(unknownSentence(outlook(3, 25))).toBe("");
  expect(unknownSentence(outlook(3, 25, ["a"]))).toBe("1 song without a length counts as 0 minutes.");
  expect(unknownSentence(outlook(3, 25, ["a", "b"]))).toBe("2 songs without a length count as 0 minutes.");
});

test("retuning within a block and talk are added, a break between blocks costs no retuning", () => {
  const file = (id: string, tuning: string, capo = 0): SongFile => ({
    ...aSong(),
    song: { ...aSong().song, id, tuning, capo },
  });
  const songs = new Map(
    [file("a", ""), file("b", "D-standard"), file("c", "standard"), file("d", "standard", 5)].map((one) => [
      one.song.id,
      one,
    ]),
  );
  const called = (ids: readonly string[], block = 0) =>
    ids.map((song, i) => ({
      song,
      order: `${block}${i}`,
      key: null,
      tempo: null,
      tuning: null,
      block,
      pin: "" as const,
    }));
  const gig = (change: Partial<Gig>): Gig => ({
    id: "g", name: "", place: "", date: "2026-03-14", minutes: 45, ...NOTHING_AGREED, songs: [], lineUp: new Map(), waivers: [], ...change,
  }); // biome-ignore format: one gig
  // 20 minutes and twice 45 seconds.
  expect(addedSentence(gig({ songs: called(["a", "b", "c"]) }), songs, "standard", 20)).toBe(
    "With 2 retunings or capo changes it is 21:30.",
  );
  const two = { blocks: [20, 25], talk: 2, songs: [...called(["a", "b"]), ...called(["c", "d"], 1)] };
  expect(addedSentence(gig(two), songs, "standard", 20)).toBe(
    "With 2 retunings or capo changes and 4 minutes of talk it is 25:30.",
  );
  expect(addedSentence(gig({ songs: called(["a", "c"]) }), songs, "standard", 20)).toBe("");
  expect(addedSentence(gig({ talk: 3 }), songs, "standard", 0)).toBe("");
});

import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { cutWords, LINE_MOST, nextWords, STAND_LINES, standNight } from "#shared/selectors/stand.ts";
import {
  changeOnStand,
  pauseWords,
  placeAfter,
  STAND_START,
  songInHand,
  stepOnStand,
} from "#shared/selectors/stand-place.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const RUNS = { numRuns: 1000 };
const lines = (band: ReturnType<typeof gigBand>, member: string | null, song = 0) =>
  standNight(band.board(), "harbour", member)?.songs[song]?.lines.map(({ text }) => text);

test("seven lines a song, for the chair the player sits on that night, with that night's key, lift and tempo", () => {
  const band = gigBand();
  expect(lines(band, "karim")).toEqual([
    "1 Marzipan Diesel",
    "Dm, lift to Em · standard",
    "108 bpm",
    "Count: sticks",
    // Written as Em7/B in Em.
    "First: Dm7/A · Verse, 8 bars",
    "Outro b2: Stop with the drums",
    "End: Cold",
  ]);
  expect(lines(band, "lucia")?.[1]).toBe("Dm, lift to Em");
  band.done("tuneForGig", { gig: "harbour", song: "diesel", tuning: "half step down" });
  expect(lines(band, "karim")?.[1]).toBe("Dm, lift to Em · half step down");
  band.done("reviseDetail", { card: "root", fields: { kind: "rest", weight: "must" } });
  expect(lines(band, "karim")?.slice(4, 6)).toEqual([
    "First: Dm7/A · Stay on the root",
    "Verse b1: Stay on the root",
  ]);
  expect(lines(band, null)?.[5]).toBe("Verse b1: Stay on the root");
  const [verse] = band.board().songs.get("diesel")?.sections ?? [];
  band.done("reviseSection", { song: "diesel", section: verse?.id, repeats: 2, tempo: 96, metre: "6/8" });
  expect(lines(band, "lucia")?.[4]).toBe("First: Verse, 8 bars, twice, 6/8, 96 bpm");
});

test("what is not settled is said, tacet too, and who gives the cue of the ending", () => {
  const band = gigBand();
  expect(lines(band, "karim", 1)).toEqual([
    "2 Umbrella Season",
    "A",
    "Tempo not settled",
    "Count-in not settled",
    "Tacet: you do not play",
    "No must",
    "Ending not settled",
  ]);
  band.done("reviseDetail", { card: "stop", fields: { kind: "ending" } });
  band.done("describeSide", { card: "stop", side: "ending", value: { how: "cold", cue: "drums" } });
  expect(lines(band, "karim")?.slice(-2)).toEqual(["No other must", "End: Cold · cue Lucía"]);
});

test("a cover is a must only while the chair it covers is empty", () => {
  const band = gigBand();
  band.done("reviseDetail", { card: "cover", fields: { weight: "must" } });
  expect(lines(band, "karim")?.[5]).toBe("Outro b2: Stop with the drums");
  band.done("seatForGig", { gig: "harbour", chair: "voice", member: "" });
  expect(lines(band, "karim")?.[5]).toBe("whole: Take the low voice's line");
});

test("words are cut at a word, never longer than they may be, and short ones stay as they are", () => {
  expect(cutWords("Two stabs, a bar of nothing, one last stab", 30)).toBe("Two stabs, a bar of nothing…");
  fc.assert(
    fc.property(
      fc.string({ unit: "grapheme", maxLength: 120 }),
      fc.integer({ min: 8, max: 62 }),
      (text, most) => {
        const cut = cutWords(text, most);
        const plain = text.replace(/\s+/gu, " ").trim();
        expect([...cut].length).toBeLessThanOrEqual(most);
        if (cut !== plain) {
          expect(cut.endsWith("…")).toBe(true);
          expect([...plain].length).toBeGreaterThan(most);
          expect(plain.startsWith(cut.slice(0, -1))).toBe(true);
        }
      },
    ),
    RUNS,
  );
});

test("every song of the demo band's gigs has seven lines within their lengths, for every player", () => {
  const ydoc = new Y.Doc();
  seedDemo(ydoc, Date.UTC(2026, 2, 5, 12), "Europe/Lisbon");
  const board = readBoard(createBoardDocument(ydoc));
  for (const gig of board.gigs)
    for (const member of [null, ...board.people.keys()]) {
      const night = standNight(board, gig.id, member);
      expect(night?.songs.map(({ id }) => id)).toEqual(gig.songs.map(({ song }) => song));
      for (const song of night?.songs ?? []) {
        expect(song.lines.map(({ name }) => name)).toEqual([...STAND_LINES]);
        for (const { name, text } of song.lines) {
          expect([...text].length).toBeLessThanOrEqual(LINE_MOST[name]);
          expect(text).not.toBe("");
        }
      }
    }
  expect(standNight(board, "no such gig", null)).toBeNull();
});

const blocks = fc
  .array(fc.integer({ min: 1, max: 5 }), { maxLength: 4 })
  .map((sizes) => sizes.flatMap((size, block) => Array.from({ length: size }, () => ({ block }))));

test("on and on plays every song once, in order, with a pause before every block and at the end", () => {
  fc.assert(
    fc.property(blocks, (songs) => {
      const played: number[] = [];
      const pauses: string[] = [];
      let place = STAND_START;
      for (let step = 0; step < 2 * songs.length + 3; step++) {
        if (place.paused) pauses.push(pauseWords(songs, place.at));
        else played.push(place.at);
        const next = stepOnStand(songs, place, "next");
        if (next.at === place.at && next.paused === place.paused) break;
        // Back leads to where one came from.
        expect(stepOnStand(songs, next, "back")).toEqual(place);
        place = next;
      }
      expect(played).toEqual(songs.map((_, i) => i));
      expect(place).toEqual({ at: songs.length, paused: true });
      expect(pauses).toHaveLength(new Set(songs.map(({ block }) => block)).size + 1);
      expect(stepOnStand(songs, place, "pause")).toEqual(place);
    }),
    RUNS,
  );
});

test("a pause within a block stays at its song", () => {
  const songs = [{ block: 0 }, { block: 0 }];
  const paused = stepOnStand(songs, { at: 1, paused: false }, "pause");
  expect(paused).toEqual({ at: 1, paused: true });
  expect(pauseWords(songs, 1)).toBe("Pause");
  expect(stepOnStand(songs, paused, "pause")).toEqual({ at: 1, paused: false });
  expect(stepOnStand(songs, paused, "next")).toEqual({ at: 1, paused: false });
});

test("a flag is for the song that is played, and in a break for the one before it", () => {
  const songs = ["a", "b", "c"].map((id, i) => ({ id, block: i < 2 ? 0 : 1 }));
  const inHand = (at: number, paused: boolean) => songInHand(songs, { at, paused })?.id;
  expect([inHand(0, true), inHand(0, false), inHand(1, true)]).toEqual([undefined, "a", "b"]);
  expect([inHand(2, true), inHand(2, false), inHand(3, true)]).toEqual(["b", "c", "c"]);
});

test("what the leader changed is one sentence, the order before the songs", () => {
  const band = gigBand();
  const night = (member = "karim") => standNight(band.board(), "harbour", member);
  const frozen = night();
  if (frozen === null) throw new Error("no gig");
  const change = () => changeOnStand(frozen, night());
  expect(change()).toBe("");
  band.done("tuneForGig", { gig: "harbour", song: "diesel", key: "Em", tempo: 108 });
  expect(change()).toBe(
    "A song was changed: Marzipan Diesel: Em, lift to F#m · standard instead of Dm, lift to Em · standard",
  );
  band.done("moveInGig", { gig: "harbour", song: "umbrella", index: 0 });
  expect(change()).toBe("The leader changed the order: 1 is Umbrella Season, and 1 more");
  band.done("dropSong", { gig: "harbour", song: "diesel" });
  expect(change()).toBe("The leader changed the order: out: Marzipan Diesel");
  band.done("callSongs", { gig: "harbour", songs: ["kettle"] });
  expect(change()).toBe("The leader changed the order: out: Marzipan Diesel, and 1 more");
  band.done("cancelGig", { id: "harbour" });
  expect(change()).toBe("The gig was called off on the board.");
});

test("a taken over order keeps the song; a dropped one gives way to the next that is still played", () => {
  const order = (ids: string) => [...ids].map((id) => ({ id }));
  expect(placeAfter(order("abcd"), order("dcba"), { at: 1, paused: false })).toEqual({
    at: 2,
    paused: false,
  });
  expect(placeAfter(order("abcd"), order("acd"), { at: 1, paused: false })).toEqual({ at: 1, paused: true });
  expect(placeAfter(order("abcd"), order("xa"), { at: 2, paused: false })).toEqual({ at: 2, paused: true });
  const ids = fc
    .uniqueArray(fc.constantFrom(..."abcdefgh"), { maxLength: 8 })
    .map((all) => order(all.join("")));
  fc.assert(
    fc.property(ids, ids, fc.nat(8), fc.boolean(), (before, after, n, paused) => {
      const at = Math.min(n, before.length);
      const place = placeAfter(before, after, { at, paused });
      const here = before[at]?.id;
      if (here !== undefined && after.some(({ id }) => id === here)) {
        expect(after[place.at]?.id).toBe(here);
        expect(place.paused).toBe(paused);
      } else expect(place.paused).toBe(true);
      expect(place.at).toBeLessThanOrEqual(after.length);
    }),
    RUNS,
  );
});

test("the next song in small says what has to be in the hands by then", () => {
  const night = standNight(gigBand().board(), "harbour", "karim");
  expect(nextWords(night?.songs[1])).toBe("Umbrella Season · A");
  expect(nextWords(undefined)).toBe("then it is over");
});

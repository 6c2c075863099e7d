import { expect, test } from "vitest";
import { boardRow, isMostlyClaims, touchedAt } from "#shared/selectors/board-row.ts";
import { aReading } from "#tests/support/a-row.ts";
import { DAY_MS, SONG, START } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, readyFile } from "#tests/support/ready-song.ts";

test("a row says what the song's score and gates say", () => {
  const reading = aReading(readyFile(), 25, 30);
  const row = boardRow(
    reading,
    {
      songs: [
        { song: "other", order: "a", key: null, tempo: null, tuning: null, block: 0, pin: "" as const },
      ],
    },
    "tomasz",
  );
  expect(row.today).toBe(reading.today.score);
  expect(row.night).toBe(reading.night.score);
  expect(row.ready).toBe(true);
  expect(row.reason).toBeNull();
  expect(row.place).toBeNull();
  expect(row.mine).toBe(true);
});

test("a row that is not ready opens with its first reason", () => {
  const file = { ...readyFile(), takes: [] };
  const row = boardRow(aReading(file, 25, 30), null, "nobody");
  expect(row.ready).toBe(false);
  expect(row.reason?.sentence).toBe(aReading(file, 25, 30).ready.first?.sentence);
  expect(row.mine).toBe(false);
});

test("an ending of blanks is no ending", () => {
  const file = aSong();
  const without = { ...file, song: { ...file.song, ending: "  " } };
  expect(boardRow(aReading(file, 5, 5), null, null).noEnding).toBe(false);
  expect(boardRow(aReading(without, 5, 5), null, null).noEnding).toBe(true);
});

test("its place in the running order counts from 0", () => {
  const songs = ["first", SONG].map((song) => ({
    song,
    order: song,
    key: null,
    tempo: null,
    tuning: null,
    block: 0,
    pin: "" as const,
  }));
  expect(boardRow(aReading(aSong(), 5, 5), { songs }, null).place).toBe(1);
});

test("a song is touched by takes and marks up to now, and when it was added", () => {
  const card = aCard("c");
  const marked = aSong({ cards: [card], statuses: new Map([["c", new Map([["tomasz", aMark(2, 12)]])]]) });
  const now = START + 20 * DAY_MS;
  expect(touchedAt(aSong(), now)).toBe(START);
  expect(touchedAt(marked, now)).toBe(START + 12 * DAY_MS);
  expect(touchedAt({ ...marked, takes: [aRun(15), aRun(30)] }, now)).toBe(aRun(15).at);
});

test("mostly claims: ticks without a log; not where nothing is claimed, nor where the log carries it", () => {
  const claimed = { ...readyFile(), takes: [] };
  expect(isMostlyClaims(aReading(claimed, 26, 26).today)).toBe(true);
  expect(isMostlyClaims(aReading(aSong(), 26, 26).today)).toBe(false);
  const played = aReading({ ...readyFile(), takes: [aRun(4), aRun(11), aRun(18), aRun(25)] }, 26, 26);
  expect(played.today.logShare).toBeGreaterThan(0.5);
  expect(isMostlyClaims(played.today)).toBe(false);
});

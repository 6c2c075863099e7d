import { expect, test } from "vitest";
import type { Song } from "#shared/board/song.ts";
import { type SwapSong, staleSongs, swapsOf } from "#shared/selectors/swap-list.ts";
import { aSong } from "#tests/support/ready-song.ts";

const NIGHT = Date.UTC(2026, 2, 14, 23);
const DAY = 86_400_000;
const swap = (id: string, change: Partial<SwapSong> = {}, song: Partial<Song> = {}): SwapSong => ({
  song: { ...aSong().song, id, floor: "fills", ...song },
  tempo: 120,
  tuning: "standard",
  ready: true,
  score: 0.8,
  playedAt: NIGHT - 7 * DAY,
  ...change,
});

test("a spare has the same role on the floor and tuning, and a near tempo", () => {
  const spares = [
    swap("far", { tempo: 140 }),
    swap("near", { tempo: 126 }),
    swap("tuned", { tuning: "drop D" }),
    swap("unready", { ready: false }),
    swap("slow", {}, { floor: "slow" }),
  ];
  expect(swapsOf([swap("a")], spares)).toEqual([{ song: "a", spare: "near", differs: [] }]);
  expect(swapsOf([swap("a")], [spares[0] as SwapSong])).toEqual([
    { song: "a", spare: "far", differs: ["140 instead of 120"] },
  ]);
  // 10 % is near, more is not: 132 lies 10 % over 120.
  expect(swapsOf([swap("a")], [swap("b", { tempo: 132 })])[0]?.differs).toEqual([]);
  expect(swapsOf([swap("a")], [swap("b", { tempo: 133 })])[0]?.differs).toEqual(["133 instead of 120"]);
  expect(swapsOf([swap("a")], [])).toEqual([{ song: "a", spare: null, differs: [] }]);
});

test("stale songs: those not played within the days of the gate, the longest ago first, with the minutes of a run", () => {
  const played = [
    swap("fresh"),
    swap("edge", { playedAt: NIGHT - 45 * DAY }),
    swap("old", { playedAt: NIGHT - 46 * DAY }, { length: 200 }),
    swap("never", { playedAt: null }, { length: null }),
  ];
  expect(staleSongs(played, NIGHT, 45, 210)).toEqual([
    { song: "never", days: null, minutes: 5 },
    { song: "old", days: 46, minutes: 5 },
  ]);
});

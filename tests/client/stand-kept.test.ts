import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { freeze, keepNight, keptNight } from "#client/features/stand/frozen-night.ts";
import { flagSong, forgetGigFlags, gigFlags } from "#client/pieces/gig-flags.ts";
import { standNight } from "#shared/selectors/stand.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const NOW = Date.UTC(2031, 4, 8, 20);
const HOUR = 3_600_000;
const stored = new Map<string, string>();

beforeEach(() => {
  stored.clear();
  vi.stubGlobal("window", {
    localStorage: {
      getItem: (name: string) => stored.get(name) ?? null,
      setItem: (name: string, text: string) => stored.set(name, text),
    },
  });
});
afterEach(() => vi.unstubAllGlobals());

test("[STAGE-1] a frozen night is kept past midnight, and not until the next evening", () => {
  const night = standNight(gigBand().board(), "harbour", "karim");
  if (night === null) throw new Error("no gig");
  const frozen = { ...freeze(night, NOW), place: { at: 1, paused: false } };
  keepNight("stand", frozen);
  expect(keptNight("stand", NOW + 6 * HOUR)).toEqual(frozen);
  expect(keptNight("stand", NOW + 24 * HOUR)).toBeNull();
});

test("what cannot be read is no night, and nothing breaks", () => {
  for (const text of ["", "{", "[]", '{"night":{"songs":[]},"place":{"at":-1}}', '{"at":0}']) {
    stored.set("tightrow.stand", text);
    expect(keptNight("stand", NOW)).toBeNull();
  }
});

test("a song is flagged once, with its moment; the flags stay when storage is closed", () => {
  flagSong("board", "gig", "a", 1);
  flagSong("board", "gig", "a", 2);
  flagSong("board", "gig", "b", 3);
  expect(gigFlags("board", "gig")).toEqual([
    { song: "a", at: 1 },
    { song: "b", at: 3 },
  ]);
  expect(JSON.parse(stored.get("tightrow.gig-flags.board.gig") ?? "")).toEqual(gigFlags("board", "gig"));
  flagSong("board", "gig", "a", null);
  expect(gigFlags("board", "gig")).toEqual([{ song: "b", at: 3 }]);
  forgetGigFlags("board", "gig");
  expect(gigFlags("board", "gig")).toEqual([]);
  vi.stubGlobal("window", {});
  flagSong("board", "other", "c", 4);
  expect(gigFlags("board", "other")).toEqual([{ song: "c", at: 4 }]);
});

import { describe, expect, test } from "vitest";
import type { Take } from "#shared/board/take.ts";
import { eveningLog, joinedTake, joinSentence, loggedBy } from "#shared/selectors/evening-log.ts";
import { SONG } from "#tests/support/histories.ts";
import { aRun, aSong } from "#tests/support/ready-song.ts";

const names = { member: (id: string) => `Member ${id}`, chair: (id: string) => id };
const whole = { of: "whole" } as const;

describe("the log of an evening", () => {
  const other = { ...aSong(), song: { ...aSong().song, id: "other" } };
  const first = aRun(62);
  const second = aRun(62, { id: `r:2026-03-04/${SONG}/2`, no: 2, at: first.at + 600_000 });
  const between = aRun(62, { id: "r:2026-03-04/other/1", song: "other", at: first.at + 300_000 });
  const solo = (member: string): Take =>
    aRun(62, {
      id: `s:${member}:2026-03-04/${SONG}/1`,
      occasion: `s:${member}:2026-03-04`,
      kind: "solo",
      seats: [{ chair: "gt", member }],
      at: first.at - 1000,
    });
  const songs = [
    { ...aSong(), takes: [aRun(55), solo("tomasz"), solo("lucia"), first, second] },
    { ...other, takes: [between] },
  ];
  const evening = { day: "2026-03-04", gigs: [], timeZone: "Europe/Lisbon", member: "tomasz" };

  test("holds the takes of that day over all songs, newest first, with one's own solo work only", () => {
    expect(eveningLog(songs, evening).map(({ take }) => take.id)).toEqual([
      second.id,
      between.id,
      first.id,
      solo("tomasz").id,
    ]);
  });
});

describe("a take about to be logged", () => {
  const theirs = aRun(62, { writers: ["her-phone"], by: ["lucia"] });
  const file = aSong({ takes: [theirs] });
  const mine = { occasion: theirs.occasion, at: theirs.at + 60_000, kind: "run", scope: whole } as const;

  test("joins the one that another phone has just logged, and says whose", () => {
    const joined = joinedTake(file, mine, "my-phone");
    expect(joined).toBe(theirs);
    expect(joinSentence(theirs, names)).toBe("Member lucia's phone logged this take: clean. Yours joins it.");
    expect(joinSentence({ ...theirs, by: [] }, names)).toBe(
      "Another device logged this take: clean. Yours joins it.",
    );
  });

  test.each([
    ["it is long ago", { ...mine, at: theirs.at + 20 * 60_000 }, "my-phone"],
    ["this phone has logged it", mine, "her-phone"],
    ["it is another kind of work", { ...mine, kind: "drill" as const }, "my-phone"],
    ["it was another evening", { ...mine, occasion: "r:2026-03-03" }, "my-phone"],
  ])("starts one of its own when %s", (_, take, writer) => {
    expect(joinedTake(file, take, writer)).toBeNull();
  });
});

test("who logged it is said as far as it is known", () => {
  const me = { writer: "my-phone", member: "tomasz" };
  const say = (writers: readonly string[], by: readonly string[]) =>
    loggedBy(aRun(62, { writers, by }), me, names);
  expect(say(["my-phone"], ["tomasz"])).toBe("logged here");
  expect(say(["her-phone"], ["lucia"])).toBe("logged by Member lucia");
  expect(say(["her-phone", "my-phone"], ["lucia", "tomasz"])).toBe(
    "logged by Member lucia and on this device",
  );
  expect(say(["tablet"], ["tomasz"])).toBe("logged on another device of yours");
  expect(say(["tablet"], [])).toBe("logged on another device");
});

/** Every command of the registry: what it changes, what it refuses, and that undo brings back the board there was. */
import { describe, expect, test } from "vitest";
import type { Board } from "#shared/board/board.ts";
import type { Casting } from "#shared/board/song.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { smallBand } from "#tests/support/command-bench.ts";
import { ALL_CASES } from "#tests/support/command-cases/all-cases.ts";
import { RUN } from "#tests/support/command-cases/case.ts";

const isDefaultCasting = (casting: Casting): boolean =>
  casting.plays && casting.needed && casting.share === 1 && !casting.holder && !casting.nothingSpecial;

/**
 * Undo keeps every value but may move times, list a record as removed, and leave a casting that says nothing.
 */
const withoutTimes = (board: Board): unknown => {
  const TIMES = new Set(["at", "anchor", "from", "fromAnchor", "by"]);
  const strip = (value: unknown): unknown => {
    if (value instanceof Map) return [...value].map(([key, entry]) => [key, strip(entry)]);
    if (value instanceof Set) return [...value];
    if (Array.isArray(value)) return value.map(strip);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).flatMap(([key, entry]) => (TIMES.has(key) ? [] : [[key, strip(entry)]])),
    );
  };
  const { removed: _, ...rest } = board;
  const songs = [...board.songs.values()].map((file) => ({
    ...file,
    castings: [...file.castings.values()].filter((casting) => !isDefaultCasting(casting)),
  }));
  return strip({ ...rest, songs });
};

test("[CMD-2] every command of the registry is tried here; undo has a file of its own", () => {
  expect([...Object.keys(ALL_CASES), "takeBack"].sort()).toEqual([...COMMANDS.keys()].sort());
});

describe.each(Object.entries(ALL_CASES))("[CMD-3] %s", (name, { args, as, says, expected, refused = [] }) => {
  const start = () => smallBand();
  const matches = (actual: unknown): void =>
    typeof expected === "object" && expected !== null && !Array.isArray(expected)
      ? expect(actual).toMatchObject(expected)
      : expect(actual).toEqual(expected);

  test("changes the board", () => {
    const trial = start();
    trial.done(name, args, as, RUN);
    matches(says(trial.board(), RUN));
  });

  test("writes the same again on a copy that lost it, under the same id and time", () => {
    expect(start().done(name, args, as, RUN)).toEqual(start().done(name, args, as, RUN));
  });

  test("is taken back without a trace but times", () => {
    const trial = start();
    const before = withoutTimes(trial.board());
    const written = trial.done(name, args, as, RUN);
    trial.done("takeBack", { written: [...written] }, as);
    expect(withoutTimes(trial.board())).toEqual(before);
  });

  test("and the taking back can be taken back", () => {
    const trial = start();
    const written = trial.done(name, args, as, RUN);
    const after = withoutTimes(trial.board());
    const undone = trial.done("takeBack", { written: [...written] }, as);
    trial.done("takeBack", { written: [...undone] }, as);
    expect(withoutTimes(trial.board())).toEqual(after);
  });

  test("is refused to a guest and with arguments of another shape, and then nothing changes", () => {
    const trial = start();
    const before = trial.board();
    expect(trial.run(name, args, { role: "guest" })).toMatchObject({
      ok: false,
      error: { code: "forbidden" },
    });
    for (const nonsense of [null, "x", [], { id: 7, song: {}, name: "" }])
      expect(trial.run(name, nonsense)).toMatchObject({ ok: false, error: { code: "invalid" } });
    expect(trial.board()).toBe(before);
  });

  for (const { code, args: wrong, as: who } of refused) {
    test(`refuses ${JSON.stringify(wrong).slice(0, 90)} as ${code}, and nothing changes`, () => {
      const trial = start();
      const before = trial.board();
      const result = trial.run(name, wrong, who ?? as);
      expect(result).toMatchObject({ ok: false, error: { code } });
      if (!result.ok) expect(result.error.sentence).toMatch(/^[A-Z“].*[.]$/);
      expect(trial.board()).toBe(before);
    });
  }
});

import { describe, expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import { joinOutcome } from "#shared/commands/join-outcome.ts";
import { emptyBoard } from "#tests/support/command-bench.ts";

type Own = Partial<{ metre: string; tempo: number; key: string; repeats: number; bars: number }>;

/** A song in 4/4, D and at 112 with Verse, Chorus and Outro of four bars; what they have of their own is said. */
const band = (own: { readonly [name: string]: Own } = {}) => {
  const trial = emptyBoard();
  trial.done("addChair", { name: "Drums", instrument: "drums" }, {}, "drums");
  trial.done("addSong", { title: "Marzipan Diesel", key: "D", tempo: 112 }, {}, "song");
  for (const name of ["Verse", "Chorus", "Outro"]) {
    trial.done("addSection", { song: "song", name, bars: 4 }, {}, name);
    if (own[name]) trial.done("reviseSection", { song: "song", section: name, ...own[name] });
  }
  const file = (): SongFile => {
    const found = trial.board().songs.get("song");
    if (found === undefined) throw new Error("The song is gone");
    return found;
  };
  const paint = (section: string, source: string, ...changes: readonly (readonly [number, string])[]) =>
    trial.done("paintTexture", {
      song: "song",
      source,
      cells: [
        {
          section,
          chair: "drums",
          changes: changes.map(([bar, presence]) => ({ bar, pass: null, presence })),
        },
      ],
    });
  const join = () => trial.run("joinSections", { song: "song", section: "Verse" });
  return { ...trial, file, paint, join };
};

const told = (own: { readonly [name: string]: Own }) => joinOutcome(band(own).file(), "Verse")?.told;

describe("what cannot be one section is refused beforehand and by the command, with what to do", () => {
  test.each([
    [
      { Chorus: { metre: "6/8" } },
      "Verse is in 4/4 and Chorus in 6/8: a section has one metre. Give both the same, or leave them apart.",
    ],
    [
      { Verse: { metre: "7/8" } },
      "Verse is in 7/8 and Chorus in 4/4: a section has one metre. Give both the same, or leave them apart.",
    ],
    [{ Chorus: { repeats: 2 } }, "Chorus comes 2 times in a row and cannot be joined. Write it out first."],
    [{ Chorus: { bars: 998 } }, "A section has at most 999 bars."],
  ])("%j", (own, sentence) => {
    const trial = band(own);
    const before = trial.file();
    expect(joinOutcome(before, "Verse")?.refusal).toBe(sentence);
    expect(trial.join()).toMatchObject({ ok: false, error: { code: "invalid", sentence } });
    expect(trial.file()).toBe(before);
  });

  test("the same metre may be the song's or a section's own", () => {
    const trial = band({ Chorus: { metre: "4/4" } });
    expect(joinOutcome(trial.file(), "Verse")).toMatchObject({ refusal: null, told: [] });
    expect(trial.join().ok).toBe(true);
  });

  test("nothing follows the last", () => {
    expect(joinOutcome(band().file(), "Outro")).toBeNull();
  });
});

describe("what one section cannot say of its second half is told", () => {
  test.each<[{ readonly [name: string]: Own }, readonly string[]]>([
    [{}, []],
    [{ Chorus: { tempo: 112, key: "D" } }, []],
    [{ Chorus: { tempo: 120 } }, ["The tempo of Chorus, 120, is lost: all of it is at 112, as Verse is."]],
    [{ Verse: { tempo: 96 } }, ["The tempo of Chorus, 112, is lost: all of it is at 96, as Verse is."]],
    [{ Chorus: { key: "Eb" } }, ["The change to E♭ at Chorus is lost; it is said at Outro instead."]],
    [{ Chorus: { key: "E" }, Outro: { key: "F" } }, ["The change to E at Chorus is lost."]],
  ])("%j", (own, sentences) => {
    expect(told(own)).toEqual(sentences);
  });

  test("a tempo beside none is lost as well, and a key in nobody's spelling is told as it is written", () => {
    const trial = band({ Chorus: { tempo: 120, key: "up a step" } });
    trial.done("reviseSong", { song: "song", fields: { tempo: null } });
    expect(joinOutcome(trial.file(), "Verse")?.told).toEqual([
      "The tempo of Chorus, 120, is lost: Verse has none.",
      "The change to up a step at Chorus is lost; it is said at Outro instead.",
    ]);
  });

  test("what follows stays in its key", () => {
    const trial = band({ Chorus: { key: "E" } });
    trial.join();
    expect(trial.file().sections.map(({ name, key }) => [name, key])).toEqual([
      ["Verse", ""],
      ["Outro", "E"],
    ]);
  });
});

describe("who plays when is joined", () => {
  const read = (trial: ReturnType<typeof band>, source: string) =>
    trial
      .file()
      .textures.get(`Verse/drums/${source}`)
      ?.map(({ bar, presence }) => `${bar} ${presence}`);

  test("bar by bar, with the rest before a first word", () => {
    const trial = band();
    trial.paint("Verse", "recorded", [1, "play"]);
    trial.paint("Chorus", "recorded", [3, "full"]);
    expect(joinOutcome(trial.file(), "Verse")?.told).toEqual([]);
    trial.join();
    expect(read(trial, "recorded")).toEqual(["1 play", "5 rest", "7 full"]);
  });

  test("where only one is painted, the other goes on as it ends or begins, and that is told", () => {
    const second = band();
    second.paint("Chorus", "recorded", [1, "light"], [3, "full"]);
    expect(joinOutcome(second.file(), "Verse")?.told).toEqual([
      "Verse is not painted for every part: there it is taken as Chorus begins.",
    ]);
    second.join();
    expect(read(second, "recorded")).toEqual(["1 light", "7 full"]);

    const first = band();
    first.paint("Verse", "ours", [1, "light"], [3, "full"]);
    expect(joinOutcome(first.file(), "Verse")?.told).toEqual([
      "Chorus is not painted for every part: there it is taken as Verse ends.",
    ]);
    first.join();
    expect(read(first, "ours")).toEqual(["1 light", "3 full"]);
    expect(read(first, "recorded")).toBeUndefined();
  });

  test("what is not painted as ours is played as recorded", () => {
    const trial = band();
    trial.paint("Verse", "ours", [1, "light"]);
    trial.paint("Verse", "recorded", [1, "play"]);
    trial.paint("Chorus", "recorded", [1, "full"]);
    expect(joinOutcome(trial.file(), "Verse")?.told).toEqual([]);
    trial.join();
    expect(read(trial, "ours")).toEqual(["1 light", "5 full"]);
    expect(read(trial, "recorded")).toEqual(["1 play", "5 full"]);
  });

  test("one undo takes all of it back", () => {
    const trial = band({ Chorus: { key: "E", tempo: 120 } });
    trial.paint("Chorus", "ours", [1, "full"]);
    const { sections } = trial.file();
    const done = trial.join();
    if (!done.ok) throw new Error(done.error.sentence);
    trial.done("takeBack", { written: done.value.written });
    expect(trial.file().sections).toEqual(sections);
    expect(trial.file().textures.get("Verse/drums/ours") ?? []).toEqual([]);
  });
});

import { describe, expect, test } from "vitest";
import type { Instrument } from "#shared/board/band.ts";
import { findInScore, playedChairs, presenceIn, presenceWords } from "#shared/exchange/score/found-song.ts";
import { formWords, songWords } from "#shared/exchange/score/found-words.ts";
import { importArgs, melodyOf, suggestDetails } from "#shared/exchange/score/import-choices.ts";
import { suggestChairs } from "#shared/exchange/score/part-facts.ts";
import { rasterOf } from "#shared/exchange/score/pattern-facts.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { emptyBoard } from "#tests/support/command-bench.ts";
import { inventedSong } from "#tests/support/score/invented-song.ts";
import { drain, midiOf, type TestSong } from "#tests/support/score/write-midi.ts";

const found = (change: Partial<TestSong> = {}) => {
  const result = drain(readScore(midiOf(inventedSong(change))));
  if (!result.ok) throw new Error(result.error);
  return findInScore(result.value);
};
const CHAIRS: readonly { readonly id: string; readonly instrument: Instrument }[] = [
  { id: "vox", instrument: "lead voice" },
  { id: "keys", instrument: "keys" },
  { id: "bass", instrument: "bass" },
  { id: "drums", instrument: "drums" },
];
const song = found();
const ASSIGNED = ["drums", "bass", "keys", "vox"];

/** A section that has nothing of its own. */
const PLAIN = { tempo: null, key: "", within: [] };

describe("what a file says of a song", () => {
  test("title, tempo, key, metre, length and the form of its markers", () => {
    expect(song.song).toEqual({
      title: "Paper Lantern",
      tempo: 96,
      tempoRange: null,
      metre: "4/4",
      key: "D",
      keyFits: 1,
      length: 60,
      formSource: "marks",
      form: [
        { name: "Intro", from: 0, bars: 4, metre: "4/4", ...PLAIN },
        { name: "Verse", from: 4, bars: 8, metre: "4/4", ...PLAIN },
        { name: "Chorus", from: 12, bars: 8, metre: "4/4", ...PLAIN },
        { name: "Verse (2)", from: 20, bars: 4, metre: "4/4", ...PLAIN },
      ],
    });
  });

  test("parts with what plays them and how far they go, and the chairs they fit", () => {
    expect(song.parts.map(({ name, instrument, range }) => [name, instrument, range])).toEqual([
      ["Drum kit", "drums", null],
      ["Bass", "bass", [38, 38]],
      ["Piano", "keys", [62, 69]],
      ["Voice", "lead voice", [62, 71]],
    ]);
    expect(
      suggestChairs(
        song.parts.map(({ instrument }) => instrument),
        CHAIRS,
      ),
    ).toEqual(ASSIGNED);
    expect(suggestChairs(["guitar", "keys", "keys"], CHAIRS)).toEqual([null, "keys", null]);
  });

  test("who plays when, with an entry half-way", () => {
    const words = playedChairs(song.facts, ASSIGNED).map((played) =>
      presenceWords(song.song.form, presenceIn(song, played)),
    );
    expect(words).toEqual([
      "rests in Intro; plays full in Verse, Chorus; plays lightly in Verse (2)",
      "rests in Intro; plays full in Verse, Chorus, Verse (2)",
      "plays full in Intro, Verse, Chorus, Verse (2)",
      "rests in Intro, Verse (2); waits until bar 3, then plays in Verse; plays full in Chorus",
    ]);
  });

  test("grooves with the kit apart, a bass that shows its kick, and crashes by section", () => {
    const details = suggestDetails(song, ASSIGNED, CHAIRS);
    expect(details.map(({ text, because, section }) => [text, because, section])).toEqual([
      ["Groove in Verse, Chorus", "exactly so in 16 of 16 bars", 1],
      ["Groove in Verse (2)", "exactly so in 4 of 4 bars", 3],
      ["Bass pattern all through", "exactly so in 20 of 20 bars", null],
      [
        "Cymbals by section; crashes: Chorus 2",
        "closed hats in Verse, Chorus; no cymbals in Verse (2)",
        null,
      ],
    ]);
    expect(details[0]?.grid).toEqual({
      steps: 16,
      perBeat: 4,
      rows: [
        { chair: "drums", voice: "kick", hits: "x.........x....." },
        { chair: "drums", voice: "snare", hits: "....x.......x..." },
        { chair: "drums", voice: "hats", hits: "x.x.x.x.x.x.x.x." },
      ],
    });
    expect(details[2]?.grid?.rows).toEqual([
      { chair: "bass", hits: "x---......x---.." },
      { chair: "drums", voice: "kick", hits: "x.........x....." },
    ]);
  });

  test("how long each note is sung, in quarter notes", () => {
    expect(melodyOf(song, ASSIGNED, CHAIRS)).toEqual({
      key: "D",
      histogram: [
        [62, 12],
        [64, 12],
        [66, 8],
        [67, 8],
        [69, 8],
        [71, 8],
      ],
    });
    expect(melodyOf(song, ["drums", "bass", "keys", null], CHAIRS)).toBeNull();
  });

  test("without markers the form is told by who comes in and goes out", () => {
    const guessed = found({ marks: [] }).song;
    expect(guessed.formSource).toBe("changes");
    expect(guessed.form[0]).toMatchObject({ name: "A", from: 0, bars: 4 });
    expect(guessed.form.reduce((sum, { bars }) => sum + bars, 0)).toBe(24);
  });

  test("a key that the notes do not lie in is doubted, and a part's name is no title", () => {
    const { song } = found({ keys: [{ at: 0, signature: -6, minor: false }] });
    expect(songWords(song)).toMatch(/G♭ \(check it: \d+ % of the notes lie in that key\)/);
    const bass = midiOf({ tracks: [{ name: "Bass", channel: 0, notes: [{ at: 0, length: 4, pitch: 40 }] }] });
    // Without the track that only says the tempo.
    const alone = Uint8Array.from([
      ...bass.slice(0, 11),
      1,
      ...bass.slice(12, 14),
      ...bass.slice(14 + 8 + (bass[21] ?? 0)),
    ]);
    const result = drain(readScore(alone));
    expect(result.ok && [result.value.title, result.value.parts[0]?.name]).toEqual(["", "Bass"]);
  });

  test("a tempo that moves says so, and the one that holds the longest is the song's", () => {
    const moving = found({
      tempos: [
        { at: 0, quarters: 96 },
        { at: 80, quarters: 120 },
      ],
    }).song;
    expect([moving.tempo, moving.tempoRange]).toEqual([96, [96, 120]]);
  });
});

describe("from notes to steps", () => {
  const kick = (
    bars: number,
    beats: (bar: number) => readonly (readonly [beat: number, velocity: number])[],
  ) =>
    found({
      marks: [],
      tracks: [
        {
          channel: 9,
          notes: Array.from({ length: bars }, (_, bar) => bar).flatMap((bar) =>
            beats(bar).map(([beat, velocity]) => ({ at: 4 * bar + beat, length: 0.1, pitch: 36, velocity })),
          ),
        },
      ],
    });
  const grid = (song: ReturnType<typeof found>) => suggestDetails(song, ["drums"], CHAIRS)[0];

  test("what is struck in half of the bars belongs to the bar that comes back, with its accents and ghosts", () => {
    const song = kick(4, (bar) => [
      [0, 100],
      [1, 40],
      [2, 127],
      [2.5, 100],
      [3, 100],
      ...(bar === 3 ? [[3.5, 100] as const] : []),
    ]);
    expect(grid(song)?.grid?.rows[0]?.hits).toBe("x...o...X.x.x...");
    expect(grid(song)?.because).toBe("exactly so in 3 of 4 bars");
  });

  test("a shuffle has twelve steps", () => {
    const song = kick(4, () => [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3].map((beat) => [beat, 90] as const));
    expect(grid(song)?.grid).toMatchObject({ steps: 12, perBeat: 3, rows: [{ hits: "x.xx.xx.xx.x" }] });
  });

  test("two parts of one chair play as one, and parts of nobody are left out", () => {
    const played = playedChairs(song.facts, ["drums", "keys", "keys", null]);
    expect(played.map(({ chair, part }) => [chair, part.notes.length])).toEqual([
      ["drums", 202],
      ["keys", 112],
    ]);
  });
});

test.each([
  ["quavers", "4/4", [0, 0.5, 1, 1.5], 4, 16],
  ["a shuffle", "4/4", [0, 0.667, 1, 1.667], 3, 12],
  ["a slow blues", "12/8", [0, 0.5, 1, 1.5, 2], 3, 12],
  ["halves of its quavers", "6/8", [0, 0.25, 0.5], 6, 12],
  ["a waltz", "3/4", [0, 1, 2], 4, 12],
])("%s in %s lies on %j", (_, metre, beats, perBeat, steps) => {
  expect(rasterOf(metre, beats)).toMatchObject({ perBeat, steps });
});

test("all of it goes onto the board as one change, and nothing of the words that are sung", () => {
  const trial = emptyBoard();
  for (const { id, instrument } of CHAIRS) trial.done("addChair", { name: id, instrument }, {}, id);
  const all = new Set(suggestDetails(song, ASSIGNED, CHAIRS).map(({ key }) => key));
  const choices = {
    title: "Paper Lantern",
    stage: "learning",
    chairs: ASSIGNED,
    song: true,
    form: true,
    textures: true,
    melody: true,
    details: all,
  } as const;
  const written = trial.done("importSong", importArgs(song, choices, CHAIRS), {}, "lantern");
  const file = trial.board().songs.get("lantern");
  expect(file?.song).toMatchObject({
    title: "Paper Lantern",
    tempo: 96,
    key: "D",
    recordKey: "D",
    length: 60,
  });
  expect(file?.sections).toHaveLength(4);
  expect(file?.textures.size).toBe(16);
  expect(file?.cards).toHaveLength(4);
  expect(JSON.stringify(written)).not.toMatch(/secret|words"/);
  trial.done("takeBack", { written });
  expect(trial.board().songs.has("lantern")).toBe(false);
});

describe("what sections have of their own on the board", () => {
  const changing = found({
    tempos: [
      { at: 0, quarters: 96 },
      { at: 48, quarters: 104 },
      { at: 80, quarters: 96 },
    ],
    metres: [
      { at: 0, beats: 4, unit: 4 },
      { at: 80, beats: 2, unit: 4 },
    ],
    keys: [
      { at: 0, signature: 2 },
      { at: 48, signature: 4 },
      { at: 80, signature: 2 },
    ],
  });
  const brought = (change: object) => {
    const trial = emptyBoard();
    const choices = {
      title: "Paper Lantern",
      stage: "learning",
      chairs: [null, null, null, null],
      song: true,
      form: true,
      textures: false,
      melody: false,
      details: new Set<string>(),
      ...change,
    } as const;
    trial.done("importSong", importArgs(changing, choices, CHAIRS), {}, "lantern");
    return trial.board().songs.get("lantern")?.sections;
  };

  test("is their metre, tempo and key, and nothing where they are like the song", () => {
    expect(brought({})?.map(({ name, metre, tempo, key }) => [name, metre, tempo, key])).toEqual([
      ["Intro", "", null, ""],
      ["Verse", "", null, ""],
      ["Chorus", "", 104, "E"],
      ["Verse (2)", "2/4", null, "D"],
    ]);
  });

  test("stays away with the song's tempo, key and metre, as the preview says", () => {
    expect(brought({ song: false })?.every((one) => one.metre + one.key === "" && one.tempo === null)).toBe(
      true,
    );
    expect(formWords(changing.song, false)).not.toMatch(/104|2\/4|to E/);
    expect(brought({ form: false })).toEqual([]);
  });
});

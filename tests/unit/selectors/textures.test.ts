import { describe, expect, test } from "vitest";
import type { Chair, Instrument } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Card, CardKind, Where } from "#shared/board/card.ts";
import { type Presence, type TextureChanges, type TextureSource, textureKey } from "#shared/board/texture.ts";
import { wholeSection } from "#shared/music/texture-changes.ts";
import { changeWords, playedWords } from "#shared/selectors/texture-words.ts";
import { textureClashes } from "#shared/selectors/textures/clashes.ts";
import { coverWords, pairsForOne } from "#shared/selectors/textures/cover.ts";
import { textureDifferences } from "#shared/selectors/textures/difference.ts";
import { energyIn } from "#shared/selectors/textures/energy.ts";
import { energyLines, energyRemarks, jointWords } from "#shared/selectors/textures/energy-words.ts";
import { isChorus, textureHints } from "#shared/selectors/textures/hints.ts";
import { pictureOf } from "#shared/selectors/textures/picture.ts";
import { aCard, aSong } from "#tests/support/ready-song.ts";

const LEVELS: Readonly<Record<string, Presence>> = { ".": "rest", l: "light", p: "play", F: "full" };

const chair = (id: string, name: string, instrument: Instrument): Chair => ({
  id,
  name,
  short: id,
  instrument,
  holder: id,
  order: id,
});
const CHAIRS = [
  chair("dr", "Drums", "drums"),
  chair("bs", "Bass", "bass"),
  chair("g1", "Guitar 1", "guitar"),
  chair("g2", "Guitar 2", "guitar"),
];
const form = (...names: readonly string[]): SongFile["sections"] =>
  names.map((name, i) => ({ ...aSection, id: `s${i}`, name, order: `a${i}` }));
const aSection = { song: "song", bars: 8, order: "a", since: 0, repeats: 1, metre: "", tempo: null, key: "" };

/** Rows by chair, a letter a section; a blank is not said. */
const painted = (
  rows: Readonly<Record<string, string>>,
  source: TextureSource = "ours",
): SongFile["textures"] =>
  new Map(
    Object.entries(rows).flatMap(([id, row]) =>
      [...row].flatMap((letter, i): [string, TextureChanges][] => {
        const presence = LEVELS[letter];
        return presence === undefined ? [] : [[textureKey(`s${i}`, id, source), wholeSection(presence)]];
      }),
    ),
  );
const song = (names: readonly string[], textures: SongFile["textures"], change: Partial<SongFile> = {}) =>
  aSong({ sections: form(...names), textures, ...change });
const NONE: ReadonlySet<string> = new Set();
const hints = (names: readonly string[], rows: Readonly<Record<string, string>>) => {
  const picture = pictureOf(song(names, painted(rows)), CHAIRS, "ours");
  return textureHints(picture, energyIn(picture), NONE);
};

describe("a section and a chair in words", () => {
  const says = (...changes: TextureChanges) => playedWords(changes, 16);
  test.each([
    [says({ bar: 1, pass: null, presence: "full" }), "plays full"],
    [says({ bar: 9, pass: null, presence: "play" }), "waits until bar 9, then plays"],
    [
      says(
        { bar: 1, pass: null, presence: "light" },
        { bar: 5, pass: null, presence: "rest" },
        { bar: 9, pass: null, presence: "full" },
      ),
      "plays lightly, from bar 5 rests, from bar 9 plays full",
    ],
    [
      says({ bar: 1, pass: null, presence: "rest" }, { bar: 1, pass: 2, presence: "play" }),
      "rests; the second time plays",
    ],
    [says(), ""],
    [playedWords([{ bar: 3, pass: null, presence: "play" }], 8, "we"), "wait until bar 3, then play"],
    [changeWords({ bar: 9, pass: 2, presence: "full" }), "from bar 9, second time only: full"],
  ])("%s", (said, expected) => expect(said).toBe(expected));
});

describe("a picture", () => {
  test("takes as ours what is painted as ours, else what is recorded, and leaves tacet chairs out", () => {
    const textures = new Map([...painted({ dr: "pF" }, "recorded"), ...painted({ dr: " l" })]);
    const tacet = {
      song: "song",
      chair: "bs",
      plays: false,
      needed: true,
      holder: null,
      share: 1,
      nothingSpecial: null,
    };
    const file = song(["Verse", "Chorus"], textures, { castings: new Map([["bs", tacet]]) });
    const { parts } = pictureOf(file, CHAIRS, "ours");
    expect(parts.map(({ chair: id }) => id)).toEqual(["dr", "g1", "g2"]);
    expect(parts[0]?.cells.map(({ from }) => from)).toEqual(["recorded", "ours"]);
    expect(pictureOf(file, CHAIRS, "recorded").parts[0]?.cells[1]?.changes).toEqual(wholeSection("full"));
  });

  test("numbers sections of one name", () => {
    const { sections } = pictureOf(song(["Verse", "Chorus", "Verse"], new Map()), CHAIRS, "ours");
    expect(sections.map(({ name }) => name)).toEqual(["Verse (1)", "Chorus", "Verse (2)"]);
  });
});

describe("energy", () => {
  const picture = pictureOf(
    song(["Verse", "Chorus", "Outro"], painted({ dr: "pF.", bs: "pF." })),
    CHAIRS,
    "ours",
  );

  test("is told section by section with what happens between them, and what it leaves out", () => {
    const energy = energyIn(picture);
    expect(energyLines(picture, energy)).toEqual([
      "Verse: 70",
      "Chorus: 100, lifts by 30",
      "Outro: 0, drops by 100",
    ]);
    expect(energyRemarks(picture, energy)).toEqual([
      "The biggest turn is at Outro.",
      "Not counted, as nothing is said of them: Guitar 1 and Guitar 2.",
    ]);
  });

  test("is not made from what nobody painted", () => {
    const half = pictureOf(song(["Verse", "Chorus"], painted({ dr: "pF", bs: "p " })), CHAIRS, "ours");
    const energy = energyIn(half);
    expect(energyLines(half, energy)).toEqual(["Verse: 70", "Chorus: not painted yet"]);
    expect(energyRemarks(half, energy)[0]).toBe(
      "1 part of a section is not painted yet; hints come when all are.",
    );
    expect(textureHints(half, energy, NONE)).toEqual([]);
  });

  test("goes bar by bar where a chair comes in half-way, and counts each time of a repeat", () => {
    const halfway: TextureChanges = [{ bar: 5, pass: null, presence: "full" }];
    const second: TextureChanges = [
      { bar: 1, pass: null, presence: "rest" },
      { bar: 1, pass: 2, presence: "full" },
    ];
    const twice = { ...aSection, id: "s1", name: "Chorus", repeats: 2 };
    const file = aSong({
      sections: [{ ...aSection, id: "s0", name: "Verse" }, twice],
      textures: new Map([
        [textureKey("s0", "dr", "ours"), halfway],
        [textureKey("s1", "dr", "ours"), second],
      ]),
    });
    const energy = energyIn(pictureOf(file, CHAIRS, "ours"));
    expect(energy.bars[0]).toEqual([0, 0, 0, 0, 1, 1, 1, 1]);
    expect(energy.sections).toEqual([0.5, 0.5]);
    expect(energy.texture?.sections).toEqual([[0.5], [0.5]]);
  });

  test("a joint that lifts nothing may still change who plays", () => {
    expect(jointWords({ lift: 0, contrast: 0.4 })).toBe("as big, but other parts play");
    expect(jointWords({ lift: 0, contrast: 0 })).toBe("stays as it is");
  });
});

describe("hints", () => {
  test.each([
    ["Chorus", true], ["Ch2", true], ["C 1", true], ["Chorus (2)", true], ["Refrain", true],
    ["Verse", false], ["C", false], ["Coda", false], ["Choke", false],
  ])("%s is a chorus: %s", (name, expected) => expect(isChorus(name)).toBe(expected)); // biome-ignore format: pairs

  test("ask about a chorus that does not lift, and name the part that could wait", () => {
    const found = hints(["Intro", "Verse", "Chorus", "Outro"], { dr: ".FF.", bs: ".FF.", g1: "l.F." });
    expect(found.find(({ id }) => id === "no-lift:s2")).toBeUndefined();
    const flat = hints(["Intro", "Verse", "Chorus"], { dr: ".FF", bs: "lFF", g1: ".FF" });
    expect(flat).toEqual([
      {
        id: "no-lift:s2",
        sentence: "Chorus comes in hardly bigger than Verse.",
        remedy: { chair: "g1", sentence: "Guitar 1 could wait until Chorus." },
      },
    ]);
  });

  test("ask about one level, everybody at once, a smaller last chorus and little room", () => {
    const sentences = hints(["Verse", "Ch1", "Bridge", "Ch2"], { dr: "FFpp", bs: "FFpp" }).map((hint) => [
      hint.sentence,
      hint.remedy?.sentence,
    ]);
    expect(sentences).toEqual([
      ["Ch1 comes in hardly bigger than Verse.", "Bass could wait until Ch1."],
      ["Ch2 comes in hardly bigger than Bridge.", "Bass could wait until Ch2."],
      ["In Verse everybody gives the most they give anywhere.", "Bass could wait until Ch1."],
      ["Ch2 is smaller than Ch1.", "Bass could rest in Ch1 and come in with Ch2."],
    ]);
    const level = hints(["A", "B", "C"], { dr: "ppp" }).map(({ sentence }) => sentence);
    expect(level).toEqual([
      "From A to C everything stays on one level.",
      "In A everybody gives the most they give anywhere.",
      "From the smallest section to the biggest there are only 0 of 100.",
    ]);
  });

  test("that were dismissed are not asked", () => {
    const picture = pictureOf(song(["A", "B", "C"], painted({ dr: "ppp" })), CHAIRS, "ours");
    expect(textureHints(picture, energyIn(picture), new Set(["narrow", "all-in", "one-level:s0"]))).toEqual(
      [],
    );
  });
});

test("what we play otherwise is told part by part, alike sections together", () => {
  const waits: TextureChanges = [{ bar: 5, pass: null, presence: "play" }];
  const textures = new Map([
    ...painted({ dr: "ppp", bs: "p" }, "recorded"),
    [textureKey("s0", "g1", "recorded"), waits] as const,
    [textureKey("s2", "g1", "recorded"), waits] as const,
    ...painted({ g1: "p p", dr: " F ", g2: "F" }),
  ]);
  const file = song(["Verse 1", "Chorus", "Verse 2"], textures);
  const lines = textureDifferences(pictureOf(file, CHAIRS, "recorded"), pictureOf(file, CHAIRS, "ours"));
  expect(lines.map(({ sentence }) => sentence)).toEqual([
    "Drums in Chorus: on the record it plays; we play full.",
    "Guitar 1 in Verse 1 and Verse 2: on the record it waits until bar 5, then plays; we play.",
  ]);
});

describe("one player for two", () => {
  const picture = pictureOf(
    song(["Verse", "Chorus"], painted({ g1: "pF", g2: ".p", dr: "pF" })),
    CHAIRS,
    "ours",
  );

  test("plays the fuller of both, and chooses where both play", () => {
    expect(pairsForOne(picture)).toEqual([
      {
        title: "Guitar 1 and Guitar 2 for one player",
        lines: ["Verse: plays", "Chorus: plays full; both play, so choose"],
      },
    ]);
  });

  test("an empty chair says who could cover it and how many details do", () => {
    const lineUp = new Map([["g1", "g1"], ["g2", null], ["dr", null]]); // biome-ignore format: pairs
    const words = (part: number, gig: string | null) => {
      const of = picture.parts[part];
      if (of === undefined) throw new Error("No such part.");
      return coverWords(picture, { lineUp, cards: [], gig }, of);
    };
    expect(words(3, "Harbour night")).toBe(
      "Nobody is on Guitar 2 at Harbour night. Guitar 1 could cover it; both play in Chorus. No detail says who covers.",
    );
    expect(words(0, null)).toBe("Nobody is on Drums. No detail says who covers.");
    expect(words(2, null)).toBeNull();
  });
});

describe("details about resting and coming in", () => {
  const card = (kind: CardKind, where: Where): Card =>
    aCard(kind, { kind, where, chairs: ["bs"], text: "Lay out" });
  const file = song(["Verse", "Chorus"], new Map([
    ...painted({ bs: "p" }),
    [textureKey("s1", "bs", "ours"), [{ bar: 5, pass: null, presence: "play" }] as TextureChanges] as const,
  ])); // biome-ignore format: one map
  const clashes = (kind: CardKind, where: Where) =>
    textureClashes([card(kind, where)], pictureOf(file, CHAIRS, "ours")).map(({ sentence }) => sentence);

  test("that the picture contradicts are told", () => {
    expect(clashes("rest", { from: { section: "s0" } })).toEqual([
      "‘Lay out’ has Bass rest in Verse; the picture says it plays.",
    ]);
    expect(clashes("entry", { from: { section: "s1" } })).toEqual([
      "‘Lay out’ has Bass come in at Chorus; the picture says it waits until bar 5, then plays.",
    ]);
    expect(clashes("entry", { from: { section: "s1", bar: 7 } })).toEqual([
      "‘Lay out’ has Bass come in only at bar 7 of Chorus; the picture says it waits until bar 5, then plays.",
    ]);
  });

  test("that it agrees with, or cannot show, are not", () => {
    expect(clashes("rest", { from: { section: "s1", bar: 1 }, to: { section: "s1", bar: 4 } })).toEqual([]);
    expect(clashes("entry", { from: { section: "s1", bar: 5 } })).toEqual([]);
    expect(clashes("rest", { from: { section: "s0", bar: 2, beat: 4 } })).toEqual([]);
    expect(clashes("rest", { from: { section: "gone" } })).toEqual([]);
    expect(clashes("rest", {})).toEqual([]);
    expect(clashes("groove", { from: { section: "s0" } })).toEqual([]);
  });
});

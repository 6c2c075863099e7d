import { describe, expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import type { Board } from "#shared/board/board.ts";
import type { Song } from "#shared/board/song.ts";
import { showKey } from "#shared/music/key.ts";
import { keyFitOf, singersOf } from "#shared/selectors/key-fit.ts";
import {
  keepTop,
  readTop,
  songsOverTop,
  strainSentences,
  tonightSong,
} from "#shared/selectors/tonight-top.ts";
import { emptyBoard } from "#tests/support/command-bench.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";

/** F3 to D5, comfortably G3 to B♭4. */
const VOICE = { lowest: 53, comfortLow: 55, comfortHigh: 70, highest: 74 };
/** B3, F♯4, C♯5. */
const MELODY = { key: "E", low: 59, typical: 66, high: 73 };

const SONG = { title: "Marzipan Diesel", recordKey: "E", key: "E", melody: MELODY };

interface Scene {
  readonly song?: Partial<Song>;
  readonly voice?: typeof VOICE | null;
  readonly chairs?: readonly string[];
}

const boardWith = ({ song = {}, voice = VOICE, chairs = ["guitar", "lead voice"] }: Scene = {}): Board => {
  const { done, board } = emptyBoard();
  done("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon", tuning: "standard" });
  done("addPerson", { name: "Tomasz" }, {}, "tomasz");
  done("addPerson", { name: "Priya" }, {}, "priya");
  done("revisePerson", { person: "priya", voice });
  for (const instrument of chairs)
    done("addChair", { name: instrument, instrument, holder: instrument === "guitar" ? "tomasz" : "priya" });
  done("addSong", { ...SONG, ...song }, {}, "diesel");
  return board();
};

/** As above, with somebody who sings a third below the lead. */
const boardTrial = () => {
  const trial = emptyBoard();
  const { done } = trial;
  done("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon", tuning: "standard" });
  done("addPerson", { name: "Tomasz" }, {}, "tomasz");
  done("addPerson", { name: "Priya" }, {}, "priya");
  done("addChair", { name: "Lead", instrument: "lead voice", holder: "priya" }, {}, "lead");
  done("addChair", { name: "Low", instrument: "backing voice", holder: "tomasz" }, {}, "low");
  done("addSong", SONG, {}, "diesel");
  done("addDetail", { song: "diesel", text: "A third below", chairs: ["low"], kind: "harmony" }, {}, "third");
  done("describeSide", { card: "third", side: "harmony", value: { steps: -2 } });
  return trial;
};

const fitOf = (board: Board, gig: Gig | null = null) => {
  const fit = keyFitOf(board, "diesel", "priya", gig);
  if (!fit.ok) throw new Error(fit.error);
  return fit.value;
};

describe("the keys for a singer", () => {
  test("at most five, spelled by their signatures, each with every term in words and its cost", () => {
    const { best, now } = fitOf(boardWith());
    expect(best).toHaveLength(5);
    for (const line of [...best, now]) {
      expect(line.name).not.toMatch(/D♯|G♯|A♯/);
      expect(line.terms).toHaveLength(8);
      expect(line.terms.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(line.cost, 9);
      for (const { words } of line.terms) expect(words).toMatch(/^[A-Z].*\.$/);
    }
    expect(best.map(({ cost }) => cost)).toEqual(best.map(({ cost }) => cost).sort((a, b) => a - b));
    expect(best.some(({ name }) => name === "E♭")).toBe(true);
  });

  test("the key one plays in now is told apart, with how often the comfortable top is passed", () => {
    const { now, from } = fitOf(boardWith());
    expect(showKey(from)).toBe("E");
    expect(now.place).toBe("our key");
    expect(now.range).toBe("B3 to C♯5");
    expect(now.terms.find(({ term }) => term === "high")?.words).toMatch(
      /^The top note C♯5 lies 3 semitones above the comfortable top of Priya, A♯4, which is passed \d+ % of the time\.$/,
    );
    expect(now.cautions).toEqual(["The top note lies within a semitone of the limit."]);
  });

  test("down a half step the guitars retune or shift the capo, and it is said who pays", () => {
    const down = fitOf(boardWith({ song: { shapeMatters: "essential", openLow: true } })).best.find(
      ({ up }) => up === -1,
    );
    expect(down).toMatchObject({ key: "Eb", tuning: "half step down", capo: 0 });
    expect(down?.pays).toEqual(["Guitars: retune", "Everybody else: the new key"]);
    expect(down?.terms.find(({ term }) => term === "shape")?.words).toBe("The guitars keep their shapes.");
  });

  test("nothing is retuned where the night is in that tuning anyway", () => {
    const board = boardWith({ song: { shapeMatters: "essential" } });
    const other = { ...board.songs.get("diesel") } as NonNullable<ReturnType<typeof board.songs.get>>;
    const songs = new Map(board.songs).set("other", { ...other, song: { ...other.song, id: "other" } });
    const entry = { order: "a", key: null, tempo: null };
    const gig = {
      songs: [
        { ...entry, song: "diesel", tuning: null, block: 0, pin: "" as const },
        { ...entry, song: "other", tuning: "E♭" },
      ],
      lineUp: new Map(),
      away: [],
    } as unknown as Gig;
    const down = fitOf({ ...board, songs }, gig).best.find(({ up }) => up === -1);
    expect(down?.terms.find(({ term }) => term === "retune")).toMatchObject({
      cost: 0,
      words: "The guitars stay in the band's tuning, half step down.",
    });
  });

  test("without a guitar nobody retunes", () => {
    const { best } = fitOf(boardWith({ chairs: ["lead voice"] }));
    expect(best[0]?.terms.map(({ term }) => term).sort()).toEqual(["character", "high", "lie", "low", "out"]);
    for (const { pays, up } of best) expect(pays).toEqual(up === 0 ? [] : ["Everybody: the new key"]);
  });

  test("the notes of the melody belong to their key: a ruling on ours moves the ranking, not the voice", () => {
    const ours = fitOf(boardWith({ song: { key: "D" } }));
    expect(ours.now).toMatchObject({ key: "D", range: "A3 to B4" });
    const keys = (fit: typeof ours) => fit.best.map(({ range }) => range).sort();
    expect(keys(fitOf(boardWith({ chairs: ["lead voice"] })))).toEqual(
      keys(fitOf(boardWith({ chairs: ["lead voice"], song: { key: "D" } }))),
    );
    expect(ours.now.terms.find(({ term }) => term === "character")?.words).toBe(
      "It lies 2 semitones below the recording.",
    );
  });

  test("a lift that leaves the voice is said, and words of a tuning nobody can count with", () => {
    const fit = fitOf(boardWith({ song: { liftKey: "F#", tuning: "nashville" } }));
    expect(fit.now.cautions).toContain("After the lift the top note is D♯5, 1 semitone above the limit.");
    expect(fit.notes).toEqual(["“nashville” is no tuning we can count with: counted as standard."]);
  });

  test("the tessitura shift is told in words, with the time in the top of the voice", () => {
    // Reserves of 1 above and 6 below: (6 − 1)/2 = 2.5, the formula of Herbst and others, 2012.
    expect(fitOf(boardWith()).now.crossCheck).toMatch(
      /^By its range alone the song lies 2.5 semitones high in the voice: 1 semitone to spare above, 6 semitones to spare below\. \d+ % of the sung time lies in the top 3 semitones\.$/,
    );
  });

  test.each([
    ["melody", { song: { melody: null } }],
    ["voice", { voice: null }],
    ["key", { song: { key: "", recordKey: "", melody: { ...MELODY, key: "?" } } }],
  ] as const)("what is missing is named: the %s", (missing, scene) => {
    expect(keyFitOf(boardWith(scene as Scene), "diesel", "priya")).toEqual({ ok: false, error: missing });
  });

  test("whoever holds the lead voice comes first", () => {
    const board = boardWith();
    const file = board.songs.get("diesel");
    expect(file && singersOf(board, file, null).map(({ id }) => id)).toEqual(["priya", "tomasz"]);
  });
});

describe("tonight's top", () => {
  const gigOf = (key: string | null, songs: readonly string[] = ["diesel"]): Gig => ({
    ...NOTHING_AGREED,
    id: "quay",
    name: "",
    place: "",
    date: "2026-03-05",
    minutes: 45,
    songs: songs.map((song) => ({ song, order: song, key, tempo: null, tuning: null, block: 0, pin: "" })),
    lineUp: new Map(),
    waivers: [],
  });
  const tonight = (board: Board, top: number, gig: Gig | null = null) => {
    const file = board.songs.get("diesel");
    if (file === undefined) throw new Error("no song");
    const read = tonightSong(board, file, gig, top);
    if (!read.ok) throw new Error(read.error);
    return read.value;
  };
  const words = (top: number, more: Partial<Song> = {}, night: string | null = null) => {
    const { sentence, remedies } = tonight(
      boardWith({ song: more }),
      top,
      night === null ? null : gigOf(night),
    );
    return [sentence, ...remedies.map((remedy) => remedy.words)];
  };

  test("a song that fits needs nothing", () => {
    expect(words(74)).toEqual(["The top note C♯5 lies 1 semitone below tonight's top, D5."]);
  });

  test("what can be done comes in the order of what it asks of the band", () => {
    expect(words(72, { liftKey: "F" })).toEqual([
      "The top note D5, after the lift, lies 2 semitones above tonight's top, C5.",
      "Let the crowd or a backing voice take the top line.",
      "Play it 1 semitone lower, in E♭, and leave out the lift.",
      "Play it 2 semitones lower, in D.",
      "Play another song instead.",
    ]);
    expect(words(73, { liftKey: "F" })[1]).toBe("Leave out the lift: stay in E.");
  });

  test("a key of the night counts, and a song too high for all of it is swapped", () => {
    expect(words(73, {}, "Eb")).toHaveLength(1);
    expect(words(60).slice(1)).toEqual([
      "Let the crowd or a backing voice take the top line.",
      "Play another song instead.",
    ]);
  });

  test("each remedy says who pays: the guitars, everybody, a harmony that falls out of a voice", () => {
    const board = boardWith({ song: { shapeMatters: "essential", openLow: true } });
    const paysOf = (of: Board, top: number) =>
      new Map(tonight(of, top).remedies.map((remedy) => [remedy.key, remedy.pays] as const));
    expect(paysOf(board, 72).get("Eb")).toEqual(expect.arrayContaining(["Everybody else: the new key"]));
    expect(paysOf(board, 72).get("Eb")?.join()).toMatch(/Guitars: /);
    // Leaving a line or the song to others costs the hands nothing.
    for (const { of, pays } of tonight(board, 72).remedies) if (of !== "lower") expect(pays).toEqual([]);

    const trial = boardTrial();
    const low = (lowest: number) => {
      trial.done("revisePerson", {
        person: "tomasz",
        voice: { lowest, comfortLow: lowest + 4, comfortHigh: lowest + 10, highest: lowest + 14 },
      });
      return paysOf(trial.board(), 71)
        .get("D")
        ?.filter((line) => line.startsWith("Tomasz"));
    };
    // B3 is the lowest note; a third below is about G3 (four semitones), two semitones lower F3.
    expect(low(54)).toEqual(["Tomasz: the harmony goes to about F3, 1 semitone below what they can sing"]);
    expect(low(53)).toEqual([]);
    // Too low already: that is not what going lower costs.
    expect(low(60)).toEqual([]);
  });

  test("songs over the top that follow one another are named together, within a block", () => {
    const over = (song: string) => ({ song, title: song.toUpperCase(), sentence: "", remedies: [] });
    const gig = gigOf(null, ["a", "b", "c", "d", "e"]);
    expect(strainSentences(gig, ["a", "b", "d"].map(over))).toEqual(["A and B follow one another."]);
    expect(strainSentences(gig, ["c", "d", "e"].map(over))).toEqual(["C, D and E follow one another."]);
    expect(strainSentences(gig, ["a", "c"].map(over))).toEqual([]);
    const parted = {
      ...gig,
      blocks: [20, 25],
      songs: gig.songs.map((entry, i) => ({ ...entry, block: i < 1 ? 0 : 1 })),
    };
    expect(strainSentences(parted, ["a", "b"].map(over))).toEqual([]);
  });

  test("[KEY-1] is gone the next day, and what a device kept wrongly is nothing", () => {
    const kept = keepTop(69, "2026-03-04");
    expect(readTop(kept, "2026-03-04")).toBe(69);
    expect(readTop(kept, "2026-03-05")).toBeNull();
    for (const text of [
      null,
      "",
      "{",
      "[]",
      '{"day":"2026-03-04","top":"A4"}',
      '{"day":"2026-03-04","top":400}',
    ])
      expect(readTop(text, "2026-03-04")).toBeNull();
  });

  test("the songs of the night that lie over it are named, those the singer leads", () => {
    const board = boardWith();
    const gig = gigOf(null);
    expect(songsOverTop(board, gig, "priya", 72).map(({ title }) => title)).toEqual(["Marzipan Diesel"]);
    expect(songsOverTop(board, gig, "priya", 74)).toEqual([]);
    expect(songsOverTop(board, gig, "tomasz", 72)).toEqual([]);
  });
});

describe("[KEY-1] what somebody can sing", () => {
  test("is written by themselves or a leader, and by nobody else", () => {
    const { done, run, board } = emptyBoard();
    done("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" });
    done("addPerson", { name: "Priya" }, {}, "priya");
    const args = { person: "priya", voice: VOICE };
    expect(run("revisePerson", args, { role: "member", member: "tomasz" })).toMatchObject({
      ok: false,
      error: { code: "forbidden" },
    });
    expect(board().people.get("priya")?.voice).toBeNull();
    done("revisePerson", args, { role: "member", member: "priya" });
    done("revisePerson", { person: "priya", voice: null }, { role: "leader", member: "tomasz" });
    expect(board().people.get("priya")?.voice).toBeNull();
  });
});

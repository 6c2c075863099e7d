/** Single changes as a returning member reads them. */
import { describe, expect, test } from "vitest";
import type { Board } from "#shared/board/board.ts";
import { concerning, knownFrom } from "#shared/selectors/catch-up/concerns.ts";
import { digestOf } from "#shared/selectors/catch-up/digest.ts";
import type { Item } from "#shared/selectors/catch-up/item.ts";
import { bestQuietly } from "#shared/selectors/catch-up/quiet.ts";
import { NOON, smallBand, type Trial } from "#tests/support/command-bench.ts";

const SINCE = NOON + 3_600_000;
const FROM = "2026-03-04";
/** A leader who is no member of the two. */
const leader = { member: "leader", writer: "laptop" } as const;

/** What Lucía, on drums, reads after `change`. */
const reading = (
  change: (trial: Trial) => void,
  alter: (board: Board) => Board = (board) => board,
): readonly Item[] => {
  const trial = smallBand();
  const whose = { member: "lucia", writer: "her phone" };
  const known = knownFrom(concerning(trial.board(), { ...whose, from: FROM, since: SINCE }));
  change(trial);
  const board = alter(trial.board());
  return digestOf({ board, known, whose, since: SINCE, asOf: SINCE + 86_400_000 }).items;
};
const told = (items: readonly Item[]) =>
  items.map(({ group, title, fate, lines }) => [
    group,
    title,
    fate,
    ...lines.map(({ what, before, after: now }) => `${what}: ${before} → ${now}`),
  ]);

describe("a returning member reads", () => {
  test("a ruling with its reason and who made it, and the song's own entry not a second time", () => {
    const items = reading(({ done }) =>
      done(
        "rule",
        {
          song: "diesel",
          about: "key",
          source: "ours",
          text: "G",
          why: "too high for two nights",
          learnAgain: true,
        },
        { ...leader, member: "minjae" },
      ),
    );
    expect(told(items)).toEqual([["rulings", "Marzipan Diesel", "learn it again", "Key: Em → G"]]);
    expect(items[0]).toMatchObject({ why: "too high for two nights", who: "by Min-jae Pardal" });
    expect(items[0]?.covers.map(({ key, entry }) => `${key} ${entry}`)).toContain("song:diesel key");
  });

  test("a detail's wording and weight before and after", () => {
    const items = reading(({ done }) => {
      done(
        "rewordDetail",
        { card: "choke", field: "text", text: "Let it ring" },
        { ...leader, member: "minjae" },
      );
      done("reviseDetail", { card: "choke", fields: { weight: "polish" }, learnAgain: true }, leader);
    });
    expect(told(items)).toEqual([
      [
        "details",
        "Marzipan Diesel · whole",
        "polish",
        "Learn it again: null → learn it again",
        "Wording: Choke on 4-and → Let it ring",
        "Weight: must → polish",
      ],
    ]);
    expect(items[0]?.who).toBe("by Min-jae Pardal");
  });

  test("a detail that is shared with them now, and why they cannot lock it in alone", () => {
    const items = reading(({ done }) =>
      done("reviseDetail", { card: "choke", fields: { chairs: ["drums", "bass"] } }, leader),
    );
    expect(told(items)).toEqual([
      ["details", "Marzipan Diesel · whole · ‘Choke on 4-and’", "must", "For: Drums → Bass and Drums"],
    ]);
    expect(items[0]?.note).toBe(
      "Shared with Bass: alone it stays practised until you have played it together.",
    );
  });

  test("a detail that is no longer theirs, one that is gone, and one that came", () => {
    expect(
      told(
        reading(({ done }) => done("reviseDetail", { card: "choke", fields: { chairs: ["bass"] } }, leader)),
      ),
    ).toEqual([["details", "Marzipan Diesel · whole", "no longer yours", ": Choke on 4-and → null"]]);
    expect(told(reading(({ done }) => done("removeDetail", { id: "choke" }, leader)))[0]?.[2]).toBe(
      "taken off the board",
    );
    expect(
      told(reading(({ done }) => done("placeDetail", { card: "root", chairs: ["drums"] }, leader)))[0]?.[2],
    ).toBe("now yours too · lift");
  });

  test("an entry of a detail that this release has no word for", () => {
    const items = reading(
      () => {},
      (board) => {
        const file = board.songs.get("diesel");
        if (file === undefined) throw new Error("no song");
        const cards = file.cards.map((card) =>
          card.id === "choke" ? { ...card, stickings: { left: [1, 2] } } : card,
        );
        return { ...board, songs: new Map([...board.songs, ["diesel", { ...file, cards }]]) };
      },
    );
    expect(told(items)).toEqual([
      ["details", "Marzipan Diesel · whole · ‘Choke on 4-and’", "must", "Stickings: null → changed"],
    ]);
  });

  test("the answer to their question, and a question that waits for them", () => {
    const items = reading(({ done }) => {
      done("answerQuestion", { question: "hand", text: "The left" }, { ...leader, member: "minjae" });
      done("askQuestion", { song: "diesel", text: "Who counts in?" }, { ...leader, member: "minjae" });
    });
    expect(items.map(({ group, fate }) => [group, fate])).toEqual([
      ["questions", "waits for an answer"],
      ["questions", "answered meanwhile"],
    ]);
  });

  test("a new chair as one line, with what comes with it", () => {
    const items = reading(({ done }) => done("giveChair", { chair: "bass", holder: "lucia" }, leader));
    expect(items.map(({ group, title, fate, note }) => [group, title, fate, note])).toEqual([
      ["seats", "Bass", "now your chair", "2 songs with it."],
      ["dates", "Harbour night · Sat 18 April", "", ""],
    ]);
  });

  test("when their part plays, where the band says so itself, and nothing of other parts or of the record", () => {
    const cell = (section: string, chair: string, bar: number) => ({
      section,
      chair,
      changes: [{ bar, pass: null, presence: "full" }],
    });
    const items = reading(({ done }) => {
      const cells = [cell("verse", "drums", 5), cell("outro", "drums", 1), cell("verse", "bass", 1)];
      done("paintTexture", { song: "diesel", source: "ours", cells }, leader);
      done(
        "paintTexture",
        { song: "diesel", source: "recorded", cells: [cell("outro", "drums", 2)] },
        leader,
      );
    });
    expect(told(items)).toEqual([
      [
        "songs",
        "Marzipan Diesel",
        "",
        "When you play: null → Verse: waits until bar 5, then plays full · Outro: plays full",
      ],
    ]);
  });

  test("a song that came, one that rests, and one with nothing to play any more", () => {
    const items = reading(({ done }) => {
      done("reviseSong", { song: "umbrella", fields: { stage: "resting" } }, leader);
      done("castPart", { song: "diesel", chair: "drums", plays: false }, leader);
    });
    expect(told(items).filter(([group]) => group !== "dates")).toEqual([
      ["songs", "Umbrella Season", "", "Stands: learning → resting"],
      ["seats", "Marzipan Diesel", "nothing to play any more; you had Drums"],
    ]);
  });

  test("a gig that moved, one that was called off, and a rehearsal that came", () => {
    expect(
      told(reading(({ done }) => done("reviseGig", { gig: "harbour", date: "2026-04-19" }, leader))),
    ).toEqual([["dates", "Harbour night · Sun 19 April", "", "Day: Sat 18 April → Sun 19 April"]]);
    expect(told(reading(({ done }) => done("cancelGig", { id: "harbour" }, leader)))).toEqual([
      ["dates", "Harbour night · Sat 18 April", "called off"],
    ]);
    expect(
      told(
        reading(({ done }) =>
          done("planRehearsal", { day: "2026-03-18", start: "20:00", place: "The cellar" }, leader),
        ),
      ),
    ).toEqual([
      ["dates", "Rehearsal · Wed 18 March", "new", "Place: null → The cellar", "Start: null → 20:00"],
    ]);
  });

  test("an evening's takes of a song together, their own slips first", () => {
    const items = reading(({ done }) => {
      const seats = [{ chair: "drums", member: "lucia" }];
      const take = { song: "diesel", occasion: "r:2026-03-05", kind: "run", seats };
      done(
        "logTake",
        { ...take, at: NOON + 10 * 60_000, feel: "stopped", slips: [{ card: "choke", severity: 1 }] },
        { ...leader, member: "minjae" },
      );
      done("logTake", { ...take, at: NOON + 25 * 60_000, feel: "clean" }, { ...leader, member: "minjae" });
    });
    expect(told(items).filter(([group]) => group === "log")).toEqual([
      [
        "log",
        "Marzipan Diesel · Thu 5 March",
        "2 runs: stopped, clean",
        "You slipped: null → 'Choke on 4-and'",
      ],
    ]);
  });

  test("a mark that was made for them, and a number of the score", () => {
    const items = reading(({ done }) => {
      done("markDetail", { card: "choke", member: "lucia", level: 1 }, leader);
      done("adjustSettings", { changes: { togetherDays: 30 } }, leader);
    });
    expect(items.map(({ group, fate }) => [group, fate])).toEqual([
      ["log", "numbers the score is made with"],
      ["log", "marked for you on another device"],
    ]);
    expect(items[1]?.lines).toEqual([{ what: "Your status", before: "practised", after: "noticed" }]);
  });

  test("nothing of what is not theirs, or what they wrote themselves", () => {
    const items = reading(({ done }) => {
      done("addDetail", { song: "diesel", text: "Stay low", chairs: ["bass"] }, leader);
      done("rewordDetail", { card: "choke", field: "text", text: "Choke it" }, { writer: "her laptop" });
      done("reviseGig", { gig: "harbour", name: "Harbour night" }, leader);
    });
    expect(told(items)).toEqual([]);
  });
});

test("what makes no sound goes first on a train, whatever else is worth more", () => {
  const ranked = [{ kind: "groove" }, { kind: "ending" }, { kind: "form" }] as const;
  expect(bestQuietly(ranked)).toBe(ranked[1]);
  expect(bestQuietly([ranked[0]])).toBe(ranked[0]);
  expect(bestQuietly([])).toBeUndefined();
});

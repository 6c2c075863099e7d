/** Every command of the registry, as the history tells it. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { COMMANDS } from "#shared/commands/registry.ts";
import { ROOT_MAP_NAMES, ROOT_MAPS } from "#shared/document/root-maps.ts";
import { entriesOf, MANY } from "#shared/history/entries.ts";
import { foldHistory, type HistoryRow } from "#shared/history/history.ts";
import { historyLines } from "#shared/selectors/history/history-lines.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";
import { ALL_CASES } from "#tests/support/command-cases/all-cases.ts";
import { RUN } from "#tests/support/command-cases/case.ts";
import { laws } from "#tests/support/fuzz.ts";

/** The small band, and the history of what is done to it from here on. */
const recorded = () => {
  const trial = smallBand();
  const base = Y.encodeStateAsUpdate(trial.ydoc);
  const rows: HistoryRow[] = [];
  let sender = { device: "phone", member: "lucia" as string | null };
  trial.ydoc.on("update", (bytes: Uint8Array) => {
    rows.push({ seq: rows.length + 1, at: NOON + rows.length * 1000, ...sender, bytes });
  });
  return {
    trial,
    sentBy: (device: string, member: string | null) => {
      sender = { device, member };
    },
    lines: () => {
      const history = foldHistory(base, rows);
      return historyLines(history, entriesOf(history));
    },
    sentences: () => {
      const history = foldHistory(base, rows);
      return historyLines(history, entriesOf(history)).map(({ sentence }) => sentence);
    },
  };
};

/** Said of Lucía Borrasco unless somebody else is named. */
const EXPECTED: Readonly<Record<string, readonly string[]>> = {
  startBand: ["named the band ‘Six Fuses’ and set the band's time zone to Asia/Seoul."],
  adjustSettings: ["changed ‘Days a run together holds good’ to 30 and changed ‘Brightness of solo work’ to 0.5."],
  addChair: ["added the chair Keys."],
  addLineUp: ["added the chair Keys."],
  reviseChair: ["renamed the chair ‘Bass’ to Upright and set the short name of Upright to ‘Up’."],
  giveChair: ["left Bass vacant."],
  moveChair: ["moved the chair Bass."],
  addPerson: ["gave Bass to Ifeoma Adisalu.", "added Ifeoma Adisalu to the band."],
  revisePerson: ["made Min-jae Pardal a dep and wrote down what Min-jae Pardal can sing."],
  removeChair: ["took the chair Bass off the board."],
  restoreChair: ["brought the chair Organ back."],
  removePerson: ["took Min-jae Pardal out of the band."],
  restorePerson: ["brought Karim Belhossat back into the band."],
  addSong: ["added the song ‘Paper Lantern’."],
  addSongs: ["added the song ‘One More Lamp’.", "added the song ‘Second Lamp’.", "added the section ‘Verse’ to the form of ‘Second Lamp’."],
  importSong: [
    "added the song ‘Paper Lantern’.",
    "added the section ‘Intro’ to the form of ‘Paper Lantern’.",
    "added the section ‘Verse’ to the form of ‘Paper Lantern’.",
    "said when Drums plays in ‘Verse’ of ‘Paper Lantern’ on the record.",
    "wrote the detail ‘Kick on 1’ (Drums) in ‘Paper Lantern’.",
    "wrote the detail ‘Crashes: Verse 2’ (Drums) in ‘Paper Lantern’.",
  ],
  reviseSong: ["changed the key of ‘Marzipan Diesel’ from ‘Em’ to ‘Fm’, wrote down what the melody of ‘Marzipan Diesel’ asks for and asked to learn what hangs on the key of ‘Marzipan Diesel’ again."],
  moveSong: ["moved ‘Umbrella Season’ in the repertoire."],
  writeForm: ["added the section ‘Intro’ to the form of ‘Umbrella Season’.", "added the section ‘Verse’ to the form of ‘Umbrella Season’."],
  addSection: ["added the section ‘Chorus’ to the form of ‘Marzipan Diesel’."],
  reviseSection: ["renamed the section ‘Verse’ of ‘Marzipan Diesel’ to ‘Long verse’, changed the section ‘Long verse’ of ‘Marzipan Diesel’ from 8 to 16 bars and changed 3 more things."],
  moveSection: ["asked to learn what hangs on the form of ‘Marzipan Diesel’ again.", "moved the section ‘Outro’ in the form of ‘Marzipan Diesel’."],
  insertBars: ["changed the section ‘Verse’ of ‘Marzipan Diesel’ from 8 to 12 bars."],
  removeBars: ["changed the section ‘Verse’ of ‘Marzipan Diesel’ from 8 to 6 bars."],
  splitSection: ["added the section ‘Verse, second half’ to the form of ‘Marzipan Diesel’.", "changed the section ‘Verse’ of ‘Marzipan Diesel’ from 8 to 4 bars."],
  joinSections: ["changed the section ‘Verse’ of ‘Marzipan Diesel’ from 8 to 12 bars.", "took the section ‘Outro’ out of the form of ‘Marzipan Diesel’."],
  removeSection: ["took the section ‘Verse’ out of the form of ‘Marzipan Diesel’."],
  castPart: ["made Bass nice to have in ‘Marzipan Diesel’ and put Lucía Borrasco on Bass in ‘Marzipan Diesel’."],
  declareNothingSpecial: ["declared that Bass holds nothing special in ‘Marzipan Diesel’."],
  paintTexture: ["said that Drums plays full in ‘Verse’ of ‘Marzipan Diesel’.", "said when Bass plays in ‘Verse’ of ‘Marzipan Diesel’."],
  dismissHint: ["dismissed a hint about who plays when in ‘Marzipan Diesel’."],
  rule: ["set the ending of ‘Marzipan Diesel’ to ‘Cold, on the one’ and asked to learn what hangs on the ending of ‘Marzipan Diesel’ again.", "ruled on the ending of ‘Marzipan Diesel’: ‘Cold, on the one’."],
  withdrawRuling: ["withdrew the ruling on the detail of ‘Marzipan Diesel’."],
  settleQuestion: ["said that the question ‘Which hand?’ about ‘Marzipan Diesel’ is settled."],
  askQuestion: ["asked Min-jae Pardal ‘Root of the key or the chord?’ about ‘Marzipan Diesel’."],
  answerQuestion: ["answered ‘Which hand?’ about ‘Marzipan Diesel’: ‘The left.’."],
  withdrawQuestion: ["withdrew the question ‘Which hand?’ about ‘Marzipan Diesel’."],
  removeSong: ["took the song ‘Marzipan Diesel’ off the board."],
  restoreSong: ["brought the song ‘Old Kettle’ back."],
  addDetail: ["wrote the detail ‘Lay out in verse 2’ (Bass) in ‘Marzipan Diesel’."],
  rewordDetail: ["reworded ‘Choke on 4-and’ to ‘Choke on the and of 4’ in ‘Marzipan Diesel’."],
  reviseDetail: ["counted ‘Choke on 4-and’ in ‘Marzipan Diesel’ as polish, gave ‘Choke on 4-and’ in ‘Marzipan Diesel’ to Drums and Bass and changed who ‘Choke on 4-and’ in ‘Marzipan Diesel’ stands in for."],
  describeGrid: ["wrote the grid of ‘Choke on 4-and’ in ‘Marzipan Diesel’: Drums on 1, 2 and; accents on 4."],
  describeShape: ["wrote the shape of ‘Stay on the root’ in ‘Marzipan Diesel’: 022100, capo 5, tuned DADGAD."],
  describeSide: ["wrote the ending of ‘Choke on 4-and’ in ‘Marzipan Diesel’: Ends on a hit; played 3 times; last note on beat 4 and; cue from Drums."],
  placeDetail: ["gave ‘Stay on the root’ in ‘Marzipan Diesel’ to Bass."],
  moveDetail: ["moved ‘Stay on the root’ in ‘Marzipan Diesel’."],
  markDetail: ["locked in ‘Choke on 4-and’ (Drums) in ‘Marzipan Diesel’."],
  logTake: ["logged a clean run of ‘Marzipan Diesel’ and flagged a slip in it."],
  flagSlip: ["Min-jae Pardal flagged a slip of Bass in ‘Marzipan Diesel’."],
  withdrawTake: ["took a run of ‘Marzipan Diesel’ with a wobble back out of the log."],
  removeDetail: ["took the detail ‘Choke on 4-and’ (Drums) in ‘Marzipan Diesel’ off the board."],
  restoreDetail: ["brought the detail ‘Push into the chorus’ (Bass) in ‘Marzipan Diesel’ back."],
  planGig: ["put the gig ‘Market square’ on the calendar."],
  reviseGig: ["changed the day of ‘Harbour night’ from 18 April to 19 April, changed the playing minutes of ‘Harbour night’ from 90 to 45 and changed 3 more things."],
  callSongs: ["called ‘Umbrella Season’ for ‘Harbour night’."],
  dropSong: ["dropped ‘Marzipan Diesel’ from ‘Harbour night’."],
  moveInGig: [],
  arrangeGig: ["called ‘Umbrella Season’ for ‘Harbour night’."],
  tellOfNight: ["said that ‘Marzipan Diesel’ was left out at ‘Harbour night’ and said that the floor stayed for ‘Marzipan Diesel’ at ‘Harbour night’."],
  requestForGig: ["wrote down that the host asked for ‘Umbrella Season’ at ‘Harbour night’."],
  askForKey: ["asked for ‘Marzipan Diesel’ in Dm at ‘Harbour night’."],
  pinInGig: ["dropped ‘Marzipan Diesel’ from ‘Harbour night’ and said that ‘Marzipan Diesel’ is not to be played at ‘Harbour night’."],
  tuneForGig: ["set the key at ‘Harbour night’ of ‘Marzipan Diesel’ to ‘Dm’, set the tempo at ‘Harbour night’ of ‘Marzipan Diesel’ to 108 and set the tuning at ‘Harbour night’ of ‘Marzipan Diesel’ to ‘half step down’."],
  seatForGig: ["left Bass empty for ‘Harbour night’."],
  waiveGate: ["let the gate ‘Tried before its first night’ pass for ‘Marzipan Diesel’ at ‘Harbour night’."],
  cancelGig: ["called the gig ‘Harbour night’ off."],
  restoreGig: ["put the gig ‘Cellar’ back on the calendar."],
  planRehearsal: ["put the rehearsal of Wed 18 March on the calendar."],
  startRehearsal: ["began the rehearsal of Wed 11 March."],
  endRehearsal: ["ended the rehearsal of Wed 4 March."],
  choosePlan: ["planned 1 song for the rehearsal of Wed 11 March."],
  pinSong: ["asked for ‘Marzipan Diesel’ at the rehearsal of Wed 11 March."],
  sayWhoIsHere: ["Min-jae Pardal said when Min-jae Pardal comes to the rehearsal of Wed 11 March."],
  standIn: ["put Lucía Borrasco on Bass at the rehearsal of Wed 11 March."],
  sayAway: ["Min-jae Pardal said that Min-jae Pardal is away from Wed 1 April to Fri 10 April."],
  withdrawAway: ["took back that Min-jae Pardal is away from Wed 18 March to Thu 19 March."],
  cancelRehearsal: ["called the rehearsal of Wed 11 March off."],
  restoreRehearsal: ["put the rehearsal of Wed 25 March back on the calendar."],
  restoreSection: ["brought the section ‘Coda’ back into the form of ‘Marzipan Diesel’."],
  putBack: ["changed the tempo of ‘Marzipan Diesel’ from 112 to 118.", "reworded ‘Choke on 4-and’ to ‘Choke on the and of 4’ in ‘Marzipan Diesel’."],
  restoreBoard: ["named the band ‘Five Fuses’.", "changed the tempo of ‘Marzipan Diesel’ from 112 to 118.", "set ‘Choke on 4-and’ (Drums) in ‘Marzipan Diesel’ back to noticed.", "took a run of ‘Marzipan Diesel’ with a wobble back out of the log."],
}; // biome-ignore format: one command a line

const LUCIA = "Lucía Borrasco ";

test("[HIST-5] every command of the registry is told here", () => {
  expect([...Object.keys(EXPECTED), "takeBack"].sort()).toEqual([...COMMANDS.keys()].sort());
});

describe.each(Object.entries(ALL_CASES))("[HIST-5] %s", (name, { args, as }) => {
  test("is told in words of its own", () => {
    const { trial, sentBy, sentences } = recorded();
    sentBy(as?.writer ?? "phone", as?.member ?? "lucia");
    trial.done(name, args, as, RUN);
    expect(sentences().map((told) => (told.startsWith(LUCIA) ? told.slice(LUCIA.length) : told))).toEqual(
      EXPECTED[name],
    );
  });
});

describe("[HIST-5] the history tells", () => {
  test("a change and its taking back within a minute as what is left of it: nothing", () => {
    const { trial, sentences } = recorded();
    const written = trial.done("reviseSong", { song: "diesel", fields: { tempo: 120 } });
    trial.done("takeBack", { written: [...written] });
    expect(sentences()).toEqual([]);
  });

  test("how the guitars' part hangs on its shape, and what is taken back of a voice and a melody", () => {
    const { trial, sentences } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { shapeMatters: "essential", openLow: true } });
    expect(sentences()[0]).toContain(
      "said that the shape under the hand is essential in ‘Marzipan Diesel’ and said that the riff of ‘Marzipan Diesel’ needs the open lowest string.",
    );
    const voice = { lowest: 53, comfortLow: 55, comfortHigh: 70, highest: 74 };
    trial.done("revisePerson", { person: "minjae", voice });
    trial.done("revisePerson", { person: "minjae", voice: null });
    expect(sentences().join(" ")).toContain("took back what Min-jae Pardal can sing.");
  });

  test("the bar of the recording, with its voices", () => {
    const { trial, sentences } = recorded();
    const rows = [{ chair: "drums", voice: "kick", hits: "x--." }];
    trial.done("describeGrid", { card: "choke", of: "recorded", grid: { steps: 4, perBeat: 1, rows } });
    expect(sentences().join(" ")).toContain(
      "wrote the grid of ‘Choke on 4-and’ in ‘Marzipan Diesel’ as on the recording: Kick on 1 held for 3 steps.",
    );
  });

  test("what a song is good for on a night, and what a gig agrees on", () => {
    const { trial, sentences } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { floor: "fills", strong: "both" } });
    trial.done("reviseSong", { song: "diesel", fields: { hardToSing: true } });
    trial.done("reviseGig", { gig: "harbour", call: "17:30", dress: "black" });
    const told = sentences().join(" ");
    expect(told).toContain("said that ‘Marzipan Diesel’ fills the floor");
    expect(told).toContain("opens and closes a block well");
    expect(told).toContain("is hard to sing");
    expect(told).toContain("set the call time of ‘Harbour night’ to ‘17:30’");
  });

  test("a mark that another device handed over under the device that made it", () => {
    const { trial, sentBy, lines } = recorded();
    sentBy("tablet", "minjae");
    trial.done("markDetail", { card: "choke", member: "lucia", level: 3 });
    trial.done("addDetail", { song: "diesel", text: "Let it ring", chairs: ["bass"] }, { member: "lucia" });
    expect(lines()).toMatchObject([
      {
        sentence:
          "Somebody marked ‘Choke on 4-and’ (Drums) in ‘Marzipan Diesel’ as locked in for Lucía Borrasco (sent by another device).",
        passedOn: true,
        entry: { author: { device: "phone", member: null, sentBy: "tablet" } },
      },
      {
        sentence:
          "Lucía Borrasco wrote the detail ‘Let it ring’ (Bass) in ‘Marzipan Diesel’ (sent by another device).",
      },
    ]);
  });

  test("what the server wrote as the server's", () => {
    const { trial, sentBy, sentences } = recorded();
    sentBy("server", null);
    trial.document.transact("test", (set) => set("migrations", "0099-later", true));
    expect(sentences()).toEqual([
      "The server brought what is stored into its present form; the board says the same.",
    ]);
  });

  test("many things of one kind as a number", () => {
    const { trial, sentences } = recorded();
    trial.done("addSongs", { stage: "candidate", songs: "ABCDE".split("").map((title) => ({ title })) });
    trial.done("writeForm", {
      song: "umbrella",
      sections: "ABCD".split("").map((name) => ({ name, bars: 8 })),
    });
    expect(sentences()).toEqual([
      "Lucía Borrasco added 5 songs.",
      `Lucía Borrasco added ${MANY} sections in ‘Umbrella Season’.`,
    ]);
  });

  test("the names as they were then, also of what has been renamed or taken off since", () => {
    const { trial, sentences } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { tempo: 120 } });
    trial.done("reviseChair", { chair: "bass", name: "Upright" });
    trial.done("reviseSong", { song: "umbrella", fields: { title: "Parasol Season" } });
    trial.done("removeSong", { id: "umbrella" });
    trial.done("removeSong", { id: "diesel" });
    expect(sentences()[0]).toContain("‘Marzipan Diesel’");
  });

  test("whatever a device wrote past all commands in some sentence, never with an exception", () => {
    const segment = fc.oneof(
      fc.constantFrom(
        "diesel",
        "choke",
        "text",
        "body",
        "deleted",
        "name",
        "phone",
        "part:diesel:bass",
        "-",
        "1",
      ),
      fc.string({ minLength: 1, maxLength: 4 }),
    );
    const litter = fc.constantFrom(...ROOT_MAP_NAMES).chain((map) =>
      fc.record({
        map: fc.constant(map),
        key: fc.oneof(
          fc.array(segment, { minLength: ROOT_MAPS[map].length, maxLength: ROOT_MAPS[map].length }),
          fc.array(segment, { maxLength: 3 }),
        ),
        value: fc.jsonValue({ maxDepth: 2 }).map((made) => JSON.parse(JSON.stringify(made))),
      }),
    );
    const { trial, lines } = recorded();
    fc.assert(
      fc.property(fc.array(litter, { minLength: 1, maxLength: 12 }), (all) => {
        trial.document.transact("test", (set) => {
          for (const { map, key, value } of all) set(map, key.join("/"), value);
        });
      }),
      laws(200),
    );
    const told = lines();
    expect(told.length).toBeGreaterThan(100);
    for (const { sentence, what } of told) {
      expect(sentence).toMatch(/^[A-Z].+\.$/u);
      expect(what).not.toBe("");
    }
  });
});

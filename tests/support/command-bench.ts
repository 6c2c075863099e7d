/** A document with a band on it, to try commands on. Ids of records are the ids of the runs that made them. */
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { type Author, type CommandContext, idsFrom, type Refusal } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import type { Done } from "#shared/commands/run-command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { type BoardDocument, createBoardDocument, type Written } from "#shared/document/board-document.ts";
import type { Result } from "#shared/lib/result.ts";

export const NOON = Date.UTC(2026, 2, 4, 12);

export interface Trial {
  readonly ydoc: Y.Doc;
  readonly document: BoardDocument;
  readonly board: () => Board;
  /** Runs a command by name; the id counts up unless given. The clock moves a minute per run. */
  readonly run: (name: string, args: unknown, as?: Partial<Author>, id?: string) => Result<Done, Refusal>;
  /** Runs it and answers what it wrote; throws with the sentence when it was refused. */
  readonly done: (name: string, args: unknown, as?: Partial<Author>, id?: string) => readonly Written[];
}

/** An empty board, with `phone` as its leader's device. */
export const emptyBoard = (): Trial => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  const runner = createRunner(document);
  let runs = 0;
  const run: Trial["run"] = (name, args, as = {}, id = `run-${runs + 1}`) => {
    runs += 1;
    const command = COMMANDS.get(name);
    if (command === undefined) throw new Error(`No command ${name}`);
    const author: Author = { member: "lucia", writer: "phone", role: "leader", ...as };
    const context: CommandContext = { id, now: NOON + runs * 60_000, author, newId: idsFrom(id) };
    return runner.run(command, args, context);
  };
  return {
    ydoc,
    document,
    board: runner.board,
    run,
    done: (...of) => {
      const result = run(...of);
      if (!result.ok) throw new Error(`${of[0]}: ${result.error.sentence}`);
      return result.value.written;
    },
  };
};

/** A band of two with a song, its form, three details, a take, a question, a gig, a rehearsal and somebody away. */
export const smallBand = (): Trial => {
  const trial = emptyBoard();
  const { done } = trial;
  done("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" });
  done("addPerson", { name: "Lucía Borrasco" }, {}, "lucia");
  done("addPerson", { name: "Min-jae Pardal" }, {}, "minjae");
  done("addChair", { name: "Drums", instrument: "drums", holder: "lucia" }, {}, "drums");
  done("addChair", { name: "Bass", instrument: "bass", holder: "minjae" }, {}, "bass");
  done("addSong", { title: "Marzipan Diesel", key: "Em", tempo: 112, length: 200 }, {}, "diesel");
  done("addSong", { title: "Umbrella Season" }, {}, "umbrella");
  done("writeForm", { song: "diesel", sections: [{ name: "Verse", bars: 8 }] }, {}, "verse");
  done("addSection", { song: "diesel", name: "Outro", bars: 4 }, {}, "outro");
  done(
    "addDetail",
    { song: "diesel", text: "Choke on 4-and", chairs: ["drums"], weight: "must" },
    {},
    "choke",
  );
  done("addDetail", { song: "diesel", text: "Stay on the root" }, {}, "root");
  done("addDetail", { song: "diesel", text: "Push into the chorus", chairs: ["bass"] }, {}, "push");
  done("markDetail", { card: "choke", member: "lucia", level: 2 });
  done("logTake", {
    song: "diesel",
    occasion: "r:2026-03-04",
    kind: "run",
    at: NOON,
    seats: [{ chair: "drums", member: "lucia" }],
    feel: "wobble",
    slips: [{ card: "choke", severity: 1 }],
  });
  done("planGig", { name: "Harbour night", date: "2026-04-18", minutes: 90 }, {}, "harbour");
  done("callSongs", { gig: "harbour", songs: ["diesel"] });
  done("askQuestion", { song: "diesel", card: "choke", text: "Which hand?" }, { member: "minjae" }, "hand");
  done(
    "rule",
    { song: "diesel", card: "choke", about: "detail", source: "ours", text: "Sticks, not brushes" },
    {},
    "sticks",
  );
  done("removeDetail", { id: "push" });
  done("addSong", { title: "Old Kettle" }, {}, "kettle");
  done("removeSong", { id: "kettle" });
  done("addChair", { name: "Organ", instrument: "keys" }, {}, "organ");
  done("removeChair", { id: "organ" });
  done("addPerson", { name: "Karim Belhossat" }, {}, "karim");
  done("removePerson", { id: "karim" });
  done("planGig", { name: "Cellar", date: "2026-05-01", minutes: 45 }, {}, "cellar");
  done("cancelGig", { id: "cellar" });
  done("addSection", { song: "diesel", name: "Coda", bars: 2 }, {}, "coda");
  done("removeSection", { song: "diesel", section: "coda" });
  done("planRehearsal", { day: "2026-03-11", start: "19:30", booked: 120, gig: "harbour" });
  done("startRehearsal", { day: "2026-03-04" });
  done("planRehearsal", { day: "2026-03-25" });
  done("cancelRehearsal", { id: "2026-03-25" });
  done("sayAway", { person: "minjae", from: "2026-03-18", to: "2026-03-19" }, {}, "porto");
  return trial;
};

/** A band one gig of which a dep sits in on bass: "Harbour night" with two songs, and another gig beside it. */
import * as Y from "yjs";
import { type Author, type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";

export const GIG_NOON = Date.UTC(2031, 4, 1, 12);

export interface GigBand {
  readonly ydoc: Y.Doc;
  readonly board: ReturnType<typeof createRunner>["board"];
  /** Runs a command as the leader; the clock moves a minute per run. Throws the sentence of a refusal. */
  readonly done: (name: string, args: unknown, id?: string, as?: Partial<Author>) => void;
}

export const gigBand = (): GigBand => {
  const ydoc = new Y.Doc();
  const runner = createRunner(createBoardDocument(ydoc));
  let runs = 0;
  const done: GigBand["done"] = (name, args, id = `run-${runs + 1}`, as = {}) => {
    runs += 1;
    const command = COMMANDS.get(name);
    if (command === undefined) throw new Error(`No command ${name}`);
    const author: Author = { member: "lucia", writer: "laptop", role: "leader", ...as };
    const context: CommandContext = { id, now: GIG_NOON + runs * 60_000, author, newId: idsFrom(id) };
    const result = runner.run(command, args, context);
    if (!result.ok) throw new Error(`${name}: ${result.error.sentence}`);
  };
  done("startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" });
  done("addPerson", { name: "Lucía Borrasco" }, "lucia");
  done("addPerson", { name: "Min-jae Pardal" }, "minjae");
  done("addPerson", { name: "Karim Belhossat", dep: true }, "karim");
  done("addChair", { name: "Drums", instrument: "drums", holder: "lucia" }, "drums");
  done("addChair", { name: "Bass", instrument: "bass", holder: "minjae" }, "bass");
  done("addChair", { name: "Low voice", instrument: "backing voice", holder: "minjae" }, "voice");
  const diesel = {
    title: "Marzipan Diesel",
    key: "Em",
    liftKey: "F#m",
    tempo: 112,
    countIn: "sticks",
    firstChord: "Em7/B",
    ending: "Cold",
  };
  done("addSong", diesel, "diesel");
  done("addSong", { title: "Umbrella Season", key: "A" }, "umbrella");
  done("addSong", { title: "Old Kettle" }, "kettle");
  done("writeForm", { song: "diesel", sections: [{ name: "Verse", bars: 8 }] }, "verse");
  done("addSection", { song: "diesel", name: "Outro", bars: 4 }, "outro");
  const at = (section: string, bar: number) => ({ from: { section, bar } });
  const detail = (id: string, args: object) => done("addDetail", { song: "diesel", ...args }, id);
  detail("stop", {
    text: "Stop with the drums",
    chairs: ["drums", "bass"],
    weight: "must",
    where: at("outro", 2),
  });
  detail("root", { text: "Stay on the root", chairs: ["bass"], where: at("verse", 1) });
  detail("fill", { text: "Fill into the chorus", chairs: ["drums"] });
  detail("cover", { text: "Take the low voice's line", chairs: ["bass"], without: "voice" });
  detail("spotted", { text: "Something in the bridge" });
  done("addDetail", { song: "kettle", text: "Not tonight", chairs: ["bass"] }, "elsewhere");
  done("planGig", { name: "Harbour night", place: "North quay", date: "2031-05-08", minutes: 60 }, "harbour");
  done("callSongs", { gig: "harbour", songs: ["diesel", "umbrella"] });
  done("tuneForGig", { gig: "harbour", song: "diesel", key: "Dm", tempo: 108 });
  done("seatForGig", { gig: "harbour", chair: "bass", member: "karim" });
  done("castPart", { song: "umbrella", chair: "bass", plays: false });
  done("planGig", { name: "Cellar", date: "2031-05-20", minutes: 45 }, "cellar");
  done("callSongs", { gig: "cellar", songs: ["kettle"] });
  done("markDetail", { card: "stop", member: "lucia", level: 3 });
  return { ydoc, board: runner.board, done };
};

import { expect, test } from "vitest";
import * as Y from "yjs";
import { addChair } from "#shared/commands/add-chair.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { addPerson } from "#shared/commands/add-person.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { rewordDetail } from "#shared/commands/reword-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { effectiveStatus } from "#shared/readiness/effective-status.ts";

const at = (id: string, now: number, writer = "laptop"): CommandContext => ({
  id,
  now,
  author: { member: null, writer, role: "leader" },
  newId: idsFrom(id),
});

test("after 'learn again' a mark counts, however slow the clock of the phone that makes it", () => {
  const runner = createRunner(createBoardDocument(new Y.Doc()));
  runner.run(addSong, { title: "Marzipan Diesel" }, at("song", 1));
  runner.run(addChair, { name: "Drums", instrument: "drums" }, at("drums", 2));
  runner.run(addPerson, { name: "Lucía Borrasco", chairs: ["drums"] }, at("lucia", 3));
  runner.run(addDetail, { song: "song", text: "Choke on 4-and", chairs: ["drums"] }, at("card", 4));
  runner.run(
    rewordDetail,
    { card: "card", field: "text", text: "Choke on 4", learnAgain: true },
    at("again", 10_000),
  );
  // The phone is nine seconds behind.
  runner.run(markDetail, { card: "card", member: "lucia", level: 2 }, at("mark", 1_000, "phone"));
  const board = runner.board();
  const file = board.songs.get("song");
  if (file === undefined) throw new Error("no song");
  const input = {
    file,
    chairs: board.chairs,
    lineUp: new Map([["drums", "lucia"]]),
    settings: board.band.settings,
    t: 20_000,
    asOf: 20_000,
  };
  expect(effectiveStatus(input, "card", "lucia")).toMatchObject({ level: 2, reason: { is: "as marked" } });
});

import type * as Y from "yjs";
import type { Stage } from "#shared/board/song.ts";
import { LEVELS } from "#shared/board/status.ts";
import { addChair } from "#shared/commands/add-chair.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { type Command, idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { seeded } from "#tests/support/big-board.ts";

const CHAIRS = 8;
const SONGS = 60;
const WEIGHTS = ["must", "must", "lift", "lift", "polish"] as const;
const WORDS =
  "Ladder Harbour Biscuit Lantern Window Tractor Velvet Compass Gravel Orchard Saddle Thimble Copper Meadow Pocket Anchor".split(
    " ",
  );

/** Fills the demo band's board up to 60 songs × 8 chairs, each part with two to six details somebody has marked. */
export const seedMany = (ydoc: Y.Doc, now: number): void => {
  const runner = createRunner(createBoardDocument(ydoc));
  const random = seeded(7);
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)] as T;
  let runs = 0;
  const run = <A, I>(command: Command<A, I>, args: NoInfer<I>): string => {
    runs += 1;
    const id = `many-${runs}`;
    const author = { member: "demo-tomasz", writer: "many", role: "leader" } as const;
    const done = runner.run(command, args, { id, now: now - 1000 + runs / 100, newId: idsFrom(id), author });
    if (!done.ok) throw new Error(done.error.sentence);
    return id;
  };
  for (let n = runner.board().chairs.length; n < CHAIRS; n++) {
    const [holder = ""] = runner.board().people.keys();
    run(addChair, { name: `Percussion ${n}`, short: `P${n}`, instrument: "other", holder });
  }
  const { chairs } = runner.board();
  for (let n = runner.board().songs.size; n < SONGS; n++) {
    const title = `${pick(WORDS)} ${pick(WORDS)} ${n}`;
    const song = run(addSong, {
      title,
      stage: pick<Stage>(["learning", "in the book"]),
      key: "D",
      tempo: 110,
    });
    for (const chair of chairs) {
      const details = 2 + Math.floor(random() * 5);
      for (let d = 0; d < details; d++) {
        const card = run(addDetail, { song, text: `Detail ${d}`, chairs: [chair.id], weight: pick(WEIGHTS) });
        if (chair.holder !== null) run(markDetail, { card, member: chair.holder, level: pick(LEVELS) });
      }
    }
  }
  runner.close();
};

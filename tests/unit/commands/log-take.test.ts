import { expect, test } from "vitest";
import * as Y from "yjs";
import { addPerson } from "#shared/commands/add-person.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { withdrawTake } from "#shared/commands/flag-slip.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";

const NOON = Date.UTC(2026, 2, 5, 12);
let runs = 0;
const by = (member: string | null, writer: string, now = NOON): CommandContext => {
  runs += 1;
  const id = `run${runs}`;
  return { id, now, author: { member, writer, role: "leader" }, newId: idsFrom(id) };
};

const start = () => {
  const runner = createRunner(createBoardDocument(new Y.Doc()));
  runner.run(addPerson, { name: "Lucía Borrasco" }, by(null, "laptop"));
  const song = by(null, "laptop");
  runner.run(addSong, { title: "Marzipan Diesel" }, song);
  const log = (context: CommandContext) =>
    runner.run(
      logTake,
      { song: song.id, occasion: "r:2026-03-05", kind: "run", at: context.now, seats: [], feel: "clean" },
      context,
    );
  const takes = () => runner.board().songs.get(song.id)?.takes ?? [];
  return { runner, song: song.id, log, takes };
};

test("a take names everybody who logged it, and a device that does not know its person names nobody", () => {
  const { log, takes } = start();
  log(by("lucia", "her-phone"));
  log(by("anneli", "her-tablet", NOON + 30_000));
  log(by(null, "somebody's", NOON + 60_000));
  expect(takes()).toMatchObject([
    { no: 1, by: ["anneli", "lucia"], writers: ["her-phone", "her-tablet", "somebody's"] },
  ]);
});

test("what one device withdraws no longer names its person, and the others' entry stays", () => {
  const { runner, song, log, takes } = start();
  log(by("lucia", "her-phone"));
  log(by("anneli", "her-tablet", NOON + 30_000));
  const [take] = takes();
  runner.run(withdrawTake, { song, take: take?.id ?? "" }, by("lucia", "her-phone", NOON + 60_000));
  expect(takes()).toMatchObject([{ by: ["anneli"], writers: ["her-tablet"] }]);
});

test("a number whose take was taken back is not given out again by the same device", () => {
  const { runner, song, log, takes } = start();
  log(by("lucia", "her-phone"));
  runner.run(withdrawTake, { song, take: takes()[0]?.id ?? "" }, by("lucia", "her-phone", NOON + 60_000));
  log(by("lucia", "her-phone", NOON + 120_000));
  expect(takes()).toMatchObject([{ no: 2, writers: ["her-phone"] }]);
});

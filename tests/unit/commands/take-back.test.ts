import { expect, test } from "vitest";
import * as Y from "yjs";
import { addDetail } from "#shared/commands/add-detail.ts";
import { addPerson } from "#shared/commands/add-person.ts";
import { addSong } from "#shared/commands/add-song.ts";
import { type CommandContext, idsFrom, type Role } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { takeBack } from "#shared/commands/take-back.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";

let runs = 0;
const context = (writer: string, now: number, role: Role = "leader"): CommandContext => {
  runs += 1;
  const id = `run${runs}`;
  return { id, now, author: { member: null, writer, role }, newId: idsFrom(id) };
};

const start = () => {
  const runner = createRunner(createBoardDocument(new Y.Doc()));
  const song = context("phone", 1);
  runner.run(addSong, { title: "Marzipan Diesel" }, song);
  const person = context("phone", 2);
  runner.run(addPerson, { name: "Lucía Borrasco" }, person);
  const card = context("phone", 3);
  runner.run(addDetail, { song: song.id, text: "Choke on 4-and" }, card);
  return { runner, song: song.id, person: person.id, card: card.id };
};

test("[CMD-1] taking back an added detail takes it off the board, and taking that back returns it", () => {
  const { runner, song } = start();
  const added = runner.run(addDetail, { song, text: "No crash here" }, context("phone", 10));
  if (!added.ok) throw new Error(added.error.sentence);
  expect(runner.board().songs.get(song)?.cards).toHaveLength(2);
  const undone = runner.run(takeBack, { written: [...added.value.written] }, context("phone", 11));
  if (!undone.ok) throw new Error(undone.error.sentence);
  expect(runner.board().songs.get(song)?.cards).toHaveLength(1);
  const redone = runner.run(takeBack, { written: [...undone.value.written] }, context("phone", 12));
  expect(redone.ok).toBe(true);
  expect(
    runner
      .board()
      .songs.get(song)
      ?.cards.map((c) => c.text),
  ).toContain("No crash here");
});

test("taking back a mark restores the level and the age of the claim", () => {
  const { runner, song, person, card } = start();
  runner.run(markDetail, { card, member: person, level: 2 }, context("phone", 100));
  const raised = runner.run(markDetail, { card, member: person, level: 3 }, context("phone", 200));
  if (!raised.ok) throw new Error(raised.error.sentence);
  runner.run(takeBack, { written: [...raised.value.written] }, context("phone", 300));
  expect(runner.board().songs.get(song)?.statuses.get(card)?.get(person)).toMatchObject({
    level: 2,
    anchor: 100,
  });
});

test("[CMD-1] a mark that another device has changed since is not taken back", () => {
  const { runner, song, person, card } = start();
  const mine = runner.run(markDetail, { card, member: person, level: 1 }, context("phone", 100));
  if (!mine.ok) throw new Error(mine.error.sentence);
  runner.run(markDetail, { card, member: person, level: 3 }, context("laptop", 150));
  const undone = runner.run(takeBack, { written: [...mine.value.written] }, context("phone", 200));
  expect(undone).toMatchObject({ ok: false, error: { code: "conflict" } });
  expect(runner.board().songs.get(song)?.statuses.get(card)?.get(person)?.level).toBe(3);
});

test("a detail whose adding was undone comes back with its words when somebody restores it", () => {
  const trial = smallBand();
  const written = trial.done(
    "addDetail",
    { song: "diesel", text: "No crash here", right: "Only air" },
    {},
    "crash",
  );
  trial.done("takeBack", { written: [...written] });
  trial.done("restoreDetail", { id: "crash" });
  const card = trial
    .board()
    .songs.get("diesel")
    ?.cards.find(({ id }) => id === "crash");
  expect(card).toMatchObject({ text: "No crash here", right: "Only air" });
});

test("the slips of a withdrawn take stay out of the next one, and come back when the withdrawal is undone", () => {
  const trial = smallBand();
  const take = {
    song: "diesel",
    occasion: "r:2026-03-04",
    kind: "run",
    at: NOON + 600_000,
    seats: [],
    feel: "clean",
  };
  const slips = () =>
    trial
      .board()
      .songs.get("diesel")
      ?.takes.map((logged) => logged.slips.length);
  expect(slips()).toEqual([1]);
  const withdrawn = trial.done("withdrawTake", { song: "diesel", take: "r:2026-03-04/diesel/1" });
  const logged = trial.done("logTake", take);
  expect(slips()).toEqual([0]);
  trial.done("takeBack", { written: [...logged] });
  trial.done("takeBack", { written: [...withdrawn] });
  expect(slips()).toEqual([1]);
});

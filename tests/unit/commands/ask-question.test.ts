/** Questions and their answers, asked and answered apart, and what a dep's device may run. */
import { expect, test } from "vitest";
import * as Y from "yjs";
import { type Author, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { emptyBoard, smallBand } from "#tests/support/command-bench.ts";

const DEP: Partial<Author> = { role: "dep", member: "minjae", writer: "dep phone" };

test("[SYNC-1] a question asked and answered on phones without signal keeps every answer, whichever arrives first", () => {
  const asked = new Y.Doc();
  const phones = [new Y.Doc(), new Y.Doc()];
  const runOn = (ydoc: Y.Doc, name: string, args: unknown, writer: string, id: string): void => {
    const runner = createRunner(createBoardDocument(ydoc));
    const author: Author = { member: writer, writer, role: "member" };
    const command = COMMANDS.get(name);
    if (command === undefined) throw new Error(name);
    const done = runner.run(command, args, { id, now: 1000, author, newId: idsFrom(id) });
    if (!done.ok) throw new Error(done.error.sentence);
    runner.close();
  };
  runOn(asked, "addSong", { title: "Marzipan Diesel" }, "a", "diesel");
  runOn(asked, "askQuestion", { song: "diesel", text: "Who counts in?" }, "a", "q");
  for (const phone of phones) Y.applyUpdate(phone, Y.encodeStateAsUpdate(asked));
  runOn(phones[0] as Y.Doc, "answerQuestion", { question: "q", text: "Drums." }, "b", "x");
  runOn(phones[1] as Y.Doc, "answerQuestion", { question: "q", text: "Whoever sings." }, "c", "y");
  const read = (order: readonly Y.Doc[]) => {
    const merged = new Y.Doc();
    for (const doc of order) Y.applyUpdate(merged, Y.encodeStateAsUpdate(doc));
    return createRunner(createBoardDocument(merged)).board().songs.get("diesel")?.questions[0]?.answers;
  };
  const [first, second] = phones as [Y.Doc, Y.Doc];
  expect(read([first, second])?.map(({ text }) => text)).toEqual(["Drums.", "Whoever sings."]);
  expect(read([second, first])).toEqual(read([first, second]));
});

test("[DOC-4] an answer that arrives before its question is shown when the question comes", () => {
  const trial = emptyBoard();
  trial.done("addSong", { title: "Marzipan Diesel" }, {}, "diesel");
  trial.document.transact("test", (set) => set("answers", "q/phone", { text: "Yes.", by: "", at: 5 }));
  expect(trial.board().songs.get("diesel")?.questions).toEqual([]);
  trial.done("askQuestion", { song: "diesel", text: "Again?" }, {}, "q");
  expect(
    trial
      .board()
      .songs.get("diesel")
      ?.questions[0]?.answers.map(({ text }) => text),
  ).toEqual(["Yes."]);
});

test("[CMD-3] who asked takes the question off the board; asked again under one id it stays as it was", () => {
  const trial = smallBand();
  trial.done("withdrawQuestion", { question: "hand" }, { role: "member", member: "minjae" });
  expect(trial.board().songs.get("diesel")?.questions).toEqual([]);
  expect(trial.done("askQuestion", { song: "diesel", text: "Another one" }, {}, "hand")).toEqual([]);
});

test("[DEP-1] a dep's device asks and says “got it” for itself, and no other command runs for it", () => {
  const trial = smallBand();
  const before = trial.board();
  const allowed = [...COMMANDS.values()].filter(({ dep }) => dep !== undefined).map(({ name }) => name);
  expect(allowed.sort()).toEqual(["askQuestion", "markDetail"]);
  for (const name of COMMANDS.keys()) {
    if (allowed.includes(name)) continue;
    const result = trial.run(name, {}, DEP);
    expect(result).toMatchObject({ ok: false, error: { code: "forbidden" } });
  }
  for (const level of [0, 2, 3])
    expect(trial.run("markDetail", { card: "root", member: "minjae", level }, DEP)).toMatchObject({
      ok: false,
    });
  expect(trial.run("markDetail", { card: "root", member: "lucia", level: 1 }, DEP)).toMatchObject({
    ok: false,
  });
  const nobody = { ...DEP, member: null };
  expect(trial.run("markDetail", { card: "root", member: "minjae", level: 1 }, nobody)).toMatchObject({
    ok: false,
  });
  expect(trial.board()).toBe(before);
  trial.done("markDetail", { card: "root", member: "minjae", level: 1 }, DEP);
  trial.done("askQuestion", { song: "diesel", text: "How loud?" }, DEP);
  expect(trial.board().songs.get("diesel")?.statuses.get("root")?.get("minjae")?.level).toBe(1);
});

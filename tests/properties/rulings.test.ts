/** Rulings and questions made apart: none is lost by merging, and what is open does not depend on order. */
import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { isOpen, rulingsOn, standingRulings } from "#shared/board/ruling.ts";
import { type Author, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";

const PHONES = 3;
const step = fc.record({
  phone: fc.nat(PHONES - 1),
  verb: fc.constantFrom("rule", "askQuestion", "answerQuestion", "settleQuestion", "withdrawRuling", "merge"),
  pick: fc.nat(5),
  now: fc.nat(50),
});

const fileOf = (ydoc: Y.Doc) => {
  const runner = createRunner(createBoardDocument(ydoc));
  const file = runner.board().songs.get("song");
  runner.close();
  if (file === undefined) throw new Error("no song");
  return file;
};

const merged = (docs: readonly Y.Doc[]): Y.Doc => {
  const into = new Y.Doc();
  for (const doc of docs) Y.applyUpdate(into, Y.encodeStateAsUpdate(doc));
  return into;
};

const run = (ydoc: Y.Doc, name: string, args: unknown, phone: number, id: string, now: number): boolean => {
  const runner = createRunner(createBoardDocument(ydoc));
  const author: Author = { member: null, writer: `phone${phone}`, role: "leader" };
  const command = COMMANDS.get(name);
  if (command === undefined) throw new Error(name);
  const done = runner.run(command, args, { id, now, author, newId: idsFrom(id) });
  runner.close();
  return done.ok;
};

test("[SYNC-1] [DOC-4] no ruling and no question is lost by merging, and what is open does not depend on order", () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 2, maxLength: 12 }), (steps) => {
      const docs = Array.from({ length: PHONES }, () => new Y.Doc());
      const [first] = docs as [Y.Doc];
      run(first, "addSong", { title: "Marzipan Diesel" }, 0, "song", 1);
      run(first, "addDetail", { song: "song", text: "Choke on 4-and" }, 0, "card", 2);
      for (const doc of docs) Y.applyUpdate(doc, Y.encodeStateAsUpdate(first));
      const written = new Set<string>();
      const withdrawn = new Set<string>();
      steps.forEach(({ phone, verb, pick, now }, index) => {
        const doc = docs[phone] as Y.Doc;
        const { rulings, questions } = fileOf(doc);
        const id = `step${index}`;
        const ruling = rulings[pick % Math.max(1, rulings.length)]?.id ?? null;
        const question = questions[pick % Math.max(1, questions.length)]?.id ?? "";
        const on = { song: "song", card: "card" };
        if (verb === "merge") Y.applyUpdate(doc, Y.encodeStateAsUpdate(docs[pick % PHONES] as Y.Doc));
        else if (verb === "rule") {
          expect(run(doc, verb, { ...on, about: "detail", source: "ours", text: id }, phone, id, now)).toBe(
            true,
          );
          written.add(id);
        } else if (verb === "askQuestion") {
          expect(run(doc, verb, { ...on, text: id, ruling }, phone, id, now)).toBe(true);
          written.add(id);
          const asked = fileOf(doc).questions.find((q) => q.id === id);
          expect(asked && isOpen(asked, fileOf(doc))).toBe(true);
        } else if (verb === "withdrawRuling") {
          if (run(doc, verb, { ruling: ruling ?? "" }, phone, id, now)) withdrawn.add(ruling ?? "");
        } else run(doc, verb, { question, text: id }, phone, id, now);
      });
      const one = fileOf(merged(docs));
      const other = fileOf(merged([...docs].reverse()));
      const shown = new Set([...one.rulings, ...one.questions].map(({ id }) => id));
      expect(shown).toEqual(new Set([...written].filter((id) => !withdrawn.has(id))));
      expect(other.rulings).toEqual(one.rulings);
      expect(other.questions.map((q) => [q.id, isOpen(q, other)])).toEqual(
        one.questions.map((q) => [q.id, isOpen(q, one)]),
      );
      const known = rulingsOn(one, { card: "card", about: "detail" });
      expect(standingRulings(known).at(-1)).toBe(known.at(-1));
    }),
    { numRuns: 300 },
  );
}, 60_000);

/** What a ruling supersedes, who sees it differently, and what withdrawing puts back. */
import { expect, test } from "vitest";
import { isOpen, openDisagreements, rulingsOn, standingRulings } from "#shared/board/ruling.ts";
import { smallBand, type Trial } from "#tests/support/command-bench.ts";

const fileOf = (trial: Trial) => {
  const file = trial.board().songs.get("diesel");
  if (file === undefined) throw new Error("no song");
  return file;
};
const ON_CHOKE = { song: "diesel", card: "choke", about: "detail", source: "ours" };

test("[CMD-3] a disagreement stays open under answers and is settled by the next ruling, which says so", () => {
  const trial = smallBand();
  trial.done("askQuestion", { song: "diesel", card: "choke", ruling: "sticks", text: "Brushes." }, {}, "no");
  trial.done("answerQuestion", { question: "no", text: "Let us try both." });
  expect(openDisagreements(fileOf(trial)).map(({ id }) => id)).toEqual(["no"]);
  trial.done("rule", { ...ON_CHOKE, text: "Brushes after all" }, { writer: "another phone" }, "brushes");
  expect(openDisagreements(fileOf(trial))).toEqual([]);
  const asked = fileOf(trial).questions.find(({ id }) => id === "no");
  expect(asked?.answers.map(({ text }) => text)).toContain("Ruled again: Brushes after all");
  const known = rulingsOn(fileOf(trial), { card: "choke", about: "detail" });
  expect(known.map(({ id, before }) => [id, before])).toEqual([
    ["sticks", "Choke on 4-and"],
    ["brushes", "Sticks, not brushes"],
  ]);
  expect(standingRulings(known).map(({ id }) => id)).toEqual(["brushes"]);
});

test("[CMD-3] a question that somebody settles is closed without an answer", () => {
  const trial = smallBand();
  const hand = () => fileOf(trial).questions[0];
  const open = () => {
    const question = hand();
    return question !== undefined && isOpen(question, fileOf(trial));
  };
  expect(open()).toBe(true);
  trial.done("settleQuestion", { question: "hand" }, { role: "member", member: "minjae" });
  expect(open()).toBe(false);
});

test("[CMD-3] withdrawing a ruling puts the song's entry back, unless it says something else by now", () => {
  const trial = smallBand();
  const rule = { song: "diesel", about: "key", source: "ours" };
  trial.done("rule", { ...rule, text: "D" }, {}, "d");
  trial.done("withdrawRuling", { ruling: "d" });
  expect(fileOf(trial).song.key).toBe("Em");
  trial.done("rule", { ...rule, text: "F" }, {}, "f");
  trial.done("reviseSong", { song: "diesel", fields: { key: "G" } });
  trial.done("withdrawRuling", { ruling: "f" });
  expect(fileOf(trial).song.key).toBe("G");
});

test("[DOC-5] rulings that did not know of each other both stand until somebody rules again", () => {
  const at = {
    song: "s",
    card: null,
    about: "key",
    source: "ours",
    text: "",
    before: "",
    why: "",
    by: "",
  } as const;
  const one = { ...at, id: "one", over: [], at: 1 };
  const two = { ...at, id: "two", over: [], at: 2 };
  const end = { ...at, id: "end", over: ["one", "two"], at: 3 };
  const old = { ...at, id: "old", over: null, at: 2 };
  expect(standingRulings([one, two])).toEqual([one, two]);
  expect(standingRulings([one, two, end])).toEqual([end]);
  expect(standingRulings([one, old])).toEqual([old]);
});

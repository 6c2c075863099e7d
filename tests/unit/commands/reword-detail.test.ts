import { expect, test } from "vitest";
import { smallBand } from "#tests/support/command-bench.ts";

test("[DOC-5] rewording a detail twice on one phone leaves no disagreement with the wording before", () => {
  const trial = smallBand();
  const as = { writer: "other phone" };
  trial.done("rewordDetail", { card: "choke", field: "text", text: "Choke on the and of 4" }, as);
  trial.done("rewordDetail", { card: "choke", field: "text", text: "Choke on 4-and, both hands" }, as);
  const card = trial
    .board()
    .songs.get("diesel")
    ?.cards.find(({ id }) => id === "choke");
  expect(card?.versions.text.map(({ text }) => text)).toEqual(["Choke on 4-and, both hands"]);
});

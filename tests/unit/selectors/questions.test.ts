import { expect, test } from "vitest";
import {
  openQuestions,
  questionsAboutSong,
  questionsOn,
  questionsWord,
} from "#shared/selectors/questions.ts";
import { smallBand } from "#tests/support/command-bench.ts";

test("open questions are those nobody answered, oldest first", () => {
  const trial = smallBand();
  trial.done("askQuestion", { song: "umbrella", text: "Do we play it?" }, {}, "later");
  expect(openQuestions(trial.board().songs.values()).map(({ id }) => id)).toEqual(["hand", "later"]);
  trial.done("answerQuestion", { question: "hand", text: "The left." });
  expect(openQuestions(trial.board().songs.values()).map(({ id }) => id)).toEqual(["later"]);
  expect([questionsWord(1), questionsWord(2)]).toEqual(["1 question", "2 questions"]);
});

test("a question stands at its detail, and at the song once the detail is off the board", () => {
  const trial = smallBand();
  trial.done("askQuestion", { song: "diesel", text: "How loud?" }, {}, "loud");
  const file = () => {
    const found = trial.board().songs.get("diesel");
    if (found === undefined) throw new Error("no song");
    return found;
  };
  const shown = () =>
    [questionsOn(file(), "choke"), questionsAboutSong(file())].map((qs) => qs.map(({ id }) => id));
  expect(shown()).toEqual([["hand"], ["loud"]]);
  trial.done("removeDetail", { id: "choke" });
  expect(questionsAboutSong(file()).map(({ id }) => id)).toEqual(["hand", "loud"]);
});

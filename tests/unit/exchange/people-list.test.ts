import { expect, test } from "vitest";
import { readPeopleList } from "#shared/exchange/people-list.ts";

test("names with and without a chair are read, whatever parts them", () => {
  const text =
    "1. Tomasz Wrzosnowicz — guitar 1\nMin-jae Pardal - bass\r\nLucía Borrasco: drums\nAnneli Kuusvirre\tkeys\n• Priya Sundarvane\n";
  expect(readPeopleList(text)).toEqual({
    people: [
      { line: 1, name: "Tomasz Wrzosnowicz", chair: "guitar 1" },
      { line: 2, name: "Min-jae Pardal", chair: "bass" },
      { line: 3, name: "Lucía Borrasco", chair: "drums" },
      { line: 4, name: "Anneli Kuusvirre", chair: "keys" },
      { line: 5, name: "Priya Sundarvane", chair: "" },
    ],
    problems: [],
  });
});

test("a missing, doubled or endless name costs its own line only", () => {
  const { people, problems } = readPeopleList(
    `: drums\nLucía Borrasco\nlucia borrasco: drums\n${"x".repeat(10_000)}\nKarim Belhossat`,
  );
  expect(people.map(({ name }) => name)).toEqual(["Lucía Borrasco", "Karim Belhossat"]);
  expect(problems.map(({ kind, line }) => [kind, line])).toEqual([
    ["name", 1],
    ["duplicate", 3],
    ["name", 4],
  ]);
});

test("an empty list says what to write", () => {
  expect(readPeopleList("\n").problems.map(({ message }) => message)).toEqual([
    "Line 1: there is nobody here yet. Write one name per line.",
  ]);
});

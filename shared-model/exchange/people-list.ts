import { foldText } from "../lib/fold-text.ts";
import { cleanLine, withoutMark, withoutMarker } from "./clean-text.ts";
import { excerpt, type Problem, problemAt } from "./problem.ts";

/** One person of a pasted list; `chair` is empty where none was given. */
export interface ReadPerson {
  readonly line: number;
  readonly name: string;
  readonly chair: string;
}

export const PEOPLE_MAX = 100;
const NAME_MAX = 200;
/** A hyphen inside a name stays; one with space around it parts name and chair. */
const PARTED = /^(.*?)(?:\s+[-–—]+\s+|\s*[—:;,]\s*)(.*)$/;

/** Reads `Name — chair`, one per line, chair optional. Every line that cannot be read is named; the others are kept. */
export const readPeopleList = (
  text: string,
): { readonly people: readonly ReadPerson[]; readonly problems: readonly Problem[] } => {
  const people: ReadPerson[] = [];
  const problems: Problem[] = [];
  const lineOf = new Map<string, number>();
  for (const [index, raw] of withoutMark(text)
    .split(/\r\n|\r|\n/)
    .entries()) {
    const line = index + 1;
    const said = withoutMarker(cleanLine(raw.replace(/\t/g, " — ")).text, "bullets and numbers");
    if (said === "") continue;
    const [, name = said, chair = ""] = PARTED.exec(said) ?? [];
    const first = lineOf.get(foldText(name));
    const wrong = refusal(name, chair, people.length);
    if (wrong !== null) problems.push(problemAt("name", line, "name", wrong));
    else if (first !== undefined) {
      problems.push(
        problemAt("duplicate", line, "name", `"${excerpt(name)}" stands in line ${first} already.`),
      );
    } else {
      lineOf.set(foldText(name), line);
      people.push({ line, name, chair });
    }
  }
  if (people.length === 0 && problems.length === 0) {
    problems.push(problemAt("empty", 1, null, "there is nobody here yet. Write one name per line."));
  }
  return { people, problems };
};

const refusal = (name: string, chair: string, count: number): string | null => {
  if (name === "") return "the name is missing. Write it before the chair.";
  if (name.length > NAME_MAX || chair.length > NAME_MAX) {
    return `"${excerpt(name)}" is too long. Shorten name and chair to at most ${NAME_MAX} characters each.`;
  }
  return count >= PEOPLE_MAX ? `the list is read up to here, ${PEOPLE_MAX} people at a time.` : null;
};

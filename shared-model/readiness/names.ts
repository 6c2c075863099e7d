/** How records are called in sentences for people. */
import type { Board, SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";

/** Looks up what people call a member or a chair; total, so a removed one still reads as something. */
export interface Names {
  readonly member: (id: Id) => string;
  readonly chair: (id: Id) => string;
}

export const namesOf = (board: Pick<Board, "chairs" | "people">): Names => {
  const chairs = new Map(board.chairs.map((chair) => [chair.id, chair.name]));
  return {
    member: (id) => board.people.get(id)?.name ?? "somebody no longer in the band",
    chair: (id) => chairs.get(id) ?? "a removed chair",
  };
};

const LONGEST = 60;

/** A card as a sentence opens with it: where or what it is about, and its text cut to one line. */
export const cardName = (file: Pick<SongFile, "sections">, card: Card): string => {
  const { from } = card.where;
  const section = from && file.sections.find((candidate) => candidate.id === from.section);
  const about = card.kind === "general" ? (section?.name ?? "") : capital(card.kind);
  const line = card.text.trim().replace(/\s+/g, " ");
  const short = [...line].length > LONGEST ? `${[...line].slice(0, LONGEST).join("").trimEnd()}…` : line;
  const quoted = short === "" ? "a detail without words" : `'${short}'`;
  return about === "" ? quoted : `${about}: ${quoted}`;
};

const KIND_WORDS = { solo: "solo work", drill: "drill", run: "run", gig: "gig" } as const;
const MONTHS = "January February March April May June July August September October November December".split(
  " ",
);

/** A take in words, e.g. `the run of 4 March`. The day comes from its occasion, so no time zone is needed. */
export const takeName = (take: Take): string => {
  const day = /(\d{4})-(\d{2})-(\d{2})$/.exec(take.occasion);
  const what = `the ${KIND_WORDS[take.kind]}`;
  const month = day ? MONTHS[Number(day[2]) - 1] : undefined;
  return day && month ? `${what} of ${Number(day[3])} ${month}` : what;
};

/** `a`, `a and b`, `a, b and c`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

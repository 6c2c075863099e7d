import { listed } from "../../readiness/names.ts";
import { GROUPS, type Group, type Item } from "./item.ts";

/** What a group is called, and how its items are counted. */
export const GROUP_WORDS: {
  readonly [G in Group]: { readonly title: string; readonly one: string; readonly many: string };
} = {
  rulings: { title: "Rulings", one: "1 ruling", many: "rulings" },
  details: { title: "Details for you", one: "1 detail for you", many: "details for you" },
  questions: { title: "Questions", one: "1 question", many: "questions" },
  songs: { title: "Your songs", one: "1 song", many: "songs" },
  seats: { title: "Who plays what", one: "1 change of seats", many: "changes of seats" },
  dates: { title: "Gigs and rehearsals", one: "1 date", many: "dates" },
  log: { title: "Played and marked", one: "1 entry of the log", many: "entries of the log" },
};

/** `4 rulings, 3 details for you and 2 questions`. */
export const countsSentence = (items: readonly Pick<Item, "group">[]): string =>
  listed(
    GROUPS.flatMap((group) => {
      const count = items.filter((item) => item.group === group).length;
      if (count === 0) return [];
      return [count === 1 ? GROUP_WORDS[group].one : `${count} ${GROUP_WORDS[group].many}`];
    }),
  );

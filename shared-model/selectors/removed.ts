import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { BoardDocument } from "../document/board-document.ts";
import { compareCodeUnits } from "../document/order-key.ts";
import { dayWords } from "../lib/day-words.ts";

export type RemovableMap = "songs" | "chairs" | "people" | "gigs" | "rehearsals";

/** Something that was taken off the board and can be brought back. */
export interface RemovedRecord {
  readonly id: Id;
  readonly name: string;
}

const NAME_FIELD: { readonly [M in Exclude<RemovableMap, "rehearsals">]: string } = {
  songs: "title",
  chairs: "name",
  people: "name",
  gigs: "name",
};

/** What was taken off, by name. The board leaves such records out, so their names come from what is stored. */
export const removedRecords = (
  board: Pick<Board, "removed">,
  stored: Pick<BoardDocument, "get">,
  map: RemovableMap,
): readonly RemovedRecord[] =>
  [...board.removed]
    .filter((key) => key.startsWith(`${map}/`))
    .map((key) => {
      const id = key.slice(map.length + 1);
      // An evening's name is its day.
      const name =
        map === "rehearsals" ? dayWords(id, { weekday: true }) : stored.get(map, `${id}/${NAME_FIELD[map]}`);
      return { id, name: typeof name === "string" && name.trim() !== "" ? name : "without a name" };
    })
    .sort((a, b) => compareCodeUnits(a.name, b.name) || compareCodeUnits(a.id, b.id));

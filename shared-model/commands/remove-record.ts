import * as v from "valibot";
import type { Board } from "../board/board.ts";
import { id } from "../document/schema.ts";
import { cardExists, chairExists, gigExists, personExists, removedExists, songExists } from "./checks.ts";
import { type Command, defineCommand, type Refusal } from "./command.ts";
import { rehearsalExists } from "./plan-rehearsal.ts";

type Removable = "songs" | "cards" | "chairs" | "people" | "gigs" | "rehearsals";

const remove = (
  name: string,
  map: Removable,
  exists: (board: Board, id: string) => Refusal | null,
): Command<{ id: string }> =>
  defineCommand({
    name,
    schema: v.object({ id }),
    check: (board, args) => exists(board, args.id),
    write: (set, args) => set(map, `${args.id}/deleted`, true),
  });

const restore = (name: string, map: Removable): Command<{ id: string }> =>
  defineCommand({
    name,
    schema: v.object({ id }),
    check: (board, args) => removedExists(board, `${map}/${args.id}`),
    write: (set, args) => set(map, `${args.id}/deleted`, false),
  });

/** Taking something off the board marks it; everything said about it stays and comes back with it. */
export const removeSong = remove("removeSong", "songs", songExists);
export const restoreSong = restore("restoreSong", "songs");
export const removeDetail = remove("removeDetail", "cards", cardExists);
export const restoreDetail = restore("restoreDetail", "cards");
export const removeChair = remove("removeChair", "chairs", chairExists);
export const restoreChair = restore("restoreChair", "chairs");
export const removePerson = remove("removePerson", "people", personExists);
export const restorePerson = restore("restorePerson", "people");
export const cancelGig = remove("cancelGig", "gigs", gigExists);
export const restoreGig = restore("restoreGig", "gigs");
/** A rehearsal by its day. */
export const cancelRehearsal = remove("cancelRehearsal", "rehearsals", rehearsalExists);
export const restoreRehearsal = restore("restoreRehearsal", "rehearsals");

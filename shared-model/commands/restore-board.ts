import * as v from "valibot";
import { moment } from "../document/schema.ts";
import { firstOf } from "./checks.ts";
import { defineCommand, type Refusal, refuse } from "./command.ts";
import { isOwnToPut, type RestoreWrite, restoreWrite, writeRestored } from "./restore-write.ts";

/** Most keys one restore writes. */
export const RESTORE_MAX = 20_000;
/** Most characters of JSON they may come to: three bytes each still fit one sync message. */
export const RESTORE_SIZE_MAX = 2_000_000;

const fits = (writes: readonly RestoreWrite[]): Refusal | null => {
  if (writes.length === 0)
    return refuse("conflict", "The board reads as it did then already. There is nothing to put back.");
  return writes.length <= RESTORE_MAX && JSON.stringify(writes).length <= RESTORE_SIZE_MAX
    ? null
    : refuse(
        "invalid",
        "This would change more than one step can carry. Go back to a later moment first, then further.",
      );
};

/**
 * Puts the whole board back to an earlier moment, as a new change: nothing is rewound, so what others do meanwhile
 * merges with it as with any change. What it writes was worked out beforehand (`restoreWrites`).
 */
export const restoreBoard = defineCommand({
  name: "restoreBoard",
  leaderOnly: true,
  schema: v.object({
    /** The moment (ms, server clock) the board goes back to. */
    moment,
    writes: v.array(restoreWrite),
  }),
  check: (_board, { writes }) => fits(writes),
  write: (set, { writes }, context) => writeRestored(set, writes, context),
});

/**
 * Puts back what one entry of the history changed: an earlier tempo, wording, mark, place, take. Members put back
 * what they could have changed by hand; the rest is the leader's.
 */
export const putBack = defineCommand({
  name: "putBack",
  schema: v.object({ writes: v.array(restoreWrite) }),
  check: (_board, { writes }, context) =>
    firstOf(
      fits(writes),
      context.author.role === "leader" || writes.every((write) => isOwnToPut(write, context))
        ? null
        : refuse("forbidden", "Only the leader can put this back: it is not yours, or not for members."),
    ),
  write: (set, { writes }, context) => writeRestored(set, writes, context),
});

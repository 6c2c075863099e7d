import * as v from "valibot";
import { line, name } from "../document/schema.ts";
import { isTimeZone } from "../lib/calendar.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

/** Names the band and says in which time zone its days begin and end. */
export const startBand = defineCommand({
  name: "startBand",
  leaderOnly: true,
  schema: v.object({ name, timeZone: line, tuning: v.optional(line), demo: v.optional(v.boolean()) }),
  check: (_board, { timeZone }) =>
    isTimeZone(timeZone)
      ? null
      : refuse("invalid", `“${timeZone}” is not a time zone we know. Give one such as Europe/Lisbon.`),
  write: (set, args) => setFields(set, "band", [], args),
});

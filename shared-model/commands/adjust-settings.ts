import * as v from "valibot";
import { defineCommand } from "./command.ts";

/** Sets the band's own constants; a constant that is not given goes back to its default. */
export const adjustSettings = defineCommand({
  name: "adjustSettings",
  leaderOnly: true,
  schema: v.object({
    settings: v.record(
      v.string(),
      v.union([v.number(), v.array(v.number()), v.record(v.string(), v.number())]),
    ),
  }),
  write: (set, { settings }) => set("band", "settings", settings),
});

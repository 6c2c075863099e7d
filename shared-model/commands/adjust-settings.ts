import * as v from "valibot";
import { CONSTANT_STARTS, constantIn, constantsOfRecord, isConstant } from "../document/constant-keys.ts";
import { defineCommand, refuse } from "./command.ts";

/** Constants by key; null = back to where it starts. What is not named stays as it is. */
const changes = v.object({ changes: v.record(v.string(), v.nullable(v.number())) });

/** All own constants as one record; what is not named goes back to where it starts. Older outboxes hold this. */
const whole = v.object({
  settings: v.record(
    v.string(),
    v.union([v.number(), v.array(v.number()), v.record(v.string(), v.number())]),
  ),
});

type Args = v.InferOutput<typeof changes> | v.InferOutput<typeof whole>;

const wanted = (args: Args): readonly (readonly [string, number | null])[] => {
  if ("changes" in args) return Object.entries(args.changes);
  const { constants } = constantsOfRecord(args.settings);
  return [...CONSTANT_STARTS.keys()].map((key) => [key, constants.get(key) ?? null] as const);
};

/**
 * Sets the band's own constants, a key for each that changes and none for the others, so that two leaders who change
 * different constants at the same time both get what they asked for.
 */
export const adjustSettings = defineCommand({
  name: "adjustSettings",
  leaderOnly: true,
  schema: v.union([changes, whole]),
  check: (_board, args) => {
    const odd = wanted(args).find(([key, value]) =>
      value === null ? !CONSTANT_STARTS.has(key) : !isConstant(key, value),
    );
    return odd === undefined
      ? null
      : refuse(
          "invalid",
          `“${odd[0]}” cannot be set to that. Choose a number that the settings page offers.`,
        );
  },
  write: (set, args, _context, { band }) => {
    for (const [key, value] of wanted(args)) {
      const start = CONSTANT_STARTS.get(key);
      const next = value ?? start;
      if (next !== constantIn(band.settings, key))
        set("settings", key, next === start ? null : (value ?? null));
    }
  },
});

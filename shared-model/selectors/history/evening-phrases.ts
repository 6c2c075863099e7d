/** What was done to rehearsals and days away, in words without the person who did it. */

import type { KeyChange } from "../../document/stored-values.ts";
import { isDay } from "../../lib/calendar.ts";
import { dayWords } from "../../lib/day-words.ts";
import { fieldPhrase, fieldPhrases, presencePhrase } from "./field-phrases.ts";
import { fieldsIn } from "./record-phrases.ts";
import { entryOf, type StoredNames, textOf } from "./stored-names.ts";

const dayOr = (day: string): string => (isDay(day) ? dayWords(day, { weekday: true }) : "an unknown day");

const attendancePhrase = ({ key, after }: KeyChange, evening: string, names: StoredNames): string => {
  const who = names.person(key.split("/")[1] ?? "");
  if (entryOf(after, "here") === false) return `said that ${who} does not come to ${evening}`;
  const [from, to] = [entryOf(after, "from"), entryOf(after, "to")];
  if (typeof to === "number") return `said when ${who} leaves ${evening}`;
  return typeof from === "number"
    ? `said when ${who} comes to ${evening}`
    : `said that ${who} is at ${evening}`;
};

const standInPhrase = ({ key, after }: KeyChange, evening: string, names: StoredNames): string => {
  const chair = names.chair(key.split("/")[1] ?? "");
  return after === ""
    ? `left ${chair} to its usual player at ${evening}`
    : `put ${names.person(String(after))} on ${chair} at ${evening}`;
};

const pinPhrase = ({ key, after }: KeyChange, evening: string, names: StoredNames): string => {
  const song = names.song(key.split("/")[1] ?? "");
  if (after === "must") return `asked for ${song} at ${evening}`;
  return after === "not tonight"
    ? `left ${song} out of ${evening}`
    : `left it open whether ${song} is played at ${evening}`;
};

export const rehearsalPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const evening = `the rehearsal of ${dayOr(id)}`;
  const fields = fieldsIn(changes, "rehearsals");
  const presence = presencePhrase(fields, "booked", {
    added: `put ${evening} on the calendar`,
    removed: `called ${evening} off`,
    restored: `put ${evening} back on the calendar`,
  });
  const at = ({ field, before, after }: { field: string; before: unknown; after: unknown }, label: string) =>
    fieldPhrase(label, evening, { field, before, after });
  return [
    ...(presence !== null
      ? [presence]
      : fieldPhrases(fields, {
          place: (change) => at(change, "place"),
          start: (change) => at(change, "start"),
          booked: (change) => at(change, "booked minutes"),
          setUp: (change) => at(change, "minutes for set-up"),
          pause: (change) => at(change, "minutes for the pause"),
          packDown: (change) => at(change, "minutes for pack-down"),
          gig: ({ after }) =>
            typeof after === "string"
              ? `said that ${evening} is for ${names.gig(after)}`
              : `left open which gig ${evening} is for`,
          startedAt: ({ after }) =>
            after === null ? `took back that ${evening} has begun` : `began ${evening}`,
          endedAt: ({ after }) => (after === null ? `went on with ${evening}` : `ended ${evening}`),
          plan: ({ after }) =>
            Array.isArray(after) && after.length > 0
              ? `planned ${after.length === 1 ? "1 song" : `${after.length} songs`} for ${evening}`
              : `took the plan of ${evening} back`,
        })),
    ...changes
      .filter(({ map }) => map === "attendance")
      .map((change) => attendancePhrase(change, evening, names)),
    ...changes.filter(({ map }) => map === "standIns").map((change) => standInPhrase(change, evening, names)),
    ...changes.filter(({ map }) => map === "pins").map((change) => pinPhrase(change, evening, names)),
  ];
};

export const awayPhrases = (changes: readonly KeyChange[], names: StoredNames): readonly string[] =>
  changes.map(({ before, after }) => {
    const who = names.person(textOf(after, "person"));
    const [from, to] = [textOf(after, "from"), textOf(after, "to")];
    const when = from === to ? `on ${dayOr(from)}` : `from ${dayOr(from)} to ${dayOr(to)}`;
    if (entryOf(after, "withdrawn") === true) return `took back that ${who} is away ${when}`;
    return before === undefined
      ? `said that ${who} is away ${when}`
      : `said again that ${who} is away ${when}`;
  });

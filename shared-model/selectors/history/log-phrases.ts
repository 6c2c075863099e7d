/** What was done to takes, rulings, questions and gigs, in words without the person who did it. */
import { GATES } from "../../board/gate.ts";
import { isPartCardId } from "../../board/ids.ts";
import { NONE } from "../../document/root-maps.ts";
import type { KeyChange } from "../../document/stored-values.ts";
import { partOf } from "../../history/record-ref.ts";
import { GATE_WORDS } from "../gate-lines.ts";
import { fieldPhrase, fieldPhrases, presencePhrase } from "./field-phrases.ts";
import { fieldsIn } from "./record-phrases.ts";
import { entryOf, quoted, type StoredNames, textOf } from "./stored-names.ts";

const KINDS: { readonly [kind: string]: string } = {
  solo: "solo work on",
  drill: "a drill of",
  run: "a run of",
  gig: "a gig performance of",
};
const CLEAN_KINDS: { readonly [kind: string]: string } = {
  solo: "clean solo work on",
  drill: "a clean drill of",
  run: "a clean run of",
  gig: "a clean gig performance of",
};
const FEELS: { readonly [feel: string]: string } = { wobble: " with a wobble", stopped: " that stopped" };

const takeWords = (mark: unknown, song: string): string => {
  const [kind, feel] = [textOf(mark, "kind"), textOf(mark, "feel")];
  const what = (feel === "clean" ? CLEAN_KINDS : KINDS)[kind] ?? "a take of";
  return `${what} ${song}${FEELS[feel] ?? ""}`;
};

const slipPhrase = ({ key, after }: KeyChange, song: string, names: StoredNames): string => {
  const [, , , chair = NONE, card = NONE] = key.split("/");
  const what = entryOf(after, "severity") === 0 ? "withdrew a slip" : "flagged a slip";
  if (card !== NONE)
    return isPartCardId(card)
      ? `${what} of ${names.chair(partOf(card).split("/")[1] ?? "")} in ${song}`
      : `${what} on ${names.detailInSong(card)}`;
  return chair === NONE ? `${what} in ${song}` : `${what} of ${names.chair(chair)} in ${song}`;
};

export const takePhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const song = names.song(id.split("/")[1] ?? "");
  const takes = changes.filter(({ map }) => map === "takes");
  const slips = changes.filter(({ map }) => map === "slips");
  const phrases = takes.map(({ before, after }) => {
    const words = takeWords(after, song);
    if (entryOf(after, "withdrawn") === true)
      return before === undefined ? `logged ${words} and took it back` : `took ${words} back out of the log`;
    return entryOf(before, "withdrawn") === true ? `put ${words} back into the log` : `logged ${words}`;
  });
  if (takes.length === 0) return slips.map((slip) => slipPhrase(slip, song, names));
  const flagged = slips.filter(({ after }) => entryOf(after, "severity") !== 0).length;
  return flagged === 0
    ? phrases
    : [...phrases, flagged === 1 ? "flagged a slip in it" : `flagged ${flagged} slips in it`];
};

export const rulingPhrases = (changes: readonly KeyChange[], names: StoredNames): readonly string[] =>
  changes.map(({ before, after }) => {
    const about = textOf(after, "about");
    const on = `the ${about || "playing"} of ${names.song(textOf(after, "song"))}`;
    if (entryOf(after, "withdrawn") === true) return `withdrew the ruling on ${on}`;
    const text = quoted(entryOf(after, "text"));
    return before === undefined ? `ruled on ${on}: ${text}` : `put the ruling on ${on} back: ${text}`;
  });

export const questionPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const asked = names.get("questions", id);
  const text = quoted(entryOf(asked, "text")) || "a question";
  const about = `about ${names.song(textOf(asked, "song"))}`;
  return changes.map(({ map, before, after }) => {
    const gone = entryOf(after, "withdrawn") === true;
    if (map === "questions")
      return gone ? `withdrew the question ${text} ${about}`
        : before !== undefined && entryOf(after, "settled") === true && entryOf(before, "settled") !== true
          ? `said that the question ${text} ${about} is settled`
        : before === undefined && entryOf(after, "ruling") ? `saw a ruling on ${names.song(textOf(asked, "song"))} differently: ${text}`
        : before === undefined && entryOf(after, "to")
          ? `asked ${names.person(textOf(after, "to"))} ${text} ${about}`
        : before === undefined ? `asked ${text} ${about}`
        : `put the question ${text} ${about} back`;
    return gone
      ? `withdrew an answer to ${text}`
      : `answered ${text} ${about}: ${quoted(entryOf(after, "text"))}`;
  }); // biome-ignore format: one decision
};

const seatPhrase = ({ key, after }: KeyChange, gig: string, names: StoredNames): string => {
  const chair = names.chair(key.split("/")[1] ?? "");
  if (after === null) return `gave ${chair} back to its usual player for ${gig}`;
  return after === ""
    ? `left ${chair} empty for ${gig}`
    : `put ${names.person(String(after))} on ${chair} for ${gig}`;
};

const waiverPhrase = ({ key, after }: KeyChange, gig: string, names: StoredNames): string => {
  const [, song = "", name = ""] = key.split("/");
  const gate = GATES.find((known) => known === name);
  const words = gate === undefined ? "a gate" : `the gate ‘${GATE_WORDS[gate]}’`;
  const at = `for ${names.song(song)} at ${gig}`;
  return entryOf(after, "withdrawn") === true
    ? `no longer lets ${words} pass ${at}`
    : `let ${words} pass ${at}`;
};

const setPhrases = (changes: readonly KeyChange[], gig: string, names: StoredNames): readonly string[] => {
  const song = ({ key }: KeyChange): string => names.song(key.split("/")[1] ?? "");
  const on = (field: string) =>
    changes.filter(({ map, key }) => map === "setSongs" && key.endsWith(`/${field}`));
  const counted = (
    list: readonly KeyChange[],
    one: (name: string) => string,
    many: (n: number) => string,
  ) => {
    const [first] = list;
    if (first === undefined) return [];
    return [list.length === 1 ? one(song(first)) : many(list.length)];
  };
  const called = on("called").filter(({ after }) => after === true);
  const dropped = on("called").filter(({ before, after }) => after !== true && before === true);
  const moved = on("order").filter(({ before }) => before !== undefined);
  return [
    ...counted(called, (name) => `called ${name} for ${gig}`, (n) => `called ${n} songs for ${gig}`),
    ...counted(dropped, (name) => `dropped ${name} from ${gig}`, (n) => `dropped ${n} songs from ${gig}`),
    ...(called.length > 0 ? [] : counted(moved, (name) => `moved ${name} at ${gig}`, () => `changed the order of ${gig}`)),
    ...on("key").map((change) => fieldPhrase(`key at ${gig}`, song(change), { field: "key", ...change })),
    ...on("tempo").map((change) => fieldPhrase(`tempo at ${gig}`, song(change), { field: "tempo", ...change })),
    ...on("tuning").map((change) => fieldPhrase(`tuning at ${gig}`, song(change), { field: "tuning", ...change })),
    ...(called.length > 0 ? [] : counted(on("block"), (name) => `moved ${name} to another block of ${gig}`, (n) => `moved ${n} songs to another block of ${gig}`)),
    ...on("askedBy").map((change) => requestPhrase(change.after, song(change), gig)),
    ...on("keyAsked").map((change) => keyAskedPhrase(change.after, song(change), gig)),
    ...on("leftOut").map((change) => `said that ${song(change)} was ${change.after === true ? "left out" : "not left out"} at ${gig}`),
    ...on("floorDid").map((change) => floorPhrase(change.after, song(change), gig)),
    ...on("pin").map((change) => pinPhrase(change, song(change), gig)),
  ]; // biome-ignore format: one sentence a line
};

const pinPhrase = (
  { before, after }: Pick<KeyChange, "before" | "after">,
  song: string,
  gig: string,
): string => {
  if (after === "here") return `pinned ${song} to its place at ${gig}`;
  if (after === "must") return `said that ${song} must be played at ${gig}`;
  if (after === "not tonight") return `said that ${song} is not to be played at ${gig}`;
  return before === undefined || before === ""
    ? `asked nothing of ${song} at ${gig}`
    : `took back what was asked of ${song} at ${gig}`;
};

const keyAskedPhrase = (after: unknown, song: string, gig: string): string => {
  const key = typeof after === "object" && after !== null && "key" in after ? after.key : null;
  return key === null
    ? `answered or took back the key that was asked for ${song} at ${gig}`
    : `asked for ${song} in ${key} at ${gig}`;
};

const requestPhrase = (after: unknown, song: string, gig: string): string =>
  typeof after === "string" && after !== ""
    ? `wrote down that ${after} asked for ${song} at ${gig}`
    : `took back that somebody asked for ${song} at ${gig}`;

const floorPhrase = (after: unknown, song: string, gig: string): string => {
  if (after === "filled" || after === "emptied") return `said that ${song} ${after} the floor at ${gig}`;
  return after === "stayed"
    ? `said that the floor stayed for ${song} at ${gig}`
    : `took back what ${song} did to the floor at ${gig}`;
};

export const gigPhrases = (changes: readonly KeyChange[], id: string, names: StoredNames) => {
  const gig = names.gig(id);
  const fields = fieldsIn(changes, "gigs");
  const presence = presencePhrase(fields, "date", {
    added: `put the gig ${gig} on the calendar`,
    removed: `called the gig ${gig} off`,
    restored: `put the gig ${gig} back on the calendar`,
  });
  return [
    ...(presence !== null
      ? [presence]
      : fieldPhrases(fields, {
          name: ({ before }) => `renamed the gig ${quoted(before)} to ${gig}`,
          place: (change) => fieldPhrase("place", gig, change),
          date: (change) => fieldPhrase("day", gig, change),
          minutes: (change) => fieldPhrase("playing minutes", gig, change),
          blocks: () => `changed the blocks of ${gig}`,
          arc: () => `drew another arc for ${gig}`,
          talk: (change) => fieldPhrase("minutes of talk", gig, change),
          call: (change) => fieldPhrase("call time", gig, change),
          start: (change) => fieldPhrase("start", gig, change),
          dress: (change) => fieldPhrase("dress", gig, change),
          note: () => `rewrote the note on ${gig}`,
          contact: (change) => fieldPhrase("contact", gig, change),
        })),
    ...setPhrases(changes, gig, names),
    ...changes.filter(({ map }) => map === "lineUps").map((change) => seatPhrase(change, gig, names)),
    ...changes.filter(({ map }) => map === "waivers").map((change) => waiverPhrase(change, gig, names)),
  ];
};

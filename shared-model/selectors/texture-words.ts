/** Who plays when, in words. */
import type { Presence, TextureChange, TextureChanges } from "../board/texture.ts";
import { EVERY_PASS, ownPasses, type Stretch, stretchesOf } from "../music/texture-changes.ts";

/** What a chair does, to follow its name; by `Presence`, and by anything a stored record may say instead. */
export const PRESENCE_VERBS: ReadonlyMap<string, string> = new Map<Presence, string>([
  ["rest", "rests"],
  ["light", "plays lightly"],
  ["play", "plays"],
  ["full", "plays full"],
]);

const OUR_VERBS: { readonly [P in Presence]: string } = {
  rest: "rest",
  light: "play lightly",
  play: "play",
  full: "play full",
};

/** Who it is said of: a chair (*rests*), or us (*rest*). */
export type Speaker = "it" | "we";

const verb = (presence: Presence, speaker: Speaker): string =>
  speaker === "we" ? OUR_VERBS[presence] : (PRESENCE_VERBS.get(presence) ?? presence);

const ORDINALS = ["", "first", "second", "third", "fourth"];

/** `second time`, `7th time`. */
export const timeWords = (pass: number): string => `${ORDINALS[pass] ?? `${pass}th`} time`;

const runWords = ([first, ...then]: readonly Stretch[], speaker: Speaker): string => {
  if (first === undefined) return "";
  const next = then[0];
  if (first.presence === "rest" && next !== undefined) {
    const waits = `${speaker === "we" ? "wait" : "waits"} until bar ${next.bar}, then ${verb(next.presence, speaker)}`;
    return [
      waits,
      ...then.slice(1).map(({ bar, presence }) => `from bar ${bar} ${verb(presence, speaker)}`),
    ].join(", ");
  }
  return [
    verb(first.presence, speaker),
    ...then.map(({ bar, presence }) => `from bar ${bar} ${verb(presence, speaker)}`),
  ].join(", ");
};

/** `waits until bar 9, then plays; the second time plays full`; empty when nothing is said. */
export const playedWords = (changes: TextureChanges, bars: number, speaker: Speaker = "it"): string => {
  const every = runWords(stretchesOf(changes, bars, EVERY_PASS), speaker);
  const own = ownPasses(changes)
    .map((pass) => ({ pass, words: runWords(stretchesOf(changes, bars, pass), speaker) }))
    .filter(({ words }) => words !== every)
    .map(({ pass, words }) => `the ${timeWords(pass)} ${words}`);
  return [every, ...own].filter((words) => words !== "").join("; ");
};

/** One entry by itself: `from bar 9, second time only: full`. */
export const changeWords = ({ bar, pass, presence }: TextureChange): string =>
  `from bar ${bar}${pass === null ? "" : `, ${timeWords(pass)} only`}: ${presence}`;

/** A running order in words: what each join asks, what is wrong with a block, why a song is not in it. */
import { formatLength } from "../music/duration.ts";
import { bestInsertion } from "../order/insertions.ts";
import { RETUNE_SECONDS, type SetBrief, type SetOrder, type SetSong } from "../order/set-facts.ts";
import {
  blockSeconds,
  HARD_IN_A_ROW,
  joinTerms,
  LEADS_IN_A_ROW,
  minutesOff,
  type OrderTerm,
  orderTerms,
} from "../order/terms.ts";
import { listed, type Names } from "../readiness/names.ts";

/** A tempo step below this share of its weight is not worth a word. */
const SAID_TEMPO = 0.5;

const tuningWords = (tuning: string): string => {
  const [name = "", capo = "0"] = tuning.split("|");
  const said = name === "" ? "the usual tuning" : name;
  return capo === "0" ? said : `${said}, capo ${capo}`;
};

/** What a song is played in that night: `D · 112 · standard · capo 2`. */
export const songWords = ({ key, tempo, tuning }: Pick<SetSong, "key" | "tempo" | "tuning">): string => {
  const [name = "", capo = "0"] = tuning.split("|");
  return [key, tempo === null ? "" : String(tempo), name, capo === "0" ? "" : `capo ${capo}`]
    .filter((word) => word !== "")
    .join(" · ");
};

/** What has to happen between two songs; empty = they join well. */
export const joinWords = (from: SetSong, to: SetSong): readonly string[] => {
  const terms = joinTerms(from, to);
  return [
    terms.tuning > 0
      ? `retune: ${tuningWords(from.tuning)} to ${tuningWords(to.tuning)}, ${RETUNE_SECONDS} s`
      : "",
    terms.rig > 0 ? (to.rig === "" ? `back from ${from.rig}` : `change to ${to.rig}`) : "",
    terms.floor > 0 ? "the floor empties" : "",
    terms.tempo > SAID_TEMPO ? `a big step in tempo: ${from.tempo} to ${to.tempo}` : "",
    terms.key > 0 ? `${to.key} twice in a row` : "",
  ].filter((words) => words !== "");
};

export interface OrderRow {
  readonly song: string;
  /** Seconds from the start of the block. */
  readonly startsAt: number;
  /** What happens before it. */
  readonly join: readonly string[];
}

export interface OrderBlock {
  readonly minutes: number;
  readonly seconds: number;
  readonly rows: readonly OrderRow[];
  /** What a player would warn of. */
  readonly warnings: readonly string[];
}

const minuteWords = (minutes: number): string =>
  minutes < 1
    ? `${Math.round(minutes * 60)} seconds`
    : `${Math.round(minutes)} ${Math.round(minutes) === 1 ? "minute" : "minutes"}`;

/** Runs of songs for which `same` holds from one to the next, as their lengths and first places. */
const runsOf = (
  songs: readonly SetSong[],
  same: (before: SetSong, song: SetSong) => boolean,
): readonly { readonly from: number; readonly length: number }[] => {
  const runs: { from: number; length: number }[] = [];
  songs.forEach((song, i) => {
    const before = songs[i - 1];
    const last = runs.at(-1);
    if (before !== undefined && last !== undefined && same(before, song)) last.length += 1;
    else runs.push({ from: i, length: 1 });
  });
  return runs;
};

const warningsOf = (
  songs: readonly SetSong[],
  block: SetBrief["blocks"][number],
  seconds: number,
  names: Names,
): readonly string[] => {
  const said: string[] = [];
  const off = minutesOff(seconds, block);
  if (songs.length > 0 && off > 0)
    said.push(
      seconds / 60 > block.minutes
        ? `${minuteWords(off)} too long: ${formatLength(seconds)} in ${block.minutes} minutes.`
        : `${minuteWords(block.minutes - seconds / 60)} short of the ${block.minutes} that are booked.`,
    );
  const sameLead = (a: SetSong, b: SetSong): boolean => a.lead !== null && a.lead === b.lead;
  for (const { from, length } of runsOf(songs, (a, b) => sameLead(a, b) && a.hardToSing && b.hardToSing)) {
    const lead = songs[from]?.lead;
    if (length > HARD_IN_A_ROW && songs[from]?.hardToSing && lead)
      said.push(`${length} hard sings in a row for ${names.member(lead)}, from number ${from + 1} on.`);
  }
  for (const { from, length } of runsOf(songs, sameLead)) {
    const lead = songs[from]?.lead;
    // Where one singer leads the whole block there is nothing to choose.
    if (length > LEADS_IN_A_ROW && length < songs.length && lead)
      said.push(`${length} leads in a row for ${names.member(lead)}, from number ${from + 1} on.`);
  }
  const retunes = songs.filter((song, i) => i > 0 && song.tuning !== songs[i - 1]?.tuning).length;
  if (retunes > 1) said.push(`${retunes} retunings or capo changes within the block.`);
  for (const { from, length } of runsOf(songs, (a, b) => a.key !== "" && a.key === b.key))
    if (length > 2) said.push(`${length} songs in ${songs[from]?.key} in a row, from number ${from + 1} on.`);
  return said;
};

/** Reads an order block by block. */
export const readOrder = (order: SetOrder, brief: SetBrief, names: Names): readonly OrderBlock[] => {
  const byId = new Map(brief.songs.map((song) => [song.id, song]));
  return brief.blocks.map((block, b) => {
    const songs = (order[b] ?? []).flatMap((id) => byId.get(id) ?? []);
    const seconds = blockSeconds(songs, brief);
    const rows = songs.map((song, i): OrderRow => {
      const before = songs[i - 1];
      const upTo = blockSeconds(songs.slice(0, i + 1), { ...brief, talkSeconds: 0 });
      return {
        song: song.id,
        startsAt: upTo - song.seconds,
        join: before === undefined ? [] : joinWords(before, song),
      };
    });
    return { minutes: block.minutes, seconds, rows, warnings: warningsOf(songs, block, seconds, names) };
  });
};

const TERM_WORDS: Readonly<Record<OrderTerm, readonly [dearer: string, cheaper: string]>> = {
  arc: ["it lies off the arc", "it lies nearer the arc"],
  value: ["it leaves out better songs", "it plays better songs"],
  opener: ["weaker openers", "stronger openers"],
  closer: ["weaker closers", "stronger closers"],
  tempo: ["bigger steps in tempo", "smaller steps in tempo"],
  floor: ["the floor empties more", "the floor empties less"],
  key: ["more songs in one key in a row", "fewer songs in one key in a row"],
  tuning: ["more retuning", "less retuning"],
  rig: ["more changes of instrument", "fewer changes of instrument"],
  kept: ["less of what stands is kept", "more of what stands is kept"],
  leads: ["more leads in a row", "fewer leads in a row"],
  voice: ["more hard sings in a row", "fewer hard sings in a row"],
  minutes: ["the minutes fit less well", "the minutes fit better"],
  must: ["a song that must be played is missing", "every must is played"],
  pin: ["a pinned song is moved", "pinned songs are at their places"],
};

/** A difference in cost below this is not told. */
const TOLD = 0.05;

const changes = (terms: Readonly<Record<OrderTerm, number>>, which: 0 | 1, most: number): readonly string[] =>
  (Object.entries(terms) as [OrderTerm, number][])
    .filter(([, change]) => (which === 0 ? change > TOLD : change < -TOLD))
    .sort(([, a], [, b]) => (which === 0 ? b - a : a - b))
    .slice(0, most)
    .map(([term]) => TERM_WORDS[term][which]);

/** What another order is better and worse at than the one that stands, the biggest first. */
export const compareOrders = (
  from: SetOrder,
  to: SetOrder,
  brief: SetBrief,
): { readonly better: readonly string[]; readonly worse: readonly string[] } => {
  const [a, b] = [orderTerms(from, brief), orderTerms(to, brief)];
  const terms = Object.fromEntries(
    Object.keys(a).map((term) => [term, b[term as OrderTerm] - a[term as OrderTerm]]),
  ) as Record<OrderTerm, number>;
  return { better: changes(terms, 1, 4), worse: changes(terms, 0, 3) };
};

/** Why a song is not in the order: where it would fit best, and what that would cost. */
export const whyNot = (
  brief: SetBrief,
  order: SetOrder,
  song: string,
  titleOf: (song: string) => string,
): string => {
  const best = bestInsertion(brief, order, song);
  if (best === null) return "There is no block to put it in.";
  const before = order[best.block]?.[best.at - 1];
  const first = brief.blocks.length === 1 ? "first" : `first in block ${best.block + 1}`;
  const where = before === undefined ? first : `after ${titleOf(before)}`;
  if (best.cost <= 0) return `It would fit ${where} and make the order better.`;
  const singers = new Set(brief.songs.flatMap(({ lead }) => lead ?? []));
  // Where one singer leads everything, leads in a row are no reason.
  const terms = singers.size > 1 ? best.terms : { ...best.terms, leads: 0 };
  const against = changes(terms, 0, 3);
  return `It would fit best ${where}. Against it: ${against.length === 0 ? "a little of everything" : listed(against)}.`;
};

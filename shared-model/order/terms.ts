/**
 * What an order costs, term by term; the terms sum to the cost. Weights are common practice, with no published source.
 * Governing rule: every term but `must` and `pin` is a sum over blocks, and a block's cost depends on its own songs only.
 */
import { arcAt, RETUNE_SECONDS, type SetBlock, type SetBrief, type SetSong, SHORT_OF } from "./set-facts.ts";

/** The terms of the cost, in the order they are told. */
export const ORDER_TERMS = [
  "arc", "value", "opener", "closer", "tempo", "floor", "key", "tuning", "rig", "kept", "leads", "voice", "minutes", "must", "pin",
] as const; // biome-ignore format: one glance
export type OrderTerm = (typeof ORDER_TERMS)[number];
export type OrderTerms = Readonly<Record<OrderTerm, number>>;

export const ORDER_WEIGHTS: OrderTerms = {
  arc: 2.5,
  value: 1.2,
  opener: 1.5,
  closer: 2,
  tempo: 1,
  floor: 0.8,
  key: 0.35,
  tuning: 0.8,
  rig: 0.4,
  kept: 0.4,
  leads: 0.5,
  voice: 6,
  minutes: 1.5,
  must: 60,
  pin: 60,
};

/** Hard sings and leads in a row by one singer that cost nothing. */
export const HARD_IN_A_ROW = 2;
export const LEADS_IN_A_ROW = 3;

/** Logarithm of a tempo ratio, in octaves, from which on a join costs the whole weight: a step of a third faster. */
const FAR_TEMPO = 0.415;
const FULL_FLOOR = 0.6;
const EMPTY_FLOOR = 0.4;

export const NO_COST: OrderTerms = Object.fromEntries(ORDER_TERMS.map((term) => [term, 0])) as OrderTerms;

export const sumOfTerms = (terms: OrderTerms): number =>
  ORDER_TERMS.reduce((sum, term) => sum + terms[term], 0);

type JoinTerm = "tempo" | "floor" | "key" | "tuning" | "rig";

/** Distance of two tempos from 0 to 1; half and double time are near. */
const tempoStep = (from: number | null, to: number | null): number => {
  if (from === null || to === null) return 0;
  const octaves = Math.abs(Math.log2(to / from));
  return Math.min(1, Math.min(octaves, Math.abs(octaves - 1)) / FAR_TEMPO) ** 2;
};

/** What going from one song straight to another costs. */
export const joinTerms = (from: SetSong, to: SetSong): Readonly<Record<JoinTerm, number>> => ({
  tempo: ORDER_WEIGHTS.tempo * tempoStep(from.tempo, to.tempo),
  floor:
    from.dance > FULL_FLOOR && to.dance < EMPTY_FLOOR ? ORDER_WEIGHTS.floor * (from.dance - to.dance) : 0,
  key: from.key !== "" && from.key === to.key ? ORDER_WEIGHTS.key : 0,
  tuning: from.tuning === to.tuning ? 0 : ORDER_WEIGHTS.tuning,
  rig: from.rig === to.rig ? 0 : ORDER_WEIGHTS.rig,
});

/** Seconds a block lasts: songs, the gaps between them, retuning, talk. */
export const blockSeconds = (
  songs: readonly SetSong[],
  { gapSeconds, talkSeconds }: Pick<SetBrief, "gapSeconds" | "talkSeconds">,
): number => {
  const retunes = songs.filter((song, i) => i > 0 && song.tuning !== songs[i - 1]?.tuning).length;
  const played = songs.reduce((sum, { seconds }) => sum + seconds, 0);
  return played + gapSeconds * Math.max(0, songs.length - 1) + RETUNE_SECONDS * retunes + talkSeconds;
};

/** Minutes by which a block is too long, or shorter than it may be. */
export const minutesOff = (seconds: number, { minutes }: SetBlock): number =>
  Math.max(0, seconds / 60 - minutes, minutes - SHORT_OF - seconds / 60);

/** Pairs that stand beside each other in the order that stands, as `from to`. */
export const standingPairs = ({ standing }: SetBrief): ReadonlySet<string> =>
  new Set(standing.flatMap((block) => block.slice(1).map((song, i) => `${block[i]} ${song}`)));

/** The cost of one block, term by term; `value` is what its songs are worth, below 0. */
export const blockTerms = (
  songs: readonly SetSong[],
  block: SetBlock,
  brief: SetBrief,
  pairs = standingPairs(brief),
): OrderTerms => {
  const terms = { ...NO_COST };
  let [hard, leads] = [0, 0];
  songs.forEach((song, i) => {
    const before = songs[i - 1];
    terms.arc += ORDER_WEIGHTS.arc * (song.energy - arcAt(block.arc, (i + 0.5) / songs.length)) ** 2;
    terms.value -= ORDER_WEIGHTS.value * song.value;
    const same = before !== undefined && song.lead !== null && song.lead === before.lead;
    leads = song.lead === null ? 0 : same ? leads + 1 : 1;
    hard = song.lead === null || !song.hardToSing ? 0 : same ? hard + 1 : 1;
    if (leads > LEADS_IN_A_ROW) terms.leads += ORDER_WEIGHTS.leads;
    if (hard > HARD_IN_A_ROW) terms.voice += ORDER_WEIGHTS.voice;
    if (before === undefined) return;
    const join = joinTerms(before, song);
    for (const term of ["tempo", "floor", "key", "tuning", "rig"] as const) terms[term] += join[term];
    if (pairs.has(`${before.id} ${song.id}`)) terms.kept -= ORDER_WEIGHTS.kept;
  });
  const [first, last] = [songs[0], songs.at(-1)];
  // An empty block has the weakest opener and closer there are.
  terms.opener = ORDER_WEIGHTS.opener * (1 - (first?.opener ?? 0));
  terms.closer = ORDER_WEIGHTS.closer * (1 - (last?.closer ?? 0));
  terms.minutes = ORDER_WEIGHTS.minutes * minutesOff(blockSeconds(songs, brief), block);
  return terms;
};

/** True when a pinned song is at its place. */
const holds = (order: readonly (readonly string[])[], pin: SetBrief["pins"][number]): boolean =>
  order[pin.block]?.at(pin.at) === pin.song;

/** The cost of a whole order, term by term. Ids that are not among the brief's songs are left out. */
export const orderTerms = (order: readonly (readonly string[])[], brief: SetBrief): OrderTerms => {
  const byId = new Map(brief.songs.map((song) => [song.id, song]));
  const pairs = standingPairs(brief);
  const terms = { ...NO_COST };
  brief.blocks.forEach((block, b) => {
    const songs = (order[b] ?? []).flatMap((id) => byId.get(id) ?? []);
    const cost = blockTerms(songs, block, brief, pairs);
    for (const term of ORDER_TERMS) terms[term] += cost[term];
  });
  const played = new Set(order.flat());
  const missing = brief.songs.filter((song) => song.mustPlay && !played.has(song.id)).length;
  terms.must = ORDER_WEIGHTS.must * missing;
  terms.pin = ORDER_WEIGHTS.pin * brief.pins.filter((pin) => !holds(order, pin)).length;
  return terms;
};

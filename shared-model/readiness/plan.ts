/**
 * A song laid out as units, before any evidence: what is scored, for whom, and with which share.
 * Governing rule: units stand in canonical order (chair, then part before cards, then card id; the band last),
 * so that sums come out the same to the last bit whatever order the records arrived in.
 */
import type { Card } from "../board/card.ts";
import { type Id, partCardId } from "../board/ids.ts";
import { castingOf } from "../board/line-up.ts";
import type { ScoreInput } from "./score-input.ts";
import { sinceOf } from "./since.ts";

/** One cell of the board that has something to play. */
export interface PlayingPart {
  readonly chair: Id;
  /** Who plays it in this line-up; null = uncovered. */
  readonly holder: Id | null;
  readonly needed: boolean;
  /** The player who declared "nothing special"; null = nobody did. */
  readonly nothingSpecial: Id | null;
  /** Share of the song, before it is divided among the part's units. */
  readonly share: number;
}

/** (card | the part itself | the band together) × member. */
export interface Unit {
  readonly of: "card" | "part" | "band";
  /** The detail; null for the part itself and the band together. */
  readonly card: Card | null;
  /** Id its statuses are kept under; null for the band together, which has no status. */
  readonly statusId: Id | null;
  /** Null for the band together. */
  readonly chair: Id | null;
  /** Who plays it in this line-up; null = uncovered, or the band together. */
  readonly member: Id | null;
  /** Chairs of a shared card that play this song, its own included; one chair for anything else. */
  readonly chairs: readonly Id[];
  /** Share of the song, w_u; 0 for a cover card. */
  readonly share: number;
  /** Takes before this moment (ms) are no evidence. */
  readonly since: number;
}

export interface SongPlan {
  readonly parts: readonly PlayingPart[];
  /** The units of the score; their shares sum to 1. */
  readonly units: readonly Unit[];
  /** Units of cover cards whose chair is empty: they count in gates and homework, never in the score. */
  readonly covers: readonly Unit[];
}

type PlanInput = Pick<ScoreInput, "file" | "chairs" | "lineUp" | "settings">;

/** Lays a song out for one line-up. */
export const planSong = (input: PlanInput): SongPlan => {
  const parts = partsOf(input);
  const playing = new Set(parts.map((part) => part.chair));
  const onChair = new Map<Id, Placed[]>();
  for (const card of [...input.file.cards].sort(byId)) {
    if (card.without !== undefined && seatIn(input, card.without) !== null) continue;
    const chairs = playingChairs(card, playing);
    if (chairs.length === 0) continue;
    const placed = { card, chairs, since: sinceOf(input.file, card) };
    for (const chair of chairs) {
      const cards = onChair.get(chair);
      if (cards) cards.push(placed);
      else onChair.set(chair, [placed]);
    }
  }
  const units: Unit[] = [];
  const covers: Unit[] = [];
  for (const part of parts) {
    const cards = onChair.get(part.chair) ?? [];
    const { weights } = input.settings;
    let total = weights.part;
    for (const { card } of cards) if (card.without === undefined) total += weights[card.weight];
    units.push(partUnit(input.file.song.id, part, total > 0 ? weights.part / total : 1));
    for (const placed of cards) {
      const { card } = placed;
      if (card.without !== undefined) covers.push(cardUnit(placed, part, 0));
      else units.push(cardUnit(placed, part, total > 0 ? weights[card.weight] / total : 0));
    }
  }
  units.push(bandUnit(parts.length === 0 ? 1 : input.settings.wBand));
  return { parts, units, covers };
};

/** Each once, in canonical order. */
const playingChairs = ({ chairs }: Card, playing: ReadonlySet<Id>): readonly Id[] =>
  chairs.length === 1
    ? chairs.filter((chair) => playing.has(chair))
    : [...new Set(chairs)].filter((chair) => playing.has(chair)).sort();

/** A card with the chairs of it that play the song. */
interface Placed {
  readonly card: Card;
  readonly chairs: readonly Id[];
  readonly since: number;
}

const partUnit = (song: Id, { chair, holder, share }: PlayingPart, inPart: number): Unit => ({
  of: "part",
  card: null,
  statusId: partCardId(song, chair),
  chair,
  member: holder,
  chairs: [chair],
  share: share * inPart,
  since: 0,
});

const cardUnit = (
  { card, chairs, since }: Placed,
  { chair, holder, share }: PlayingPart,
  inPart: number,
): Unit => ({
  of: "card",
  card,
  statusId: card.id,
  chair,
  member: holder,
  chairs,
  share: share * inPart,
  since,
});

/** The parts that play, by chair id; a chair with nothing to play is absent. */
const partsOf = (input: PlanInput): PlayingPart[] => {
  const castings = [...new Set(input.chairs.map((chair) => chair.id))]
    .sort()
    .map((chair) => castingOf(input.file, chair))
    .filter((casting) => casting.plays);
  const relative = (casting: { share: number; needed: boolean }): number =>
    casting.share * (casting.needed ? 1 : input.settings.notNeeded);
  const total = castings.reduce((sum, casting) => sum + relative(casting), 0);
  return castings.map((casting) => ({
    chair: casting.chair,
    holder: seatIn(input, casting.chair),
    needed: casting.needed,
    nothingSpecial: casting.nothingSpecial,
    share: (1 - input.settings.wBand) * (total > 0 ? relative(casting) / total : 1 / castings.length),
  }));
};

const bandUnit = (share: number): Unit => ({
  of: "band",
  card: null,
  statusId: null,
  chair: null,
  member: null,
  chairs: [],
  share,
  since: 0,
});

const seatIn = (input: PlanInput, chair: Id): Id | null => input.lineUp.get(chair) ?? null;

const byId = (a: Card, b: Card): number => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

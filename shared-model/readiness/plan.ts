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
  const onChair = new Map<Id, { card: Card; chairs: readonly Id[]; since: number }[]>();
  for (const card of [...input.file.cards].sort(byId)) {
    const chairs = [...new Set(card.chairs)].filter((chair) => playing.has(chair)).sort();
    if (card.without !== undefined && seatIn(input, card.without) !== null) continue;
    const since = chairs.length > 0 ? sinceOf(input.file, card) : 0;
    for (const chair of chairs) {
      const cards = onChair.get(chair);
      if (cards) cards.push({ card, chairs, since });
      else onChair.set(chair, [{ card, chairs, since }]);
    }
  }
  const units: Unit[] = [];
  const covers: Unit[] = [];
  for (const part of parts) {
    const { weights } = input.settings;
    const cards = onChair.get(part.chair) ?? [];
    let total = weights.part;
    for (const { card } of cards) if (card.without === undefined) total += weights[card.weight];
    const own = { chair: part.chair, member: part.holder };
    units.push({
      ...own,
      of: "part",
      card: null,
      statusId: partCardId(input.file.song.id, part.chair),
      chairs: [part.chair],
      share: part.share * (total > 0 ? weights.part / total : 1),
      since: 0,
    });
    for (const { card, chairs, since } of cards) {
      const cover = card.without !== undefined;
      const share = cover || total <= 0 ? 0 : part.share * (weights[card.weight] / total);
      (cover ? covers : units).push({ ...own, of: "card", card, statusId: card.id, chairs, share, since });
    }
  }
  units.push(bandUnit(parts.length === 0 ? 1 : input.settings.wBand));
  return { parts, units, covers };
};

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

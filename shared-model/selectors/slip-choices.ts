/** What can slip in a take of one song: its musts and lifts, a chair, or nothing anybody can place. */
import type { Chair } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { castingOf } from "../board/line-up.ts";
import type { Severity } from "../board/take.ts";
import { formatWhere } from "../board/where.ts";
import type { Names } from "../readiness/names.ts";
import type { DraftSlip } from "./take-draft.ts";

/** One line to tap. */
export interface SlipChoice {
  readonly chair: Id | null;
  readonly card: Id | null;
  readonly words: string;
  /** Where, and whose: `Outro b8 · Keys`; empty for a chair or nobody. */
  readonly note: string;
}

export interface SlipChoices {
  /** In playing order. */
  readonly musts: readonly SlipChoice[];
  readonly lifts: readonly SlipChoice[];
  /** A slip on a chair, on none of its details. */
  readonly chairs: readonly SlipChoice[];
  readonly nobody: SlipChoice;
}

const NOBODY: SlipChoice = { chair: null, card: null, words: "A slip nobody can place", note: "" };

/** Reads the choices. Details that nobody plays in this song are left out. */
export const slipChoices = (file: SongFile, chairs: readonly Chair[], names: Names): SlipChoices => {
  const playing = chairs.map(({ id }) => id).filter((id) => castingOf(file, id).plays);
  const choice = (card: Card): SlipChoice[] => {
    const on = playing.filter((chair) => card.chairs.includes(chair));
    if (on.length === 0) return [];
    // On a shared detail nobody says whose slip it was: it is on the detail, for all of its chairs.
    const chair = on.length === 1 ? (on[0] ?? null) : null;
    const where = formatWhere(card.where, file.sections);
    const whose =
      on.length > 1 && on.length === playing.length ? "everybody" : on.map(names.chair).join(", ");
    const note = `${where} · ${whose}`;
    return [{ chair, card: card.id, words: card.text || "a detail without words", note }];
  };
  const of = (weight: Card["weight"]) => file.cards.filter((card) => card.weight === weight).flatMap(choice);
  return {
    musts: of("must"),
    lifts: of("lift"),
    chairs: playing.map((chair) => ({ chair, card: null, words: names.chair(chair), note: "" })),
    nobody: NOBODY,
  };
};

type Spot = Pick<SlipChoice, "chair" | "card">;

const same = (a: Spot, b: Spot): boolean => a.chair === b.chair && a.card === b.card;

/** How bad that slip is in a list of slips; 0 = none there. */
export const severityOf = (slips: readonly DraftSlip[], spot: Spot): Severity | 0 =>
  slips.find((slip) => same(slip, spot))?.severity ?? 0;

/** The list with one slip set; severity 0 takes it out. */
export const withSlip = (slips: readonly DraftSlip[], spot: Spot, severity: Severity | 0): DraftSlip[] => [
  ...slips.filter((slip) => !same(slip, spot)),
  ...(severity === 0 ? [] : [{ chair: spot.chair, card: spot.card, severity }]),
];

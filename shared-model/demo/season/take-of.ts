import type { Feel, Severity } from "../../board/take.ts";
import type { CardCode, ChairCode, DemoSlip, DemoTake, SongCode } from "../demo-data.ts";

/** A whole run, with the tempo measured at its start and end (null = nobody measured). */
export const run = (
  song: SongCode,
  feel: Feel,
  tempoStart: number | null = null,
  tempoEnd: number | null = null,
  ...slips: readonly DemoSlip[]
): DemoTake => ({ song, kind: "run", scope: { of: "whole" }, feel, tempoStart, tempoEnd, slips });

/** Some sections worked on at tempo. */
export const piece = (
  song: SongCode,
  sections: readonly string[],
  feel: Feel,
  tempo: number | null = null,
  ...slips: readonly DemoSlip[]
): DemoTake => ({
  song,
  kind: "drill",
  scope: { of: "sections", sections },
  feel,
  tempoStart: tempo,
  tempoEnd: tempo,
  slips,
});

/** One or more details of one song, slow, three times right. */
export const drill = (cards: readonly [CardCode, ...CardCode[]], feel: Feel): DemoTake => ({
  // A card's code starts with its song's two letters, by its type.
  song: cards[0].slice(0, 2) as SongCode,
  kind: "drill",
  scope: { of: "cards", cards },
  feel,
  tempoStart: null,
  tempoEnd: null,
  slips: [],
});

/** Something that went wrong: on a card, by a chair, or by nobody in particular. */
export const slip = (
  card: CardCode | null,
  chair: ChairCode | null = null,
  severity: Severity = 1,
): DemoSlip => ({ card, chair, severity });

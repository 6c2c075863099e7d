/** A detail while somebody writes it: everything as typed, read only when it is handed in. */
import type { Card, CardKind, RulingSource, Weight, Where } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { parseWhere } from "../board/parse-where.ts";
import type { Section } from "../board/song.ts";
import { formatWhere, sameWhere } from "../board/where.ts";
import { err, ok, type Result } from "../lib/result.ts";

export interface DetailDraft {
  readonly text: string;
  readonly right: string;
  readonly kind: CardKind;
  readonly weight: Weight;
  /** The place as typed. */
  readonly where: string;
  readonly chairs: readonly Id[];
  readonly source: RulingSource;
  /** Only while this chair is empty; null = always. */
  readonly without: Id | null;
}

/** A detail before anybody wrote anything, for these chairs. */
export const emptyDraft = (chairs: readonly Id[]): DetailDraft => ({
  text: "",
  right: "",
  kind: "general",
  weight: "lift",
  where: "",
  chairs,
  source: "as recorded",
  without: null,
});

/** A detail as it stands, to be changed. */
export const draftOf = (card: Card, sections: readonly Section[]): DetailDraft => ({
  text: card.text,
  right: card.right,
  kind: card.kind,
  weight: card.weight,
  where:
    card.where.from === undefined && card.where.clock === undefined ? "" : formatWhere(card.where, sections),
  chairs: card.chairs,
  source: card.source,
  without: card.without ?? null,
});

/** A draft as read. */
export interface ReadDraft extends Omit<DetailDraft, "where"> {
  readonly where: Where;
}

export interface DraftFault {
  readonly field: "text" | "where";
  readonly sentence: string;
}

/**
 * Reads a draft. `before` is the detail it changes: a place that was not touched is kept as it is, so that a detail
 * whose section is gone can still be reworded.
 */
export const readDraft = (
  draft: DetailDraft,
  sections: readonly Section[],
  before?: Card,
): Result<ReadDraft, DraftFault> => {
  const text = draft.text.trim();
  if (text === "") return err({ field: "text", sentence: "Say in a few words what to do." });
  const untouched = before !== undefined && draft.where === draftOf(before, sections).where;
  const where = untouched ? ok(before.where) : parseWhere(draft.where, sections);
  if (!where.ok) return err({ field: "where", sentence: where.error });
  return ok({ ...draft, text, right: draft.right.trim(), where: where.value });
};

/** What a draft changes about a detail, for the commands that change it. */
export interface DraftChanges {
  readonly text: boolean;
  readonly right: boolean;
  /** Entries of the body that differ; empty when none does. */
  readonly body: Partial<Pick<ReadDraft, "kind" | "weight" | "where" | "chairs" | "source" | "without">>;
  /** Something changed that a player may have to learn again: what to do, when it is right, where, or its kind. */
  readonly matters: boolean;
}

export const changesIn = (draft: ReadDraft, card: Card): DraftChanges => {
  const text = draft.text !== card.text;
  const right = draft.right !== card.right;
  const moved = !sameWhere(draft.where, card.where);
  const sameChairs =
    draft.chairs.length === card.chairs.length && draft.chairs.every((chair) => card.chairs.includes(chair));
  return {
    text,
    right,
    body: {
      ...(draft.kind === card.kind ? {} : { kind: draft.kind }),
      ...(draft.weight === card.weight ? {} : { weight: draft.weight }),
      ...(moved ? { where: draft.where } : {}),
      ...(sameChairs ? {} : { chairs: draft.chairs }),
      ...(draft.source === card.source ? {} : { source: draft.source }),
      ...(draft.without === (card.without ?? null) ? {} : { without: draft.without }),
    },
    matters: text || right || moved || draft.kind !== card.kind,
  };
};

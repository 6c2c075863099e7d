/** Who covers for an empty chair, and what one player has to play who covers for two. */
import type { Card } from "../../board/card.ts";
import type { Id } from "../../board/ids.ts";
import type { LineUp } from "../../board/line-up.ts";
import type { Presence, TextureChanges } from "../../board/texture.ts";
import { PRESENCE_LEVEL } from "../../music/texture.ts";
import { EVERY_PASS, ownPasses, presenceAt } from "../../music/texture-changes.ts";
import { listed } from "../../readiness/names.ts";
import { playedWords } from "../texture-words.ts";
import type { PaintedPart, Picture } from "./picture.ts";

/** One section for one player on two parts. */
export interface MergedCell {
  readonly section: Id;
  /** The fuller of both, bar by bar; empty = of neither anything is said. */
  readonly changes: TextureChanges;
  /** True when both play at once somewhere in it, so that one has to choose. */
  readonly both: boolean;
}

const fuller = (a: Presence, b: Presence): Presence => (PRESENCE_LEVEL[a] >= PRESENCE_LEVEL[b] ? a : b);

/** The fuller of two readings of a section; no changes where they say nothing new. */
const mergedChanges = (a: TextureChanges, b: TextureChanges, bars: number): TextureChanges =>
  [null, ...ownPasses([...a, ...b])].flatMap((pass) => {
    let last: Presence | null = null;
    return Array.from({ length: bars }, (_, i) => i + 1).flatMap((bar) => {
      const [one, two] = [a, b].map((changes) => presenceAt(changes, bar, pass ?? EVERY_PASS) ?? "rest");
      const presence = fuller(one ?? "rest", two ?? "rest");
      if (presence === last) return [];
      last = presence;
      return [{ bar, pass, presence }];
    });
  });

const playTogether = (a: TextureChanges, b: TextureChanges, bars: number): boolean =>
  [EVERY_PASS, ...ownPasses(a), ...ownPasses(b)].some((pass) =>
    Array.from({ length: bars }, (_, i) => i + 1).some((bar) =>
      [a, b].every((changes) => (presenceAt(changes, bar, pass) ?? "rest") !== "rest"),
    ),
  );

/** Two parts for one player, section by section. */
export const mergedParts = ({ sections }: Picture, a: PaintedPart, b: PaintedPart): readonly MergedCell[] =>
  sections.map(({ id, bars }, s) => {
    const [one, two] = [a.cells[s]?.changes ?? [], b.cells[s]?.changes ?? []];
    if (one.length === 0 && two.length === 0) return { section: id, changes: [], both: false };
    return { section: id, changes: mergedChanges(one, two, bars), both: playTogether(one, two, bars) };
  });

export interface PairForOne {
  /** `Guitar 1 and Guitar 2 for one player`. */
  readonly title: string;
  /** A section each: `Chorus 1: plays full; both play, so choose`. */
  readonly lines: readonly string[];
}

const isPainted = ({ cells }: PaintedPart): boolean => cells.some(({ from }) => from !== null);

/** Every pair of painted parts of one instrument, as one player would have to play it. */
export const pairsForOne = (picture: Picture): readonly PairForOne[] =>
  picture.parts.flatMap((a, i) =>
    picture.parts.slice(i + 1).flatMap((b) => {
      if (a.instrument !== b.instrument || a.instrument === "other" || !isPainted(a) || !isPainted(b))
        return [];
      const cells = mergedParts(picture, a, b);
      const lines = picture.sections.map(({ name, bars }, s) => {
        const { changes = [], both = false } = cells[s] ?? {};
        const words = playedWords(changes, bars) || "not painted";
        return `${name}: ${words}${both ? "; both play, so choose" : ""}`;
      });
      return [{ title: `${a.name} and ${b.name} for one player`, lines }];
    }),
  );

/** What an empty chair means. Null = somebody sits there. */
export const coverWords = (
  picture: Picture,
  {
    lineUp,
    cards,
    gig,
  }: { readonly lineUp: LineUp; readonly cards: readonly Card[]; readonly gig: string | null },
  part: PaintedPart,
): string | null => {
  if ((lineUp.get(part.chair) ?? null) !== null) return null;
  const covers = cards.filter(({ without }) => without === part.chair).length;
  const twin = picture.parts.find(
    ({ chair, instrument }) =>
      chair !== part.chair &&
      instrument === part.instrument &&
      instrument !== "other" &&
      (lineUp.get(chair) ?? null) !== null,
  );
  const both =
    twin === undefined
      ? []
      : mergedParts(picture, twin, part).flatMap(({ both }, s) =>
          both ? [picture.sections[s]?.name ?? ""] : [],
        );
  return [
    `Nobody is on ${part.name}${gig === null ? "" : ` at ${gig}`}.`,
    twin === undefined
      ? ""
      : both.length === 0
        ? `${twin.name} could cover all of it.`
        : `${twin.name} could cover it; both play in ${listed(both)}.`,
    covers === 0
      ? "No detail says who covers."
      : covers === 1
        ? "1 detail says who covers."
        : `${covers} details say who covers.`,
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
};

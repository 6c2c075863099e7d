import type { SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Scope } from "../board/take.ts";
import { sectionsOf } from "./since.ts";

/**
 * True when a take of this scope went through the detail from end to end.
 * A detail about the whole song needs every section of the form.
 */
export const coversCard = (scope: Scope, file: Pick<SongFile, "sections">, card: Card): boolean => {
  if (scope.of === "whole") return true;
  if (scope.of === "cards") return scope.cards.includes(card.id);
  const stretch = sectionsOf(file, card);
  return stretch.length === 0
    ? coversForm(scope.sections, file)
    : stretch.every((section) => scope.sections.includes(section));
};

/** True when a take of this scope went through a whole part. */
export const coversPart = (scope: Scope, file: Pick<SongFile, "sections">, partCard: Id): boolean => {
  if (scope.of === "whole") return true;
  if (scope.of === "cards") return scope.cards.includes(partCard);
  return coversForm(scope.sections, file);
};

const coversForm = (sections: readonly Id[], file: Pick<SongFile, "sections">): boolean =>
  file.sections.length > 0 && file.sections.every((section) => sections.includes(section.id));

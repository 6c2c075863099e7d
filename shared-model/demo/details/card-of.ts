import type { CardKind, Weight } from "../../board/card.ts";
import type { CardCode, DemoCard, Levels } from "../demo-data.ts";

/** One detail as a row: which, how much it matters, what about, where, who and how far, what, right when. */
export const card = (
  code: CardCode,
  [weight, kind]: readonly [Weight, CardKind],
  where: string,
  levels: Levels,
  text: string,
  right: string,
  more: Partial<Pick<DemoCard, "source" | "without">> = {},
): DemoCard => ({ code, weight, kind, where, levels, text, right, source: "as recorded", ...more });

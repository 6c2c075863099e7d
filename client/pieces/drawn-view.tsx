import { Accordion } from "#client/ui/accordion.tsx";
import type { Card } from "#shared/board/card.ts";
import { GridView } from "./grid-view.tsx";
import { ShapeView } from "./shape-view.tsx";

export interface DrawnViewProps {
  readonly card: Pick<Card, "grid" | "shape">;
  /** As the song has it. */
  readonly metre: string;
  /** To be read from where one plays. */
  readonly large?: boolean;
}

/** What a detail shows beside its words; nothing where it shows nothing. */
export const DrawnView = ({ card, metre, large = false }: DrawnViewProps) => (
  <>
    {card.grid === undefined ? null : <GridView grid={card.grid} metre={metre} large={large} />}
    {card.shape === undefined ? null : <ShapeView shape={card.shape} large={large} />}
  </>
);

/** The same in a list of details: folded, one tap away. */
export const DrawnFold = ({ card, metre }: DrawnViewProps) => {
  const { grid, shape } = card;
  if (grid === undefined && shape === undefined) return null;
  const summary = grid === undefined ? "shape" : shape === undefined ? "grid" : "grid and shape";
  return (
    <Accordion summary={<span className="text-quiet">{summary}</span>} className="border-b-0">
      <DrawnView card={card} metre={metre} />
    </Accordion>
  );
};

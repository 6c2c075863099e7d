import type { SideValue } from "#shared/board/sides/detail-sides.ts";
import type { Section } from "#shared/board/song.ts";

export interface CymbalsDrawingProps {
  readonly value: SideValue<"cymbals">;
  /** The form, in playing order. */
  readonly sections: readonly Section[];
}

/** The whole form as a strip; sections of which nothing is said keep their place. */
export const CymbalsDrawing = ({ value, sections }: CymbalsDrawingProps) => (
  <div aria-hidden="true" className="flex flex-wrap gap-y-2">
    {sections.map(({ id, name }) => {
      const word = value.plan[id];
      return (
        <span
          key={id}
          className={`min-w-16 max-w-full border-l wrap-anywhere px-2 ${word === undefined ? "border-line text-quiet" : "border-ink"}`}
        >
          <span className="caption block">{name}</span>
          <span className="block font-semibold">{word === "none" ? "–" : (word ?? "")}</span>
        </span>
      );
    })}
  </div>
);

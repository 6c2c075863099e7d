import { HeadsBar } from "#client/ui/heads-bar.tsx";
import type { CellSummary } from "#shared/selectors/cell-summary.ts";

/** A part at a glance: its heads on a line, and the word under them. */
export const PartBar = ({ cell }: { readonly cell: CellSummary }) => {
  const folded = Array.from({ length: cell.beyond }, () => ({ level: 0, large: false }) as const);
  return (
    <>
      <HeadsBar
        heads={[...cell.heads, ...folded]}
        max={cell.heads.length}
        tacet={cell.state === "tacet"}
        label={cell.label}
      />
      {cell.word === "" ? null : (
        <span className={`block truncate text-small ${wordTone(cell)}`}>{cell.word}</span>
      )}
    </>
  );
};

const wordTone = ({ state, word }: CellSummary): string => {
  if (word.endsWith("slipped")) return "text-slip";
  return state === "uncovered" ? "font-semibold" : "text-quiet";
};

import { useSong } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { formatWhere } from "#shared/board/where.ts";
import { signedPoints } from "#shared/selectors/points.ts";
import type { Worth } from "#shared/selectors/worth-doing.ts";
import { useWorth } from "./use-worth.ts";

export interface WorthDoingProps {
  readonly songs: readonly string[];
  readonly member: string;
  readonly onOpen: (song: string, card: string) => void;
}

/** A line of fixed height, so that the list below stays where it is while the first answer is worked out. */
const LINE = "flex h-[4.75rem] w-full items-center gap-3 border-b border-line text-left -outline-offset-2";

const WorthLine = ({ worth, onOpen }: { readonly worth: Worth; readonly onOpen: () => void }) => {
  const file = useSong(worth.song);
  const card = file?.cards.find(({ id }) => id === worth.card.id) ?? worth.card;
  if (file === undefined) return <li className={LINE} />;
  return (
    <li>
      <button
        type="button"
        onClick={onOpen}
        className={`${LINE} decoration-control underline-offset-4 hover:underline`}
      >
        <span className="min-w-0 flex-1">
          <span className="block truncate text-quiet">
            {file.song.title} · {formatWhere(card.where, file.sections)}
          </span>
          <span className={`block truncate ${card.weight === "must" ? "font-semibold" : ""}`}>
            {card.text}
          </span>
        </span>
        <span className="text-title whitespace-nowrap">
          {signedPoints(worth.difference)}
          <span className="sr-only"> points</span>
        </span>
      </button>
    </li>
  );
};

/** The few details that bring the songs furthest on the night, best first. */
export const WorthDoing = ({ songs, member, onOpen }: WorthDoingProps) => {
  const worths = useWorth(songs, member);
  if (worths !== null && worths.length === 0) return null;
  return (
    <section aria-label="Most worth doing" className="no-print">
      <SectionHeading title="Most worth doing" aside="points on the night" />
      <ol aria-busy={worths === null} className="min-h-[14.25rem]">
        {worths === null ? <li className="py-2 text-quiet">Worked out in a moment</li> : null}
        {(worths ?? []).map((worth) => (
          <WorthLine key={worth.card.id} worth={worth} onOpen={() => onOpen(worth.song, worth.card.id)} />
        ))}
      </ol>
    </section>
  );
};

import { practiceLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useRanked } from "#client/pieces/use-ranked.ts";
import { useSongs } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { formatWhere } from "#shared/board/where.ts";
import { bestQuietly, isQuiet } from "#shared/selectors/catch-up/quiet.ts";

/** The one detail that is worth most now, one that makes no sound before others. Its place is kept. */
export const MostWorth = ({ member }: { readonly member: string }) => {
  const ranked = useRanked(member);
  const songs = useSongs();
  const href = useHref();
  const best = bestQuietly(
    (ranked ?? []).flatMap(({ song, card: id }) => {
      const file = songs.get(song);
      const card = file?.cards.find((candidate) => candidate.id === id);
      return file === undefined || card === undefined ? [] : [{ file, card, kind: card.kind }];
    }),
  );
  return (
    <section aria-label="Most worth doing now">
      <SectionHeading
        title="Most worth doing now"
        aside={best !== undefined && isQuiet(best.kind) ? "without a sound" : undefined}
      />
      <div className="min-h-[4.75rem]">
        {best !== undefined ? (
          <a
            href={href(practiceLink(best.file.song.id, best.card.id))}
            className="block py-2 -outline-offset-2 decoration-control underline-offset-4 hover:underline"
          >
            <span className="block text-quiet">
              {best.file.song.title} · {formatWhere(best.card.where, best.file.sections)}
            </span>
            <span className={best.card.weight === "must" ? "font-semibold" : undefined}>
              {best.card.text}
            </span>
          </a>
        ) : (
          <p className="py-2 text-quiet">
            {ranked === null
              ? "Worked out in a moment"
              : "Nothing that you could do alone raises a score now."}
          </p>
        )}
      </div>
    </section>
  );
};

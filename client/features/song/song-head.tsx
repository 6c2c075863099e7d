import { namedLink, scoreLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Figure } from "#client/ui/figure.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { STAGES } from "#shared/board/song.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { pointsOf } from "#shared/selectors/points.ts";

/** Title, stage, the two scores, and whether it is ready, in one sentence that opens what it names. */
export const SongHead = ({ view }: { readonly view: SongView }) => {
  const href = useHref();
  const { song } = view.file;
  const { first } = readyOf(view);
  return (
    <>
      <PageHeading
        title={song.title}
        above={[song.style, song.stage].filter((word) => word !== "").join(" · ")}
        aside={
          <a href={href(scoreLink(song.id))} className="flex gap-6 hover:underline">
            <Figure value={pointsOf(view.today.score)} unit="%" label="today" />
            <Figure value={pointsOf(view.night.score)} unit="%" label="on the night" />
          </a>
        }
      />
      <div className="flex flex-wrap items-end justify-between gap-x-8 gap-y-3">
        {first === null ? (
          <p className="font-semibold">Ready for the night.</p>
        ) : (
          <p className="max-w-2xl">
            <span className="font-semibold">Not ready. </span>
            <TextLink href={href(namedLink(first.names))}>{first.sentence}</TextLink>
          </p>
        )}
        <Stage view={view} />
      </div>
    </>
  );
};

const Stage = ({ view }: { readonly view: SongView }) => {
  const act = useAct();
  const { role } = useAuthor();
  const { song } = view.file;
  if (role === "guest") return null;
  return (
    <Select
      className="w-40 no-print"
      label="Stage"
      value={song.stage}
      options={STAGES.map((stage) => ({ value: stage, label: stage }))}
      onChange={(stage) => act(reviseSong, { song: song.id, fields: { stage } }, `${song.title}: ${stage}`)}
    />
  );
};

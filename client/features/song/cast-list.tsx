import { CastingFields } from "#client/pieces/casting-fields.tsx";
import { partLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Chair } from "#shared/board/band.ts";
import { castingOf } from "#shared/board/line-up.ts";

const Line = ({ view, chair }: { readonly view: SongView; readonly chair: Chair }) => {
  const casting = castingOf(view.file, chair.id);
  const player = view.lineUp.get(chair.id) ?? null;
  return (
    <span className="flex flex-wrap justify-between gap-x-3">
      <span>{chair.name}</span>
      <span className="text-quiet">
        {casting.plays ? (
          <>
            {player === null ? (
              <span className="font-semibold text-ink">nobody</span>
            ) : (
              view.names.member(player)
            )}
            {casting.needed ? null : ", nice to have"}
          </>
        ) : (
          <span className="expression">tacet</span>
        )}
      </span>
    </span>
  );
};

/** Who plays what in this song, chair by chair. */
export const CastList = ({ view }: { readonly view: SongView }) => {
  const { role } = useAuthor();
  const href = useHref();
  if (role === "guest")
    return (
      <ul>
        {view.chairs.map((chair) => (
          <li key={chair.id} className="border-b border-line py-2">
            <Line view={view} chair={chair} />
          </li>
        ))}
      </ul>
    );
  return (
    <>
      {view.chairs.map((chair) => (
        <Accordion key={chair.id} name="cast" summary={<Line view={view} chair={chair} />}>
          <div className="pl-6 no-print">
            <CastingFields song={view.file} chair={chair.id} />
            <TextLink standing href={href(partLink(view.file.song.id, chair.id))}>
              Open the part
            </TextLink>
          </div>
        </Accordion>
      ))}
    </>
  );
};

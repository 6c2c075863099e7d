import { LastTimeLines } from "#client/pieces/last-time-lines.tsx";
import { partLink, roomLink } from "#client/pieces/links.ts";
import { type MyOpenSong, useMySong } from "#client/pieces/my-source.ts";
import { StatusControl } from "#client/pieces/status-control.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { later } from "#client/ui/later.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { MyPart } from "#shared/selectors/my-parts.ts";
import { MyPartDetails, type MyPartDetailsProps } from "./my-part-details.tsx";

const AddDetail = later(
  async () => (await import("#client/pieces/detail/add-detail.tsx")).AddDetail,
  "no-print min-h-[8.625rem]",
);

export interface MySongOpenProps extends Pick<MyPartDetailsProps, "isNew" | "memory"> {
  readonly song: string;
  readonly member: string;
}

/** What a player wants on the stand: what slipped last time, the part itself, then their details. */
export const MySongOpen = ({ song, member, ...rest }: MySongOpenProps) => {
  const open = useMySong(song, member);
  const href = useHref();
  useStand("parts", song, open?.parts[0]?.view.chair.id);
  if (open === null) return <p className="py-4 text-quiet">Nothing to play here any more.</p>;
  const { source, parts } = open;
  return (
    <div className="pb-6 tablet:pl-7">
      <LastTimeLines song={source.file} chairs={parts.map(({ view }) => view.chair.id)} />
      {parts.map((part) => (
        <OnePart key={part.view.chair.id} source={source} part={part} alone={parts.length === 1} {...rest} />
      ))}
      <p className="mt-2 flex flex-wrap gap-x-6">
        <TextLink standing href={href(roomLink(song))}>
          Log a take
        </TextLink>
        {parts.slice(0, 1).map(({ view }) => (
          <TextLink key={view.chair.id} standing href={href(partLink(song, view.chair.id))}>
            The whole part
          </TextLink>
        ))}
      </p>
    </div>
  );
};

interface OnePartProps extends Pick<MyPartDetailsProps, "isNew" | "memory"> {
  readonly source: MyOpenSong["source"];
  readonly part: MyPart;
  /** The only one in this song: its chair needs no saying. */
  readonly alone: boolean;
}

const OnePart = ({ source, part, alone, ...rest }: OnePartProps) => {
  const { chair, itself } = part.view;
  const { role } = useAuthor();
  return (
    <section aria-label={chair.name}>
      {alone ? null : <h3 className="mt-4 font-semibold">{chair.name}</h3>}
      {itself === null ? null : (
        <div className="border-b border-line py-2">
          <p className="mb-2">
            The part itself <span className="text-quiet">through from start to end</span>
          </p>
          <StatusControl standing={itself} card={null} song={source.file} size="room" />
        </div>
      )}
      <MyPartDetails song={source.file} part={part} {...rest} />
      {role === "guest" ? null : (
        <div className="mt-4">
          <AddDetail
            song={source.file}
            chairs={[chair.id]}
            label={alone ? "Add a detail" : `Add a detail: ${chair.name}`}
          />
        </div>
      )}
    </section>
  );
};

import Ellipsis from "lucide-react/icons/ellipsis";
import { useMemo, useState } from "react";
import { roomLink, takeLink } from "#client/pieces/links.ts";
import { TakeLine } from "#client/pieces/take-line.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useBand, useGigs, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Menu, type MenuItem } from "#client/ui/menu.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { withdrawTake } from "#shared/commands/flag-slip.ts";
import { type EveningTake, eveningLog, loggedBy } from "#shared/selectors/evening-log.ts";
import { FlagSlips } from "./flag-slips.tsx";
import { useWaitingSlips } from "./use-waiting-slips.ts";

/** What was played today, in the order of playing, so that a new take moves none: open to a slip that comes to mind later, and to being taken back. */
export const EveningLog = () => {
  const songs = useSongs();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const { member } = useAuthor();
  const [{ today }] = useViewpoint();
  const waiting = useWaitingSlips();
  const [flagging, setFlagging] = useState<{ readonly song: string; readonly take: string } | null>(null);
  const takes = useMemo(
    () => eveningLog(songs.values(), { day: today, gigs, timeZone, member }).toReversed(),
    [songs, gigs, timeZone, member, today],
  );
  return (
    <section aria-label="Today's log" className="mt-10">
      <SectionHeading
        title="Today"
        aside={takes.length === 0 ? undefined : takes.length === 1 ? "1 take" : `${takes.length} takes`}
      />
      {takes.length === 0 ? (
        <p className="py-2 text-quiet">Nothing logged yet. Pick a song, play it, tap how it was.</p>
      ) : (
        <ol>
          {takes.map((entry) => (
            <li key={entry.take.id} data-take={entry.take.id}>
              <EveningLine
                {...entry}
                onFlag={() => setFlagging({ song: entry.file.song.id, take: entry.take.id })}
              />
            </li>
          ))}
        </ol>
      )}
      {waiting === 0 ? null : (
        <p role="status" className="py-2 text-quiet">
          {waiting === 1 ? "1 slip waits" : `${waiting} slips wait`} here until somebody logs the take.
        </p>
      )}
      <FlagSlips about={flagging} onClose={() => setFlagging(null)} />
    </section>
  );
};

const EveningLine = ({ take, file, onFlag }: EveningTake & { readonly onFlag: () => void }) => {
  const act = useAct();
  const href = useHref();
  const names = useNames();
  const author = useAuthor();
  const own = take.writers.includes(author.writer);
  const { title, id } = file.song;
  const look: MenuItem = { label: "Open in the song's log", href: href(takeLink(id, take.id)) };
  const write: readonly MenuItem[] = [
    { label: "Flag a slip", onSelect: onFlag },
    {
      label: own ? "Take it out of the log" : "Only its own phone takes it out",
      danger: own,
      disabled: !own,
      onSelect: () => {
        act(withdrawTake, { song: id, take: take.id }, `${title}: taken out of the log`);
      },
    },
  ];
  return (
    <TakeLine
      take={take}
      song={file}
      title={
        <>
          <TextLink href={href(roomLink(id))} className="font-semibold text-ink">
            {title}
          </TextLink>
          , {loggedBy(take, author, names)}
        </>
      }
      trail={
        <Menu
          label={`More about this take of ${title}`}
          trigger={<Ellipsis aria-hidden="true" size={24} strokeWidth={1.75} />}
          items={author.role === "guest" ? [look] : [...write, look]}
          className="justify-center text-quiet hover:text-ink no-print"
        />
      }
    />
  );
};

import { namedLink, songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { ListRow } from "#client/ui/list-row.tsx";
import { Sheet } from "#client/ui/sheet.tsx";
import { formatLength } from "#shared/music/duration.ts";
import type { GigOutlook, OutlookSong } from "#shared/selectors/gig-outlook.ts";

export interface GigBreakdownProps {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly title: string;
  readonly above: string;
  readonly outlook: GigOutlook;
}

const SongLine = ({ song, no }: { readonly song: OutlookSong; readonly no: number }) => {
  const href = useHref();
  const { reason } = song;
  return (
    <ListRow
      lead={<span className="w-6 text-right text-quiet">{no}</span>}
      href={href(reason === null ? songLink(song.song) : namedLink(reason.names))}
      note={reason === null ? null : <span className="text-ink">{reason.sentence}</span>}
      trail={
        <span className={song.ready ? undefined : "text-quiet"}>
          {song.length === null ? "no length" : formatLength(song.length)}
        </span>
      }
    >
      {song.title}
      {song.ready ? (
        <span className="ml-2 font-semibold">ready{song.waived > 0 ? `, ${song.waived} waived` : ""}</span>
      ) : null}
    </ListRow>
  );
};

/** What the ready minutes are made of: every song of the running order, ready or with what is in its way. */
export const GigBreakdown = ({ open, onClose, title, above, outlook }: GigBreakdownProps) => {
  const { minutes, gaps, songs } = outlook;
  return (
    <Sheet open={open} onClose={onClose} title={title} above={above}>
      {songs.length === 0 ? (
        <p className="text-quiet">No song is called for this gig yet. Call songs on the gig's own page.</p>
      ) : (
        <>
          <p>
            The running order holds {formatLength(minutes.planned * 60)} minutes, {formatLength(gaps * 60)} of
            them gaps between songs. {lengthWords(minutes.planned - minutes.contracted)}
          </p>
          {minutes.unknownLength.length > 0 ? (
            <p className="mt-2">
              {minutes.unknownLength.length === 1
                ? "One song has"
                : `${minutes.unknownLength.length} songs have`}{" "}
              no length yet and count as 0 minutes.
            </p>
          ) : null}
          <ol className="mt-4">
            {songs.map((song, index) => (
              <SongLine key={song.song} song={song} no={index + 1} />
            ))}
          </ol>
        </>
      )}
    </Sheet>
  );
};

/** Minutes over (positive) or under what was contracted. */
const lengthWords = (over: number): string => {
  const by = formatLength(Math.abs(over) * 60);
  if (Math.abs(over) < 0.5) return "That is what the band is booked for.";
  return over > 0 ? `That is ${by} more than booked.` : `That is ${by} less than booked.`;
};

import { flagSong, useGigFlags } from "#client/pieces/gig-flags.ts";
import { useBoardId, useSongs } from "#client/store/hooks.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";
import { FlaggedSong } from "./flagged-song.tsx";

export interface FlaggedProps {
  readonly gig: Gig;
  readonly rows: readonly DebriefRow[];
}

/** What was flagged on stage on this device: it becomes a slip, a new detail, or is put away. */
export const Flagged = ({ gig, rows }: FlaggedProps) => {
  const board = useBoardId();
  const flags = useGigFlags(board, gig.id);
  const songs = useSongs();
  if (flags.length === 0) return null;
  return (
    <section aria-labelledby="flagged">
      <SectionHeading title={<span id="flagged">Flagged on stage</span>} aside="on this device" />
      <ul>
        {flags.map(({ song, at }) => {
          const file = songs.get(song);
          if (file === undefined) return null;
          return (
            <li key={song} className="border-b border-line py-3">
              <FlaggedSong
                file={file}
                at={at}
                take={rows.find((row) => row.song === song)?.take ?? null}
                onDone={() => flagSong(board, gig.id, song, null)}
              />
            </li>
          );
        })}
      </ul>
    </section>
  );
};

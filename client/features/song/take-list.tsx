import { useState } from "react";
import { roomLink } from "#client/pieces/links.ts";
import { TakeLine } from "#client/pieces/take-line.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Take } from "#shared/board/take.ts";
import { withdrawTake } from "#shared/commands/flag-slip.ts";

/** Takes in sight before the older ones are asked for. */
const SHOWN = 10;

export interface TakeListProps {
  readonly file: SongFile;
  /** The take the screen was opened at. */
  readonly take?: string | undefined;
}

/** What one may do with a take: withdraw one's own entry. */
const Withdraw = ({ file, take }: { readonly file: SongFile; readonly take: Take }) => {
  const act = useAct();
  const { writer, role } = useAuthor();
  if (role === "guest" || !take.writers.includes(writer)) return null;
  return (
    <Button
      tone="quiet"
      className="no-print"
      onClick={() => act(withdrawTake, { song: file.song.id, take: take.id }, "Taken back out of the log")}
    >
      Withdraw
    </Button>
  );
};

/** The rehearsal log of one song, newest first. */
export const TakeList = ({ file, take }: TakeListProps) => {
  const href = useHref();
  const newest = [...file.takes].reverse();
  const opened = newest.findIndex(({ id }) => id === take);
  const [more, setMore] = useState(false);
  const count = more ? newest.length : Math.max(SHOWN, opened + 1);
  if (newest.length === 0) {
    return (
      <div className="py-2">
        <p className="caption">Never played together yet. The log starts with the first take in the room.</p>
        <TextLink standing href={href(roomLink(file.song.id))}>
          Log a take
        </TextLink>
      </div>
    );
  }
  return (
    <>
      <ol>
        {newest.slice(0, count).map((each) => (
          <li key={each.id} data-take={each.id}>
            <TakeLine
              take={each}
              song={file}
              pointedOut={each.id === take}
              trail={<Withdraw file={file} take={each} />}
            />
          </li>
        ))}
      </ol>
      {count < newest.length ? (
        <Button tone="quiet" className="mt-2 no-print" onClick={() => setMore(true)}>
          {newest.length - count} older takes
        </Button>
      ) : null}
    </>
  );
};

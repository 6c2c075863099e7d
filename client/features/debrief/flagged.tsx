import { useState } from "react";
import { flagSong, useGigFlags } from "#client/pieces/gig-flags.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useBoardId, useChairs, useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { flagSlip } from "#shared/commands/flag-slip.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";
import { slipChoices } from "#shared/selectors/slip-choices.ts";

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
                row={rows.find((row) => row.song === song)}
                onDone={() => flagSong(board, gig.id, song, null)}
              />
            </li>
          );
        })}
      </ul>
    </section>
  );
};

const FlaggedSong = ({
  file,
  at,
  row,
  onDone,
}: {
  readonly file: SongFile;
  readonly at: number;
  readonly row: DebriefRow | undefined;
  readonly onDone: () => void;
}) => {
  const act = useAct();
  const names = useNames();
  const chairs = useChairs();
  const [text, setText] = useState("");
  const { title } = file.song;
  const take = row?.take ?? null;
  const { musts, lifts, chairs: onChairs, nobody } = slipChoices(file, chairs, names);
  const choices = [...musts, ...lifts, ...onChairs, nobody];
  const slip = (index: string) => {
    const choice = choices[Number(index)];
    if (choice === undefined || take === null) return;
    const { chair, card } = choice;
    const args = { song: file.song.id, take: take.id, chair, card, severity: 1 as const };
    if (act(flagSlip, args, `Slip in ${title}: ${choice.words}`)) onDone();
  };
  const add = () => {
    if (text.trim() === "") return;
    if (act(addDetail, { song: file.song.id, text: text.trim(), source: "ours" }, `New detail in ${title}`))
      onDone();
  };
  return (
    <>
      <p className="font-semibold">
        {title}{" "}
        <time dateTime={new Date(at).toISOString()} className="caption">
          {new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}
        </time>
      </p>
      <div className="grid items-end gap-3 laptop:grid-cols-2">
        {take === null ? (
          <p className="caption">Say first how it went; then the slip can be named.</p>
        ) : (
          <Select
            label="It was a slip on"
            value=""
            options={[
              { value: "", label: "choose" },
              ...choices.map(({ words, note }, i) => ({
                value: String(i),
                label: note === "" ? words : `${words} (${note})`,
              })),
            ]}
            onChange={slip}
          />
        )}
        <div className="flex items-end gap-2">
          <TextField
            label={`Or a new detail in ${title}`}
            className="min-w-0 flex-1"
            value={text}
            onChange={setText}
          />
          <Button onClick={add} disabled={text.trim() === ""}>
            Write it
          </Button>
        </div>
      </div>
      <Button tone="quiet" onClick={onDone}>
        Put away<span className="sr-only">: {title}</span>
      </Button>
    </>
  );
};

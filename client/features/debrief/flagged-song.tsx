import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useBand, useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Take } from "#shared/board/take.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { flagSlip } from "#shared/commands/flag-slip.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { slipChoices } from "#shared/selectors/slip-choices.ts";

/** No chair's id: ids have no blanks. */
const EVERYBODY = "every body";

export interface FlaggedSongProps {
  readonly file: SongFile;
  /** When it was flagged, ms. */
  readonly at: number;
  /** The gig's take of it; null = nobody has said yet how it went. */
  readonly take: Take | null;
  readonly onDone: () => void;
}

/** One flag of the stage: named as a slip of the take, written down as a new detail, or put away. */
export const FlaggedSong = ({ file, at, take, onDone }: FlaggedSongProps) => {
  const act = useAct();
  const names = useNames();
  const chairs = useChairs();
  const { timeZone } = useBand();
  const [text, setText] = useState("");
  const [chair, setChair] = useState("");
  const { id: song, title } = file.song;
  const { musts, lifts, chairs: onChairs, nobody } = slipChoices(file, chairs, names);
  const choices = [...musts, ...lifts, ...onChairs, nobody];
  const slip = (index: string) => {
    const choice = choices[Number(index)];
    if (choice === undefined || take === null) return;
    const args = { song, take: take.id, chair: choice.chair, card: choice.card, severity: 1 as const };
    if (act(flagSlip, args, `Slip in ${title}: ${choice.words}`)) onDone();
  };
  const add = () => {
    const everybody = onChairs.flatMap((choice) => choice.chair ?? []);
    const on = chair === EVERYBODY ? everybody : chair === "" ? [] : [chair];
    const args = { song, text: text.trim(), source: "ours" as const, chairs: on };
    if (act(addDetail, args, `New detail in ${title}`)) onDone();
  };
  return (
    <>
      <p className="font-semibold">
        {title}{" "}
        <time dateTime={new Date(at).toISOString()} className="caption">
          {clockWords(at, timeZone)}
        </time>
      </p>
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
      <div className="flex flex-wrap items-end gap-2 py-2">
        <TextField
          label={`Or a new detail in ${title}`}
          className="min-w-48 flex-1"
          maxLength={4000}
          value={text}
          onChange={setText}
        />
        <Select
          label="For"
          className="w-40"
          value={chair}
          options={[
            { value: "", label: "not placed yet" },
            { value: EVERYBODY, label: "everybody" },
            ...onChairs.map((choice) => ({ value: choice.chair ?? "", label: choice.words })),
          ]}
          onChange={setChair}
        />
        <Button onClick={add} disabled={text.trim() === ""}>
          Write it
        </Button>
      </div>
      <Button tone="quiet" onClick={onDone}>
        Put away<span className="sr-only">: {title}</span>
      </Button>
    </>
  );
};

import { useAct } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useSong } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Sheet } from "#client/ui/sheet.tsx";
import { flagSlip } from "#shared/commands/flag-slip.ts";
import { takeName } from "#shared/readiness/names.ts";
import { SlipPicker } from "./slip-picker.tsx";

export interface FlagSlipsProps {
  /** null = nothing to flag, the sheet is closed. */
  readonly about: { readonly song: string; readonly take: string } | null;
  readonly onClose: () => void;
}

/** A slip that comes to mind after the take was logged. Each tap counts at once and can be undone. */
export const FlagSlips = ({ about, onClose }: FlagSlipsProps) => {
  const act = useAct();
  const names = useNames();
  const song = useSong(about?.song ?? "");
  const take = song?.takes.find(({ id }) => id === about?.take);
  if (about === null || song === undefined || take === undefined) return null;
  return (
    <Sheet
      open
      onClose={onClose}
      title="What slipped?"
      above={`${song.song.title}, ${takeName(take)}`}
      subject={take.id}
      actions={
        <Button tone="main" size="room" className="flex-1" onClick={onClose}>
          Done
        </Button>
      }
    >
      <div className="in-room pb-28">
        <SlipPicker
          song={song}
          slips={take.slips}
          onSet={({ chair, card, words }, severity) => {
            const what = card === null && chair !== null ? names.chair(chair) : words;
            act(
              flagSlip,
              { song: song.song.id, take: take.id, chair, card, severity },
              severity === 0 ? `No slip after all: ${what}` : `Slip: ${what}`,
            );
          }}
        />
      </div>
    </Sheet>
  );
};

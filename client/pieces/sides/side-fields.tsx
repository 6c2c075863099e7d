import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { SideName, StoredSide } from "#shared/board/card.ts";
import { emptySide, isSideSaid, sideEntries, sideFault } from "#shared/board/sides/detail-sides.ts";
import { SIDE_LABELS } from "#shared/board/sides/side-labels.ts";
import { EntryField } from "./entry-field.tsx";
import { SideView } from "./side-views.tsx";

export interface SideFieldsProps {
  readonly side: SideName;
  /** null = nothing said. */
  readonly value: StoredSide | null;
  readonly onChange: (value: StoredSide | null) => void;
  readonly song: SongFile;
}

/** Writes one side of a detail. What is wrong is said while it is typed, and kept until it is put right. */
export const SideFields = ({ side, value, onChange, song }: SideFieldsProps) => {
  const shown = value ?? emptySide(side);
  const fault = value === null ? null : sideFault(side, value);
  return (
    <div className="flex flex-col gap-3">
      <div className="grid gap-x-6 gap-y-3 tablet:grid-cols-2">
        {Object.entries(sideEntries(side)).map(([name, entry]) => (
          <EntryField
            key={name}
            entry={entry}
            value={shown[name]}
            sections={song.sections}
            onChange={(next) => {
              const made = { ...shown, [name]: next };
              onChange(isSideSaid(made) ? made : null);
            }}
          />
        ))}
      </div>
      <p role="status">{fault ?? ""}</p>
      {value === null || fault !== null ? null : <SideView side={side} stored={value} song={song} />}
      {value === null ? null : (
        <div>
          <Button tone="quiet" onClick={() => onChange(null)}>
            Take the {SIDE_LABELS[side]} off
          </Button>
        </div>
      )}
    </div>
  );
};

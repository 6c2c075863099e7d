import { useSongs } from "#client/store/hooks.ts";
import { Select } from "#client/ui/select.tsx";
import type { Id } from "#shared/board/ids.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";

export interface AlsoPlayedProps {
  readonly rows: readonly DebriefRow[];
  readonly onAdd: (song: Id) => void;
}

/** Brings a song that nobody called into the list; nothing is logged until its result is tapped. */
export const AlsoPlayed = ({ rows, onAdd }: AlsoPlayedProps) => {
  const songs = useSongs();
  const listed = new Set(rows.map(({ song }) => song));
  const others = [...songs.values()]
    .filter(({ song }) => !listed.has(song.id))
    .map(({ song }) => ({ value: song.id, label: song.title }))
    .sort((a, b) => a.label.localeCompare(b.label));
  if (others.length === 0) return null;
  return (
    <Select
      label="Played though not called"
      className="w-64 max-w-full"
      value=""
      options={[{ value: "", label: "choose a song" }, ...others]}
      onChange={(song) => (song === "" ? undefined : onAdd(song))}
    />
  );
};

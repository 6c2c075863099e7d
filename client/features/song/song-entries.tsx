import type { SongFile } from "#shared/board/board.ts";
import {
  checkLength,
  SONG_ENTRY_NAMES,
  type SongEntryName,
  shiftWords,
} from "#shared/selectors/song-entries.ts";
import { EntryRow } from "./entry-row.tsx";

/** What the other entries say about this one. */
const noteOn = (file: SongFile, name: SongEntryName): string => {
  const { song } = file;
  if (name === "key") {
    const shift = shiftWords(song);
    return shift === "" ? "" : `${shift} from the record`;
  }
  if (name !== "length") return "";
  return checkLength(file)?.sentence ?? "";
};

/** Everything the band plays this song by, each entry changed in place. */
export const SongEntries = ({ file }: { readonly file: SongFile }) => (
  <dl>
    {SONG_ENTRY_NAMES.map((name) => (
      <EntryRow key={name} song={file.song} name={name} note={noteOn(file, name)} />
    ))}
  </dl>
);

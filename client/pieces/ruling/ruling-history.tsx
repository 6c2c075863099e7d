import type { SongFile } from "#shared/board/board.ts";
import type { Ruling } from "#shared/board/song.ts";
import { RulingLine } from "./ruling-line.tsx";

export interface RulingHistoryProps {
  readonly rulings: readonly Ruling[];
  readonly file: SongFile;
  readonly label: string;
}

/** Every ruling on one thing, latest first. */
export const RulingHistory = ({ rulings, file, label }: RulingHistoryProps) => (
  <ul aria-label={label}>
    {[...rulings].reverse().map((ruling) => (
      <RulingLine key={ruling.id} ruling={ruling} file={file} />
    ))}
  </ul>
);

import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import { debriefRows } from "../selectors/debrief.ts";
import { writeCsv } from "./csv.ts";

const COLUMNS = ["Position", "Title", "Key", "Tempo", "Minutes", "Date", "Place"] as const;

/**
 * The titles performed at a gig as a table for whoever collects such lists: RFC 4180 with a header, formula guard
 * (csv.ts) and a byte order mark. Key and tempo are those of the night; how it went stays with the
 * band.
 */
export const writePerformed = (board: Pick<Board, "songs">, gig: Gig): string => {
  const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
  const rows = debriefRows(board, gig)
    .filter(({ take }) => take !== null)
    .map(({ song: id, title, take }, i) => {
      const song = board.songs.get(id)?.song;
      const tempo = entries.get(id)?.tempo ?? song?.tempo ?? null;
      return [
        String(i + 1),
        title,
        take?.key ?? entries.get(id)?.key ?? song?.key ?? "",
        tempo === null ? "" : String(tempo),
        song?.length == null ? "" : (song.length / 60).toFixed(1),
        gig.date,
        gig.place,
      ];
    });
  return `\ufeff${writeCsv([[...COLUMNS], ...rows])}`;
};

import type { Chair, Person } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { gigReady } from "#shared/readiness/gates.ts";
import { namesOf } from "#shared/readiness/names.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import type { BoardRow, SongReading } from "#shared/selectors/board-row.ts";
import { CHAIRS, DAY_MS, MEMBERS, START } from "./histories.ts";
import { asked, holderOf } from "./ready-song.ts";

const SHORT: Readonly<Record<string, string>> = { gt: "Gt", bs: "Bs", dr: "Dr", vx: "Vx" };

/** The four chairs of the histories, each with its usual player. */
export const SEATED: readonly Chair[] = CHAIRS.map((id, i) => ({
  id,
  name: `Chair ${id}`,
  short: SHORT[id] ?? id,
  instrument: "other",
  holder: holderOf(id),
  order: String(i),
}));

export const CROWD: ReadonlyMap<string, Person> = new Map(
  MEMBERS.map((id) => [id, { id, name: `Player ${id}`, dep: id.startsWith("dep"), voice: null, order: id }]),
);

/** A song read at the end of day `today` for a gig at the end of day `night`. */
export const aReading = (
  file: SongFile,
  today: number,
  night: number,
  change: Partial<ScoreInput> = {},
): SongReading => {
  const input = { ...asked(file, today, night), ...change };
  const names = namesOf({ chairs: SEATED, people: CROWD });
  return {
    file,
    chairs: SEATED,
    people: CROWD,
    lineUp: input.lineUp,
    names,
    input,
    today: scoreSong({ ...input, t: input.asOf }),
    night: scoreSong(input),
    ready: gigReady(input, { gig: null, names }),
  };
};

/** A row in the middle of everything; tests change what they are about. */
export const aRow = (song: string, change: Partial<BoardRow> = {}): BoardRow => ({
  song,
  title: song,
  style: "",
  stage: "in the book",
  today: 0.6,
  night: 0.5,
  ready: false,
  reason: null,
  trouble: 1,
  mostlyClaims: false,
  touched: START + 100 * DAY_MS,
  place: null,
  mine: true,
  noEnding: false,
  order: song,
  ...change,
});

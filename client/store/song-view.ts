import type { Chair, Gig, Person } from "#shared/board/band.ts";
import type { Board, SongFile } from "#shared/board/board.ts";
import { type LineUp, lineUpFor } from "#shared/board/line-up.ts";
import { type Names, namesOf } from "#shared/readiness/names.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import type { SongScore } from "#shared/readiness/song-score.ts";
import type { BoardStore } from "./board-store.ts";
import type { Viewpoint } from "./viewpoint.ts";

/** One song with its scores from one viewpoint; its gates are asked by `readyOf`. The reference changes only with its content. */
export interface SongView {
  readonly file: SongFile;
  readonly chairs: readonly Chair[];
  readonly people: ReadonlyMap<string, Person>;
  readonly lineUp: LineUp;
  readonly names: Names;
  /** What the score was computed from, for what-ifs. `t` is the night. */
  readonly input: ScoreInput;
  readonly today: SongScore;
  /** Score on the gig's day if nothing more happens. */
  readonly night: SongScore;
  /** The gig it is looked at for; null = none in particular. */
  readonly gig: Gig | null;
}

/** Computes song views and remembers the last one of each song. */
export const createSongViews = (
  store: BoardStore,
): ((song: string, viewpoint: Viewpoint) => SongView | null) => {
  const kept = new Map<
    string,
    { readonly viewpoint: Viewpoint; readonly board: Board; readonly view: SongView }
  >();
  let named: { readonly board: Board; readonly names: Names } | null = null;
  const namesFor = (board: Board): Names => {
    if (named === null || named.board.chairs !== board.chairs || named.board.people !== board.people) {
      named = { board, names: namesOf(board) };
    }
    return named.names;
  };

  return (song, viewpoint) => {
    const board = store.board();
    const file = board.songs.get(song);
    if (file === undefined) return null;
    const last = kept.get(song);
    const current =
      last !== undefined &&
      last.view.file === file &&
      last.viewpoint === viewpoint &&
      last.board.chairs === board.chairs &&
      last.board.people === board.people &&
      last.board.band === board.band;
    if (current) return last.view;
    const lineUp = lineUpFor(board, file, viewpoint.gig);
    const names = namesFor(board);
    const { settings } = board.band;
    const input: ScoreInput = {
      file,
      chairs: board.chairs,
      lineUp,
      settings,
      t: viewpoint.night,
      asOf: viewpoint.endOfToday,
    };
    let today: SongScore | null = null;
    const view: SongView = {
      file,
      chairs: board.chairs,
      people: board.people,
      lineUp,
      names,
      input,
      // Only some screens ask, and what is supposed about a gig asks for a night on every choice.
      get today() {
        today ??= store.readiness.scoreSong({ ...input, t: viewpoint.endOfToday });
        return today;
      },
      night: store.readiness.scoreSong(input),
      gig: viewpoint.gig,
    };
    kept.set(song, { viewpoint, board, view });
    return view;
  };
};

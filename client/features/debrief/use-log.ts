import { step, useAct, useActTogether } from "#client/pieces/use-act.ts";
import { useAuthor, useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { useToast } from "#client/ui/toast.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { Feel } from "#shared/board/take.ts";
import { withdrawTake } from "#shared/commands/flag-slip.ts";
import { logTake } from "#shared/commands/log-take.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";
import { EMPTY_TAKE, type TakeArgs, takeArgs } from "#shared/selectors/take-draft.ts";

export interface Logging {
  /** Logs how a song went that night; what this device said before is taken back. */
  readonly log: (row: DebriefRow, feel: Feel) => void;
  /** Takes back what this device logged of it. */
  readonly unlog: (row: DebriefRow) => void;
  /** Logs everything that is open as clean. */
  readonly restClean: (rows: readonly DebriefRow[]) => void;
}

/** Writes takes of a gig into the log, with the line-up of that night. */
export const useLog = (gig: Gig): Logging => {
  const store = useBoardStore();
  const act = useAct();
  const together = useActTogether();
  const toast = useToast();
  const { member, writer } = useAuthor();
  const [{ today }] = useViewpoint();
  const argsOf = (row: DebriefRow, feel: Feel): TakeArgs | null => {
    const board = store.board();
    const file = board.songs.get(row.song);
    if (file === undefined) return null;
    const { timeZone } = board.band;
    const scene = {
      board,
      file,
      timeZone,
      today,
      now: store.now(),
      member,
      here: { away: [], standIns: {} },
    };
    const args = takeArgs({ ...EMPTY_TAKE, kind: "gig", gig: gig.id }, feel, scene);
    if (!args.ok) {
      toast({ text: args.error.sentence });
      return null;
    }
    return args.value;
  };
  const isMine = ({ take }: DebriefRow): boolean => take?.writers.includes(writer) ?? false;
  return {
    log: (row, feel) => {
      const args = argsOf(row, feel);
      if (args === null) return;
      const steps = [
        ...(row.take !== null && isMine(row)
          ? [step(withdrawTake, { song: row.song, take: row.take.id })]
          : []),
        step(logTake, args),
      ];
      together(steps, `${row.title}: ${feel}`);
    },
    unlog: (row) => {
      if (row.take === null) return;
      if (isMine(row)) act(withdrawTake, { song: row.song, take: row.take.id }, `Not played: ${row.title}`);
      else toast({ text: `Another device logged ${row.title}. It takes its take back in the song's log.` });
    },
    restClean: (rows) => {
      const open = rows.filter(({ take, called }) => called && take === null);
      const steps = open.flatMap((row) => {
        const args = argsOf(row, "clean");
        return args === null ? [] : [step(logTake, args)];
      });
      together(steps, `${steps.length} ${steps.length === 1 ? "song" : "songs"} clean`);
    },
  };
};

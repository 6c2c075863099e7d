import { type Step, step, useAct, useActTogether } from "#client/pieces/use-act.ts";
import { useAuthor, useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { useToast } from "#client/ui/toast.tsx";
import type { FloorDid, Gig } from "#shared/board/band.ts";
import type { Feel } from "#shared/board/take.ts";
import { withdrawTake } from "#shared/commands/flag-slip.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { tellOfNight } from "#shared/commands/tell-of-night.ts";
import { type DebriefRow, openRows } from "#shared/selectors/debrief.ts";
import { EMPTY_TAKE, type TakeArgs, type TakeDraft, takeArgs } from "#shared/selectors/take-draft.ts";

export interface Logging {
  /** Says how a song went that night; a take of this device is replaced, with the slips in it. */
  readonly log: (row: DebriefRow, feel: Feel) => void;
  /** Says that a song was left out. */
  readonly leaveOut: (row: DebriefRow) => void;
  readonly tellFloor: (row: DebriefRow, floorDid: FloorDid) => void;
  /** Logs everything that nobody has said anything about as clean. */
  readonly restClean: (rows: readonly DebriefRow[]) => void;
}

/** Writes what a gig came to, with the line-up of that night. */
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
    const here = { away: [], standIns: {} };
    const scene = { board, file, timeZone, today, now: store.now(), member, here };
    // A correction is about the result alone: what else the replaced take says is handed on.
    const { slips = [], tempoStart = null, tempoEnd = null, key } = row.take ?? {};
    const draft: TakeDraft = {
      ...EMPTY_TAKE,
      kind: "gig",
      gig: gig.id,
      slips: slips.map(({ chair, card, severity }) => ({ chair, card, severity })),
      tempoStart,
      tempoEnd,
      key: key ?? "",
    };
    const args = takeArgs(draft, feel, scene);
    if (!args.ok) {
      toast({ text: args.error.sentence });
      return null;
    }
    return args.value;
  };
  /** Two devices' takes of one song are one, the worse of both; only who logged it can take it back. */
  const isOthers = ({ take, title }: DebriefRow): boolean => {
    if (take === null || (take.writers.length === 1 && take.writers[0] === writer)) return false;
    toast({
      text: take.writers.includes(writer)
        ? `Another device logged ${title} too. Take your own entry back in the song's log, and theirs stands.`
        : `Another device logged ${title} as ${take.feel}. It is corrected there, or a slip is flagged in the song's log.`,
    });
    return true;
  };
  const withdrawn = ({ song, take }: DebriefRow): readonly Step[] =>
    take === null ? [] : [step(withdrawTake, { song, take: take.id })];
  return {
    log: (row, feel) => {
      if (isOthers(row)) return;
      const args = argsOf(row, feel);
      if (args === null) return;
      const back = row.leftOut ? [step(tellOfNight, { gig: gig.id, song: row.song, leftOut: false })] : [];
      together([...withdrawn(row), ...back, step(logTake, args)], `${row.title}: ${feel}`);
    },
    leaveOut: (row) => {
      if (isOthers(row)) return;
      const said = step(tellOfNight, { gig: gig.id, song: row.song, leftOut: true, floorDid: "" });
      together([...withdrawn(row), said], `Left out: ${row.title}`);
    },
    tellFloor: ({ song, title }, floorDid) =>
      void act(tellOfNight, { gig: gig.id, song, floorDid }, `The floor at ${title}`, { quiet: true }),
    restClean: (rows) => {
      const steps = openRows(rows).flatMap((row) => {
        const args = argsOf(row, "clean");
        return args === null ? [] : [step(logTake, args)];
      });
      together(steps, `${steps.length} ${steps.length === 1 ? "song" : "songs"} clean`);
    },
  };
};

import { useCallback } from "react";
import type { BoardStore, OwnChange } from "#client/store/board-store.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { useToast } from "#client/ui/toast.tsx";
import type { Command, Refusal } from "#shared/commands/command.ts";
import type { Result } from "#shared/lib/result.ts";

/** Runs a command and says what happened: with an undo when it went through, with the reason when not. */
export type Act = <A, I>(
  command: Command<A, I>,
  args: NoInfer<I>,
  label: string,
  options?: ActOptions,
) => boolean;

export interface ActOptions {
  /** Say nothing on success: the screen itself shows it. The change can still be taken back from the history. */
  readonly quiet?: boolean;
}

/** Says that a change went through, with its undo; for screens that show a refusal beside the field it is about. */
export const useTellDone = (): ((change: OwnChange) => void) => {
  const store = useBoardStore();
  const toast = useToast();
  return useCallback(
    (change) => {
      if (change.written.length === 0) return;
      toast({
        text: change.label,
        undo: () => {
          const undone = store.undo(change);
          toast({ text: undone.ok ? undone.value.label : undone.error.sentence });
        },
      });
    },
    [store, toast],
  );
};

/** The usual way for a screen to change the board. Returns whether the command went through. */
export const useAct = (): Act => {
  const store = useBoardStore();
  const toast = useToast();
  const tell = useTellDone();
  return useCallback<Act>(
    (command, args, label, options) => {
      const result = store.run(command, args, label);
      if (!result.ok) {
        toast({ text: result.error.sentence });
        return false;
      }
      if (!options?.quiet) tell(result.value);
      return true;
    },
    [store, toast, tell],
  );
};

/** One command of several that belong together; see `step`. */
export type Step = (store: BoardStore, label: string) => Result<OwnChange, Refusal>;

/** A command with its arguments, to be run later. */
export const step =
  <A, I>(command: Command<A, I>, args: NoInfer<I>): Step =>
  (store, label) =>
    store.run(command, args, label);

const undoAll = (store: BoardStore, done: readonly OwnChange[]): Result<OwnChange, Refusal> | null =>
  [...done]
    .reverse()
    .reduce<Result<OwnChange, Refusal> | null>(
      (last, change) => (last !== null && !last.ok ? last : store.undo(change)),
      null,
    );

/**
 * Runs several commands as one change: one toast, one undo. When one is refused, those before it are taken back and
 * the reason is said. Returns whether all of them went through.
 */
export const useActTogether = (): ((steps: readonly Step[], label: string) => boolean) => {
  const store = useBoardStore();
  const toast = useToast();
  return useCallback(
    (steps, label) => {
      const done: OwnChange[] = [];
      for (const run of steps) {
        const result = run(store, label);
        if (!result.ok) {
          undoAll(store, done);
          toast({ text: result.error.sentence });
          return false;
        }
        if (result.value.written.length > 0) done.push(result.value);
      }
      if (done.length === 0) return true;
      toast({
        text: label,
        undo: () => {
          const undone = undoAll(store, done);
          if (undone !== null) toast({ text: undone.ok ? `Undone: ${label}` : undone.error.sentence });
        },
      });
      return true;
    },
    [store, toast],
  );
};

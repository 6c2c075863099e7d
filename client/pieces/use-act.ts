import { useCallback } from "react";
import { useBoardStore } from "#client/store/hooks.ts";
import { useToast } from "#client/ui/toast.tsx";
import type { Command } from "#shared/commands/command.ts";

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

/** The usual way for a screen to change the board. Returns whether the command went through. */
export const useAct = (): Act => {
  const store = useBoardStore();
  const toast = useToast();
  return useCallback<Act>(
    (command, args, label, options) => {
      const result = store.run(command, args, label);
      if (!result.ok) {
        toast({ text: result.error.sentence });
        return false;
      }
      if (result.value.written.length > 0 && !options?.quiet) {
        toast({
          text: label,
          undo: () => {
            const undone = store.undo(result.value);
            toast({ text: undone.ok ? undone.value.label : undone.error.sentence });
          },
        });
      }
      return true;
    },
    [store, toast],
  );
};

import { useState } from "react";
import { useBand, useSaveState } from "#client/store/hooks.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { Button } from "#client/ui/button.tsx";
import { ConnectionStatus } from "#client/ui/connection-status.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { later } from "#client/ui/later.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords } from "#shared/lib/moment-words.ts";

/** The state of one's own changes in a few words, for the line at the top. */
export const saveWords = (
  { connection, unsent, refused, asOf }: SaveState,
  { now, timeZone }: { readonly now: number; readonly timeZone: string },
): string => {
  if (connection === "refused") return unsent > 0 ? `not connected, ${unsent} kept here` : "not connected";
  if (refused.length > 0) return `${refused.length} refused`;
  if (unsent > 0) return `on this device, ${unsent} to send`;
  if (connection === "connected") return "all saved";
  if (connection === "local") return "on this device";
  if (asOf === null) return "no signal";
  const [day, today] = [dayOf(asOf, timeZone), dayOf(now, timeZone)];
  return `no signal, as of ${day === today ? clockWords(asOf, timeZone) : dayWords(day, { today })}`;
};

/** The same where little else may stand: what is unsent is a small number. */
export const shortSaveWords = (state: SaveState, at: Parameters<typeof saveWords>[1]): string =>
  state.connection !== "refused" && state.refused.length === 0 && state.unsent > 0
    ? `${state.unsent} to send`
    : saveWords(state, at);

/** Fetched and built only while it is open: the line itself is drawn anew with every change. */
const WhatIsSaved = later(async () => (await import("./what-is-saved.tsx")).WhatIsSaved, "min-h-40");

/** Connection and save state at the top of every screen; opens what it means. */
export const SaveLine = ({ short = false }: { readonly short?: boolean }) => {
  const state = useSaveState();
  const { timeZone } = useBand();
  const [open, setOpen] = useState(false);
  const joined = state.connection === "connected" || state.connection === "local";
  const bad = state.connection === "refused" || state.refused.length > 0;
  return (
    <>
      <ConnectionStatus
        state={bad ? "refused" : joined ? "joined" : "apart"}
        text={(short ? shortSaveWords : saveWords)(state, { now: Date.now(), timeZone })}
        steady={short}
        onOpen={() => setOpen(true)}
      />
      <Dialog
        open={open}
        onClose={() => setOpen(false)}
        title="What is saved"
        actions={<Button onClick={() => setOpen(false)}>Close</Button>}
      >
        <WhatIsSaved state={state} />
      </Dialog>
    </>
  );
};

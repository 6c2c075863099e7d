import { useState } from "react";
import { useBand, useBoardStore, useSaveState } from "#client/store/hooks.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { Button } from "#client/ui/button.tsx";
import { ConnectionStatus } from "#client/ui/connection-status.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { clockWords, momentWords } from "#shared/lib/moment-words.ts";
import { useShellWorker } from "./shell-worker.ts";

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

const CONNECTION_WORDS = {
  connected: "Connected. What you change is saved on the band's server within a moment.",
  connecting: "Looking for the band's server. Go on: what you change is kept on this device and sent later.",
  offline: "No signal. Go on: what you change is kept on this device and sent when there is one.",
  refused: "The band's server has turned this device away.",
  local: "This board lives on this device only.",
} as const;

const asOfWords = (asOf: number | null, timeZone: string): string =>
  asOf === null
    ? "This device has not yet had the board from the server."
    : `This device had everything ${momentWords(asOf, Date.now(), timeZone)}.`;

/** Built only while it is open: the line itself is drawn anew with every change. */
const WhatIsSaved = ({ state }: { readonly state: SaveState }) => {
  const { timeZone } = useBand();
  const store = useBoardStore();
  const shell = useShellWorker();
  return (
    <div className="grid gap-3">
      <p>{CONNECTION_WORDS[state.connection]}</p>
      {state.reason === "" ? null : <p className="font-semibold">{state.reason}</p>}
      <p>{asOfWords(state.asOf, timeZone)}</p>
      <p>
        {state.unsent === 0
          ? "Everything you changed is on the server's disk."
          : `${state.unsent} of your changes are on this device only.`}
      </p>
      {state.refused.map((change) => (
        <div key={change.id} className="border-l-2 border-slip pl-3">
          <p>
            {store.changes().find(({ id }) => id === change.id)?.label ?? "A change of an earlier visit"}:{" "}
            {change.sentence}
          </p>
          <Button tone="quiet" onClick={() => store.outbox.dismiss(change.id)}>
            I have read this
          </Button>
        </div>
      ))}
      {shell === "absent" ? (
        <p className="caption">
          This page cannot keep itself for a start without signal, because it did not come over a secure
          address (https). While it stays open, marking details goes on without signal.
        </p>
      ) : null}
    </div>
  );
};

/** Connection and save state at the top of every screen; opens what it means. */
export const SaveLine = () => {
  const state = useSaveState();
  const { timeZone } = useBand();
  const [open, setOpen] = useState(false);
  const joined = state.connection === "connected" || state.connection === "local";
  const bad = state.connection === "refused" || state.refused.length > 0;
  return (
    <>
      <ConnectionStatus
        state={bad ? "refused" : joined ? "joined" : "apart"}
        text={saveWords(state, { now: Date.now(), timeZone })}
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

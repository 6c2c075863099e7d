import { useBand, useBoardStore } from "#client/store/hooks.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { Button } from "#client/ui/button.tsx";
import { momentWords } from "#shared/lib/moment-words.ts";
import { useShellWorker } from "./shell-worker.ts";

const CONNECTION_WORDS = {
  connected: "Connected. What you change is saved on the band's server within a moment.",
  connecting: "Looking for the band's server. Go on: what you change is kept on this device and sent later.",
  offline: "No signal. Go on: what you change is kept on this device and sent when there is one.",
  refused: "The band's server has turned this device away.",
  local: "This board lives on this device only.",
} as const;

/** When this device was last in step with the server, in a sentence. */
export const asOfWords = (asOf: number | null, timeZone: string): string =>
  asOf === null
    ? "This device has not yet had the board from the server."
    : `This device had everything ${momentWords(asOf, Date.now(), timeZone)}.`;

/** What the line at the top means. */
export const WhatIsSaved = ({ state }: { readonly state: SaveState }) => {
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

import type { DepGigStore, DepState } from "#client/store/dep-gig.ts";
import { ConnectionStatus } from "#client/ui/connection-status.tsx";
import { useDepGig } from "./use-dep-gig.ts";

const statusWords = ({ connection, answers }: DepState): string => {
  const waiting = answers.filter(({ state }) => state === "on this phone").length;
  const refused = answers.filter(({ state }) => state === "refused").length;
  if (connection === "refused") return waiting > 0 ? `not connected, ${waiting} kept here` : "not connected";
  if (refused > 0) return `${refused} refused`;
  if (waiting > 0) return `on this phone, ${waiting} to send`;
  return connection === "connected" ? "all saved" : connection === "offline" ? "no signal" : "one moment";
};

/** Connection and what became of one's answers, in a few words. */
export const DepStatus = ({ store }: { readonly store: DepGigStore }) => {
  const state = useDepGig(store);
  const bad = state.connection === "refused" || state.answers.some((kept) => kept.state === "refused");
  return (
    <ConnectionStatus
      state={bad ? "refused" : state.connection === "connected" ? "joined" : "apart"}
      text={statusWords(state)}
      onOpen={() => void store.refresh()}
    />
  );
};

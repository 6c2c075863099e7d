/** Presence on an open board. Loaded after the board: nobody waits for it. */
import type { Identity } from "#client/store/identity.ts";
import type { PresenceStore } from "#client/store/presence.ts";
import { createPresenceStore } from "#client/store/presence-store.ts";
import type { BoardSession } from "#client/sync/board-session.ts";
import { openPresence } from "#client/sync/presence-channel.ts";

/** How long (ms) a page may be out of sight before its person counts as gone. */
const AWAY_MS = 30_000;

/** Whoever puts the phone away is soon no longer there. */
const followPage = (presence: PresenceStore): (() => void) => {
  let leaving: ReturnType<typeof setTimeout> | undefined;
  const look = (): void => {
    clearTimeout(leaving);
    if (document.visibilityState === "visible") presence.setAway(false);
    else leaving = setTimeout(() => presence.setAway(true), AWAY_MS);
  };
  document.addEventListener("visibilitychange", look);
  look();
  return () => {
    clearTimeout(leaving);
    document.removeEventListener("visibilitychange", look);
  };
};

/** Opens the presence of a session; `close` ends it and tells the others. */
export const openPresenceOf = (
  { provider }: BoardSession,
  identity: Identity,
): { readonly presence: PresenceStore; readonly close: () => void } => {
  const channel = openPresence(provider);
  const presence = createPresenceStore(channel, identity);
  const stopFollowing = followPage(presence);
  return {
    presence,
    close: () => {
      stopFollowing();
      presence.close();
      channel.close();
    },
  };
};

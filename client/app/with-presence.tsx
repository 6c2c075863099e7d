import { type ReactNode, useEffect, useState } from "react";
import { ALONE } from "#client/store/presence.ts";
import { PresenceContext } from "#client/store/presence-hooks.ts";
import { whenIdle } from "./load-ahead.ts";
import type { OpenBoard } from "./use-open-board.ts";

/** Gives the screens below it the other people, as soon as the page has nothing better to do. */
export const WithPresence = ({
  board: { session, store },
  children,
}: {
  readonly board: OpenBoard;
  readonly children: ReactNode;
}) => {
  const [presence, setPresence] = useState(ALONE);
  useEffect(() => {
    let gone = false;
    let close = (): void => {};
    const open = async (): Promise<void> => {
      const { openPresenceOf } = await import("./open-presence.ts");
      if (gone) return;
      const opened = openPresenceOf(session, store.identity);
      close = opened.close;
      setPresence(opened.presence);
    };
    // Without it the board works as well; the next visit tries again.
    whenIdle(() => void open().catch(() => {}));
    return () => {
      gone = true;
      close();
      setPresence(ALONE);
    };
  }, [session, store]);
  return <PresenceContext value={presence}>{children}</PresenceContext>;
};

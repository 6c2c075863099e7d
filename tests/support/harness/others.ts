import type { PresenceChannel, Present } from "#client/store/presence.ts";

/** Other people on the page's board, as the test places them. */
export interface Others {
  readonly channel: PresenceChannel;
  readonly show: (others: readonly Present[]) => void;
  /** What this page shows of itself. */
  readonly own: () => Present | null;
}

export const createOthers = (): Others => {
  const heard = new Set<() => void>();
  let others: readonly Present[] = [];
  let own: Present | null = null;
  return {
    channel: {
      announce: (present) => {
        own = present;
      },
      others: () => others,
      subscribe: (listener) => {
        heard.add(listener);
        return () => heard.delete(listener);
      },
    },
    show: (now) => {
      others = now;
      for (const listener of heard) listener();
    },
    own: () => own,
  };
};

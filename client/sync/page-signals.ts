/** What the page hears about the network and about itself. */
export interface PageSignals {
  /**
   * `lost`: the network went away. `back`: it returned, or the page was looked at again. `left`: the page was closed,
   * or put aside by the browser for a while.
   */
  readonly listen: (on: {
    readonly lost: () => void;
    readonly back: () => void;
    readonly left: () => void;
  }) => () => void;
}

/** Nothing to hear, outside a browser. */
const SILENT: PageSignals = { listen: () => () => {} };

/** The signals of the browser window. */
export const pageSignals = (): PageSignals => {
  if (typeof window === "undefined") return SILENT;
  return {
    listen: ({ lost, back, left }) => {
      const seen = (): void => {
        if (document.visibilityState === "visible") back();
      };
      window.addEventListener("offline", lost);
      window.addEventListener("online", back);
      // A page that returns from the browser's memory has lost its socket.
      window.addEventListener("pageshow", seen);
      window.addEventListener("pagehide", left);
      document.addEventListener("visibilitychange", seen);
      return () => {
        window.removeEventListener("offline", lost);
        window.removeEventListener("online", back);
        window.removeEventListener("pageshow", seen);
        window.removeEventListener("pagehide", left);
        document.removeEventListener("visibilitychange", seen);
      };
    },
  };
};

/** What the page hears about the network and about itself. */
export interface PageSignals {
  /** `lost`: the network went away. `back`: it returned, or the page was looked at again. */
  readonly listen: (on: { readonly lost: () => void; readonly back: () => void }) => () => void;
}

/** Nothing to hear, outside a browser. */
const SILENT: PageSignals = { listen: () => () => {} };

/** The signals of the browser window. */
export const pageSignals = (): PageSignals => {
  if (typeof window === "undefined") return SILENT;
  return {
    listen: ({ lost, back }) => {
      const seen = (): void => {
        if (document.visibilityState === "visible") back();
      };
      window.addEventListener("offline", lost);
      window.addEventListener("online", back);
      // A page that returns from the browser's memory has lost its socket.
      window.addEventListener("pageshow", seen);
      document.addEventListener("visibilitychange", seen);
      return () => {
        window.removeEventListener("offline", lost);
        window.removeEventListener("online", back);
        window.removeEventListener("pageshow", seen);
        document.removeEventListener("visibilitychange", seen);
      };
    },
  };
};

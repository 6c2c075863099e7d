/**
 * Loads the page anew if its server answers. For a part that could not be fetched even when tried again: some browsers
 * remember for as long as a page lives that a module could not be had. What was marked is on the device by then.
 */
export const reloadOnceReachable = async (): Promise<void> => {
  try {
    await fetch(location.pathname, { method: "HEAD", cache: "no-store" });
  } catch {
    return;
  }
  location.reload();
};

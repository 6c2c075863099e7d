/** Small things one device remembers about one board. What storage refuses lasts as long as the page. */

/** What was remembered under a name; null = nothing, or storage is closed to this page. */
export const recall = (name: string): string | null => {
  try {
    return window.localStorage.getItem(`tightrow.${name}`);
  } catch {
    return null;
  }
};

export const remember = (name: string, text: string): void => {
  try {
    window.localStorage.setItem(`tightrow.${name}`, text);
  } catch {
    // Storage is closed to this page or full.
  }
};

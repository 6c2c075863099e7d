// Sets the chosen theme and text size before the first paint, so that no dark room sees a white flash.
// The keys are those of client/ui/display.ts. Storage may be closed to the page; the system's theme holds then.
try {
  for (const key of ["theme", "size"]) {
    const chosen = localStorage.getItem(`tightrow.${key}`);
    if (chosen) document.documentElement.dataset[key] = chosen;
  }
} catch {}

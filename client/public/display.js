// Sets what was chosen for this device before the first paint, so that no dark room sees a white flash: theme, text
// size, the hand that taps, and the room's own light. The keys are those of client/ui/display.ts. Storage may be closed
// to the page; the system's theme holds then, and the room is dark.
const chosen = document.documentElement.dataset;
if (/^#\/b\/[^/]+\/room(\/|$)/.test(location.hash)) chosen.place = "room";
if (/^#\/b\/[^/]+\/gigs\/[^/]+\/stand$/.test(location.hash)) chosen.place = "stage";
try {
  for (const key of ["theme", "size", "hand", "room"]) {
    const kept = localStorage.getItem(`tightrow.${key}`);
    if (kept) chosen[key] = kept;
  }
} catch {}
// The canvas has its colour before there is a style sheet, and the browser's own bar goes with it.
if (chosen.place === "stage" || (chosen.place === "room" && chosen.room !== "themed")) {
  document.querySelector("meta[name='color-scheme']").content = "dark";
  for (const bar of document.querySelectorAll("meta[name='theme-color']")) bar.content = "#15120e";
}

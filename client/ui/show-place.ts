/** Ground of the browser's own bar, as in index.html. */
const BAR = { dark: "#15120e", light: "#f9f5ec" } as const;

/** Whether a path within a board is a gig's stand: a dark page with nothing around it. */
export const isStage = (path: string): boolean => /^\/gigs\/[^/]+\/stand$/.test(path);

/**
 * Tells the page whether an address within a board is the room's or the stage's, so that its ground is dark from the first paint
 * of the screen on. `public/display.js` does the same before anything is drawn.
 */
export const showPlace = (path: string): void => {
  const { dataset } = document.documentElement;
  const onStage = isStage(path);
  const inRoom = path === "/room" || path.startsWith("/room/");
  if (onStage || inRoom) dataset.place = onStage ? "stage" : "room";
  else delete dataset.place;
  const dark = onStage || (inRoom && dataset.room !== "themed");
  for (const bar of document.querySelectorAll<HTMLMetaElement>("meta[name='theme-color']"))
    bar.content = dark || bar.media.includes("dark") ? BAR.dark : BAR.light;
};

import { later } from "#client/ui/later.tsx";

/** The way to what changed while somebody was out; fetched once the page stands, in a place that is kept for it. */
export const WhileOutLine = later(async () => (await import("./while-out-here.tsx")).WhileOutHere, "h-12");

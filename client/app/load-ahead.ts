import { matchRoute, type RouterObject } from "wouter";
import type { ScreenRoute } from "./routes.ts";

/** Loads the screen of an address before there is anything to show on it. What fails is tried again when it is shown. */
export const loadScreen = (
  routes: readonly ScreenRoute[],
  parser: RouterObject["parser"],
  location: string,
): void => {
  const route = routes.find(({ path }) => matchRoute(parser, path, location)[0]);
  route?.screen.load().catch(route.screen.forgetFailure);
};

/** Loads the screens marked `ahead` one after another once the page is idle. What fails is tried again when one goes there. */
export const loadAhead = (routes: readonly ScreenRoute[]): void => {
  const rest = routes.filter((route) => route.ahead);
  const next = async () => {
    for (const route of rest) await route.screen.load().catch(route.screen.forgetFailure);
  };
  whenIdle(() => void next());
};

/** Runs `work` once the page has nothing better to do. */
export const whenIdle = (work: () => void): void => {
  // Safari has no requestIdleCallback.
  if ("requestIdleCallback" in window) window.requestIdleCallback(work);
  else setTimeout(work, 1000);
};

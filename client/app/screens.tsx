import { Suspense } from "react";
import { Route, Switch, useLocation } from "wouter";
import { boardLink } from "#client/pieces/links.ts";
import { Arrival } from "./arrival.tsx";
import { ErrorBoundary } from "./error-boundary.tsx";
import { NotHere } from "./not-here.tsx";
import { liesIn } from "./places.ts";
import type { ScreenRoute } from "./routes.ts";
import { type ScreenProps, ShowScreen } from "./screen.tsx";

/** Stands still and says little: nothing spins, nothing flashes. */
const Coming = () => <p className="caption pt-8">One moment</p>;

const forgetFailures = (routes: readonly ScreenRoute[]) => {
  for (const { screen } of routes) screen.forgetFailure();
};

/** Segments as `links.ts` encoded them; the router itself leaves what could be a separator encoded. */
const decoded = (params: Readonly<Record<string, string | undefined>>): ScreenProps["params"] =>
  Object.fromEntries(
    Object.entries(params).map(([name, value]) => {
      try {
        return [name, value === undefined ? value : decodeURIComponent(value)];
      } catch {
        return [name, value];
      }
    }),
  );

/** A part or a score that opens beside the board is no other screen: it takes the focus and gives it back itself. */
const screenAt = (location: string): string => (liesIn(location, boardLink()) ? boardLink() : location);

/** Shows the screen of a table whose address is open. */
export const Screens = ({ routes }: { readonly routes: readonly ScreenRoute[] }) => {
  const [location] = useLocation();
  return (
    <ErrorBoundary at={location} onCaught={() => forgetFailures(routes)}>
      <Suspense fallback={<Coming />}>
        <Switch>
          {routes.map(({ path, screen }) => (
            <Route key={path} path={path}>
              {(params) => <ShowScreen screen={screen} params={decoded(params)} />}
            </Route>
          ))}
          <Route>
            <NotHere />
          </Route>
        </Switch>
        <Arrival at={screenAt(location)} />
      </Suspense>
    </ErrorBoundary>
  );
};

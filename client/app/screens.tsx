import { Suspense } from "react";
import { Route, Switch, useLocation } from "wouter";
import { Arrival } from "./arrival.tsx";
import { ErrorBoundary } from "./error-boundary.tsx";
import { NotHere } from "./not-here.tsx";
import type { ScreenRoute } from "./routes.ts";
import { ShowScreen } from "./screen.tsx";

/** Stands still and says little: nothing spins, nothing flashes. */
const Coming = () => <p className="caption pt-8">One moment</p>;

const forgetFailures = (routes: readonly ScreenRoute[]) => {
  for (const { screen } of routes) screen.forgetFailure();
};

/** Shows the screen of a table whose address is open. */
export const Screens = ({ routes }: { readonly routes: readonly ScreenRoute[] }) => {
  const [location] = useLocation();
  return (
    <ErrorBoundary at={location} onCaught={() => forgetFailures(routes)}>
      <Suspense fallback={<Coming />}>
        <Switch>
          {routes.map(({ path, screen }) => (
            <Route key={path} path={path}>
              {(params) => <ShowScreen screen={screen} params={params} />}
            </Route>
          ))}
          <Route>
            <NotHere />
          </Route>
        </Switch>
        <Arrival at={location} />
      </Suspense>
    </ErrorBoundary>
  );
};

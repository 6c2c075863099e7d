import { useEffect } from "react";
import { Route, Router, Switch, useLocation } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { ToastRegion } from "#client/ui/toast.tsx";
import { AppFrame } from "./app-frame.tsx";
import { loadAhead } from "./load-ahead.ts";
import { boardRoutes, openRoutes } from "./routes.ts";
import { Screens } from "./screens.tsx";

/** Everything within one board. */
const BoardApp = ({ id }: { readonly id: string }) => {
  const [path] = useLocation();
  useEffect(() => loadAhead(boardRoutes), []);
  return (
    <AppFrame board={{ id, name: "Tightrow", path }}>
      <Screens routes={boardRoutes} />
    </AppFrame>
  );
};

/** The whole client: addresses in the fragment, one toast region, a frame around every screen. */
export const App = () => (
  <Router hook={useHashLocation}>
    <ToastRegion>
      <Switch>
        <Route path="/b/:board" nest>
          {({ board }) => <BoardApp key={board} id={board} />}
        </Route>
        <Route>
          <AppFrame>
            <Screens routes={openRoutes} />
          </AppFrame>
        </Route>
      </Switch>
    </ToastRegion>
  </Router>
);

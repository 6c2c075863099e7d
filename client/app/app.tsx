import { useEffect } from "react";
import { Route, Router, Switch } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { BandAccessProvider } from "#client/store/band-access.ts";
import { ToastRegion } from "#client/ui/toast.tsx";
import { access } from "./access.ts";
import { AppFrame } from "./app-frame.tsx";
import { BoardApp } from "./board-app.tsx";
import { DepPlace } from "./dep-place.tsx";
import { device } from "./device.ts";
import { loadAhead, whenIdle } from "./load-ahead.ts";
import { openRoutes } from "./routes.ts";
import { Screens } from "./screens.tsx";
import { callsAhead } from "./server.ts";

/** Places outside any board. A link may be opened here after the signal is gone. */
const OpenPlaces = () => {
  useEffect(() => {
    loadAhead(openRoutes);
    whenIdle(callsAhead);
  }, []);
  return (
    <AppFrame>
      <Screens routes={openRoutes} />
    </AppFrame>
  );
};

/** The whole client: addresses in the fragment, one toast region, a frame around every screen. */
export const App = () => (
  <Router hook={useHashLocation}>
    <BandAccessProvider value={access}>
      <ToastRegion>
        <Switch>
          <Route path="/b/:board" nest>
            {({ board }) =>
              device.board(board)?.role === "dep" ? (
                <DepPlace key={board} board={board} />
              ) : (
                <BoardApp key={board} id={board} />
              )
            }
          </Route>
          <Route>
            <OpenPlaces />
          </Route>
        </Switch>
      </ToastRegion>
    </BandAccessProvider>
  </Router>
);

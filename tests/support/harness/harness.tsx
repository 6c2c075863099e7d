/**
 * Opens screens on a board that lives in the page: no server, no sync, a clock that stands still.
 * Query: `board` = demo (default) | many (60 songs × 8 chairs) | empty; `as` = a person's code of the demo (tomasz, lucia …) or nobody;
 * `role` = leader (default) | member | guest; `rows` = how many rows the history has at least; `knows` = no: this device has not been here before.
 */
import "#client/app.css";
import { StrictMode, Suspense, useLayoutEffect } from "react";
import { createRoot } from "react-dom/client";
import { Route, Router, Switch, useLocation } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import * as Y from "yjs";
import { AppFrame } from "#client/app/app-frame.tsx";
import { BandAccessProvider } from "#client/store/band-access.ts";
import { BoardProvider } from "#client/store/board-context.tsx";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { PresenceContext } from "#client/store/presence-hooks.ts";
import { createPresenceStore } from "#client/store/presence-store.ts";
import { createLocalOutbox } from "#client/store/save-state.ts";
import { randomId } from "#client/sync/random-id.ts";
import { isStage, showPlace } from "#client/ui/show-place.ts";
import { ToastRegion } from "#client/ui/toast.tsx";
import type { Role } from "#shared/commands/command.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { createFakeAccess } from "./fake-access.ts";
import { BOARDS, HARNESS_NOW } from "./harness-boards.ts";
import { createOthers, type Others } from "./others.ts";
import { createRemote, type Remote } from "./remote.ts";
import { BOARD_SCREENS, type HarnessScreen, OPEN_SCREENS } from "./screens.tsx";

declare global {
  interface Window {
    /** For tests: changes the board as another device would, and reads it. */
    harness: { readonly remote: Remote; readonly store: BoardStore; readonly others: Others };
  }
}

const now = () => HARNESS_NOW;

const query = new URLSearchParams(location.search);
const role: Role = (["leader", "member", "guest"] as const).find((r) => r === query.get("role")) ?? "leader";
const as = query.get("as") ?? (query.get("board") === "empty" ? "nobody" : "tomasz");

const others = createOthers();

const openStore = async () => {
  const ydoc = new Y.Doc();
  const board = BOARDS.find((name) => name === query.get("board")) ?? "demo";
  const seed = await fetch(`/boards/${board}.bin`);
  Y.applyUpdate(ydoc, new Uint8Array(await seed.arrayBuffer()));
  const opened = createBoardStore({
    document: createBoardDocument(ydoc),
    outbox: createLocalOutbox(),
    identity: createIdentity({ member: as === "nobody" ? null : `demo-${as}`, writer: "harness", role }),
    now,
    newId: randomId,
  });
  window.harness = { remote: createRemote(ydoc, now), store: opened, others };
  return opened;
};

const store = await openStore();
const presence = createPresenceStore(others.channel, store.identity);
const access = createFakeAccess(now, query.get("knows") !== "no", {
  role,
  member: as === "nobody" ? null : `demo-${as}`,
  rows: Number(query.get("rows") ?? 0),
});

const Screens = ({ screens }: { readonly screens: readonly HarnessScreen[] }) => (
  <Suspense fallback={<p>One moment</p>}>
    <Switch>
      {screens.map(({ path, show }) => (
        <Route key={path} path={path}>
          {(params) => show(params)}
        </Route>
      ))}
      <Route>
        <h1>No such screen in the harness</h1>
      </Route>
    </Switch>
  </Suspense>
);

const BoardScreens = ({ board }: { readonly board: string }) => {
  const [path] = useLocation();
  // As the app does: on stage nothing stands around the screen.
  useLayoutEffect(() => showPlace(isStage(path) ? path : ""), [path]);
  if (isStage(path)) return <Screens screens={BOARD_SCREENS} />;
  return (
    <AppFrame board={{ id: board, name: "Six Spare Fuses", path }}>
      <Screens screens={BOARD_SCREENS} />
    </AppFrame>
  );
};

const root = document.getElementById("root");
if (root !== null)
  createRoot(root).render(
    <StrictMode>
      <Router hook={useHashLocation}>
        <BandAccessProvider value={access}>
          <BoardProvider boardId="demo" store={store}>
            <PresenceContext value={presence}>
              <ToastRegion>
                <Switch>
                  <Route path="/b/:board" nest>
                    {({ board }) => <BoardScreens board={board} />}
                  </Route>
                  <Route>
                    <AppFrame>
                      <Screens screens={OPEN_SCREENS} />
                    </AppFrame>
                  </Route>
                </Switch>
              </ToastRegion>
            </PresenceContext>
          </BoardProvider>
        </BandAccessProvider>
      </Router>
    </StrictMode>,
  );

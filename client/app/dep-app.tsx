import { useEffect, useState } from "react";
import { DepScreen } from "#client/features/dep/dep-screen.tsx";
import { DepStatus } from "#client/features/dep/dep-status.tsx";
import type { DepGigStore } from "#client/store/dep-gig.ts";
import { createDepApi } from "#client/sync/dep-api.ts";
import { createDepGig } from "#client/sync/dep-gig.ts";
import { openDepShelf } from "#client/sync/dep-memory.ts";
import type { KnownBoard } from "#client/sync/device.ts";
import { pageSignals } from "#client/sync/page-signals.ts";
import { randomId } from "#client/sync/random-id.ts";
import { AppFrame } from "./app-frame.tsx";
import { device } from "./device.ts";
import { NotHere } from "./not-here.tsx";
import type { ScreenProps } from "./screen.tsx";
import { startShellWorker } from "./shell-worker.ts";

const browserStorage = (): Storage | null => {
  try {
    return localStorage;
  } catch {
    return null;
  }
};

const openGig = (known: KnownBoard): DepGigStore =>
  createDepGig({
    api: createDepApi(known.token),
    shelf: openDepShelf(known, browserStorage()),
    signals: pageSignals(),
    now: Date.now,
    newId: randomId,
    watched: () => document.visibilityState === "visible",
  });

/** A dep's gig on this device, kept in step with the server while it is on the screen. */
export const DepApp = ({ params: { board = "" } }: ScreenProps) => {
  const [store, setStore] = useState<DepGigStore | null>(null);
  useEffect(() => {
    const known = device.board(board);
    if (known === null) return;
    device.update(board, { lastOpened: Date.now() });
    const opened = openGig(known);
    setStore(opened);
    void startShellWorker();
    return () => opened.close();
  }, [board]);
  if (device.board(board) === null)
    return (
      <AppFrame>
        <NotHere />
      </AppFrame>
    );
  if (store === null) return <AppFrame>{null}</AppFrame>;
  return (
    <AppFrame status={<DepStatus store={store} />}>
      <DepScreen store={store} now={Date.now} />
    </AppFrame>
  );
};

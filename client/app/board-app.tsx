import { useEffect, useLayoutEffect } from "react";
import { useLocation, useRouter } from "wouter";
import { roomLink } from "#client/pieces/links.ts";
import { BoardProvider } from "#client/store/board-context.tsx";
import { useBand, useSaveFact } from "#client/store/hooks.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { isStage, showPlace } from "#client/ui/show-place.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import { AppFrame } from "./app-frame.tsx";
import { device } from "./device.ts";
import { keepPlace } from "./last-place.ts";
import { loadAhead, loadScreen, whenIdle } from "./load-ahead.ts";
import { OpenBoardContext } from "./open-board-context.ts";
import { liesIn } from "./places.ts";
import { boardRoutes } from "./routes.ts";
import { SaveLine } from "./save-line.tsx";
import { Screens } from "./screens.tsx";
import { startShellWorker } from "./shell-worker.ts";
import { StoreNotes } from "./store-notes.tsx";
import { type OpenBoard, useOpenBoard } from "./use-open-board.ts";
import { WithPresence } from "./with-presence.tsx";

const home = (
  <TextLink standing href="#/">
    Go to the start
  </TextLink>
);

const Stranger = () => (
  <AppFrame>
    <PageHeading title="This board is not on this device" />
    <EmptyState title="You need a link to get in." action={home}>
      Ask the band's leader for a joining link, or for a viewing link, and open it on this device.
    </EmptyState>
  </AppFrame>
);

/** Before the first word from the server there is nothing to show, and an empty board would be a lie. */
const NotHereYet = ({ refusal }: { readonly refusal: string | null }) => (
  <>
    <PageHeading title={refusal !== null ? "This device cannot open the board" : "The board is on its way"} />
    {refusal !== null ? (
      <EmptyState title={refusal} action={home}>
        Nothing was changed. Ask the band's leader for a new link.
      </EmptyState>
    ) : (
      <p className="caption pt-4">
        This device opens the board for the first time and needs a signal once. After that it works without.
      </p>
    )}
  </>
);

const hasArrived = ({ asOf, connection }: SaveState): boolean => asOf !== null || connection === "local";
const whyRefused = ({ connection, reason }: SaveState): string | null =>
  connection === "refused" ? reason : null;

const Inside = ({ board }: { readonly board: OpenBoard }) => {
  const [path] = useLocation();
  const band = useBand();
  const arrived = useSaveFact(hasArrived);
  const refusal = useSaveFact(whyRefused);
  const here = arrived || board.store.board().songs.size > 0;
  useEffect(() => {
    // On a slow line the board itself goes first.
    if (!here) return;
    loadAhead(boardRoutes);
    void startShellWorker();
  }, [here]);
  useEffect(() => {
    // What one changes oneself is no news, so it is followed from the start. Where it cannot be fetched, it may be.
    if (arrived)
      whenIdle(() =>
        import("./catch-up-here.ts").then(
          (part) => part.catchUpHere(board),
          () => {},
        ),
      );
  }, [arrived, board]);
  useEffect(() => {
    if (here) device.update(board.known.board, { name: band.name });
  }, [here, band.name, board]);
  useEffect(() => {
    if (here) keepPlace(board.known.board, path);
  }, [here, board, path]);
  // On stage nothing stands around the screen: no places, no saved or unsaved, no notes.
  if (here && isStage(path)) return <Screens routes={boardRoutes} />;
  const frame = { id: board.known.board, name: here ? band.name : board.known.name, path };
  return (
    <AppFrame
      board={frame}
      status={<SaveLine short={liesIn(path, roomLink())} />}
      ownChanges={() => board.store.changes().length}
    >
      <StoreNotes />
      {here ? <Screens routes={boardRoutes} /> : <NotHereYet refusal={refusal} />}
    </AppFrame>
  );
};

/** Everything within one board: opens it from this device, keeps it in step with the server, shows its screens. */
export const BoardApp = ({ id }: { readonly id: string }) => {
  const open = useOpenBoard(id);
  const known = device.board(id);
  const [location] = useLocation();
  const { parser } = useRouter();
  useLayoutEffect(() => {
    showPlace(location);
    return () => showPlace("");
  }, [location]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first screen travels beside the board; later ones load when shown
  useEffect(() => loadScreen(boardRoutes, parser, location), []);
  if (known === null) return <Stranger />;
  // A board opens from this device within a few frames; until then the shell stands still.
  if (open === null || open.known.board !== id) return <AppFrame>{null}</AppFrame>;
  return (
    <OpenBoardContext value={open}>
      <BoardProvider boardId={id} store={open.store}>
        <WithPresence board={open}>
          <Inside board={open} />
        </WithPresence>
      </BoardProvider>
    </OpenBoardContext>
  );
};

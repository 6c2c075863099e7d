import { useCallback, useEffect, useRef, useState } from "react";
import {
  type AccessProblem,
  type FirstPlace,
  firstPlaceOf,
  useBandAccess,
} from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Id } from "#shared/board/ids.ts";

export interface JoinScreenProps {
  readonly board: Id;
  /** The link's secret; the caller has taken it out of the address already. */
  readonly secret: string;
  readonly onJoined: (board: Id, first: FirstPlace) => void;
}

/**
 * Exchanges a link's secret for this device's own key. What comes next happens inside the board: a member picks
 * their name, a guest looks.
 */
export const JoinScreen = ({ board, secret, onJoined }: JoinScreenProps) => {
  const access = useBandAccess();
  const [problem, setProblem] = useState<AccessProblem | null>(null);
  const [waiting, setWaiting] = useState("");
  const stop = useRef<AbortController | null>(null);
  // Each exchange makes a new device on the server, so a secret is exchanged once however often this renders.
  const tried = useRef("");
  const join = useCallback(async () => {
    setProblem(null);
    stop.current = new AbortController();
    const answer = await access.joinWith(secret, { onWaiting: setWaiting, signal: stop.current.signal });
    setWaiting("");
    if (!answer.ok) return setProblem(answer.error);
    onJoined(answer.value.board, firstPlaceOf(answer.value));
  }, [access, secret, onJoined]);
  useEffect(() => {
    if (tried.current === secret) return;
    tried.current = secret;
    void join();
  }, [join, secret]);
  const stopWaiting = () => stop.current?.abort();
  const known = access.known().some((band) => band.board === board);
  return (
    <div className="max-w-2xl">
      <PageHeading title="Into the board" />
      {problem === null ? (
        <div className="flex flex-col items-start gap-3">
          <p role="status">{waiting || "Opening the link."}</p>
          {waiting ? <Button onClick={stopWaiting}>Stop waiting</Button> : null}
        </div>
      ) : (
        <ErrorNote
          title={problem.message}
          action={
            <div className="flex flex-wrap items-center gap-4">
              {problem.retriable ? (
                <Button tone="main" onClick={() => void join()}>
                  Try again
                </Button>
              ) : null}
              {known ? (
                <TextLink standing href={`#/b/${encodeURIComponent(board)}/board`}>
                  Open the board this device knows
                </TextLink>
              ) : null}
              <TextLink standing href="#/">
                Go to the start
              </TextLink>
            </div>
          }
        >
          {problem.retriable
            ? "The link itself may be fine. Keep this page open until there is a signal."
            : "Nothing was changed on this device."}
        </ErrorNote>
      )}
    </div>
  );
};

import { type ComponentType, useEffect, useRef, useState } from "react";
import { Button } from "./button.tsx";
import { ErrorNote } from "./error-note.tsx";
import { reloadOnceReachable } from "./reload-once-reachable.ts";

/**
 * A part of a screen that is fetched when it is first drawn, as people can begin without it. `room` is the class that
 * keeps its place, so that nothing moves when it comes. What cannot be fetched is tried again when the network is back.
 */
export const later = <P extends object>(
  load: () => Promise<ComponentType<P>>,
  room: string,
): ComponentType<P> => {
  let fetched: ComponentType<P> | null = null;
  return (props: P) => {
    const [Part, setPart] = useState(() => fetched);
    const [tries, setTries] = useState(0);
    const [missing, setMissing] = useState(false);
    const asked = useRef(false);
    // biome-ignore lint/correctness/useExhaustiveDependencies: each try fetches once
    useEffect(() => {
      let gone = false;
      const take = (part: ComponentType<P>): void => {
        fetched = part;
        if (!gone) setPart(() => part);
      };
      const miss = (): void => {
        if (gone) return;
        setMissing(true);
        if (asked.current) void reloadOnceReachable();
        asked.current = false;
      };
      if (fetched === null) load().then(take, miss);
      return () => {
        gone = true;
      };
    }, [tries]);
    useEffect(() => {
      if (!missing) return;
      const again = (): void => setTries((n) => n + 1);
      window.addEventListener("online", again);
      return () => window.removeEventListener("online", again);
    }, [missing]);
    if (Part !== null) return <Part {...props} />;
    if (!missing) return <div aria-busy="true" className={room} />;
    return (
      <ErrorNote
        title="This part of Tightrow is not on this device yet."
        action={
          <Button
            onClick={() => {
              asked.current = true;
              setTries(tries + 1);
            }}
          >
            Try again
          </Button>
        }
      >
        It needs a signal once. Everything you marked is kept on this device.
      </ErrorNote>
    );
  };
};

import { type ReactNode, useEffect, useState } from "react";
import { useLocation } from "wouter";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { Button } from "#client/ui/button.tsx";
import { homeScreen, putOnHomeScreen } from "./home-screen.ts";
import { askToLastOnce } from "./lasting-storage.ts";
import { liesIn } from "./places.ts";
import { shellState, takeUpdate } from "./shell-worker.ts";
import { usedEnough } from "./used-enough.ts";

type Note = "update" | "install" | null;

const DECLINED = "home-screen-note";
let updateLater = false;

/** Where hands are on an instrument. */
const QUIET = ["/room", "/parts/practice"] as const;

const today = (): string => new Date().toLocaleDateString("sv");

const dueNote = (path: string, changes: number): Note => {
  if (QUIET.some((place) => liesIn(path, place))) return null;
  if (shellState() === "update waiting" && !updateLater) return "update";
  if (!usedEnough(today(), changes)) return null;
  askToLastOnce();
  const where = homeScreen();
  return recall(DECLINED) === null && (where === "offered" || where === "by hand") ? "install" : null;
};

const Line = ({ children, actions }: { readonly children: ReactNode; readonly actions: ReactNode }) => (
  <div className="px-page flex flex-wrap items-center gap-x-4 border-b border-line py-1">
    <p>{children}</p>
    {actions}
  </div>
);

const decline = (): void => remember(DECLINED, "no");

const Install = ({ onDone }: { readonly onDone: () => void }) => {
  const [byHand] = useState(() => homeScreen() === "by hand");
  const close = (): void => {
    decline();
    onDone();
  };
  return (
    <Line
      actions={
        <>
          {byHand ? null : (
            <Button
              tone="quiet"
              className="font-semibold"
              onClick={() => {
                close();
                void putOnHomeScreen();
              }}
            >
              Put it there
            </Button>
          )}
          <Button tone="quiet" onClick={close}>
            {byHand ? "Good to know" : "Not on this device"}
          </Button>
        </>
      }
    >
      {byHand
        ? "Tightrow opens from the home screen, also without a signal: the browser's menu puts it there."
        : "Tightrow can stand on your home screen and open without a signal."}
    </Line>
  );
};

export interface HeaderNoteProps {
  /** How many changes this device has made in this visit. */
  readonly ownChanges?: (() => number) | undefined;
}

/**
 * At most one thing that Tightrow has to say about itself. It comes with a screen one goes to, or with coming back to
 * the page, and never onto a screen one is using; never in the room and never during practice.
 */
export const HeaderNote = ({ ownChanges = () => 0 }: HeaderNoteProps) => {
  const [path] = useLocation();
  const arrive = () => ({ path, note: dueNote(path, ownChanges()) });
  // It is fetched when the page has nothing better to do, so somebody may be reading by now.
  const [shown, setShown] = useState<{ readonly path: string; readonly note: Note }>({ path, note: null });
  if (shown.path !== path) setShown(arrive());
  useEffect(() => {
    const back = () => {
      if (document.visibilityState === "visible") setShown(arrive());
    };
    document.addEventListener("visibilitychange", back);
    return () => document.removeEventListener("visibilitychange", back);
  });
  const close = () => setShown({ path, note: null });
  return (
    <div role="status" className="no-print">
      {shown.note === "update" ? (
        <Line
          actions={
            <>
              <Button tone="quiet" className="font-semibold" onClick={takeUpdate}>
                Use it now
              </Button>
              <Button
                tone="quiet"
                onClick={() => {
                  updateLater = true;
                  close();
                }}
              >
                Later
              </Button>
            </>
          }
        >
          A newer Tightrow is ready. It keeps everything you have here.
        </Line>
      ) : shown.note === "install" ? (
        <Install onDone={close} />
      ) : null}
    </div>
  );
};

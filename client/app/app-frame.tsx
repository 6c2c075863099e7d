import ChevronDown from "lucide-react/icons/chevron-down";
import Settings from "lucide-react/icons/settings";
import Users from "lucide-react/icons/users";
import { type ComponentType, type ReactNode, useEffect, useRef, useState } from "react";
import { classNames } from "#client/ui/class-names.ts";
import { Mark } from "#client/ui/mark.tsx";
import { Menu } from "#client/ui/menu.tsx";
import type { HeaderNoteProps } from "./header-note.tsx";
import { whenIdle } from "./load-ahead.ts";
import { boardHref, liesIn, PLACES } from "./places.ts";

export interface AppFrameProps extends HeaderNoteProps {
  /** The board that is open, and the path within it; without one there is nowhere to navigate. */
  readonly board?: { readonly id: string; readonly name: string; readonly path: string } | undefined;
  /** Connection and save state. */
  readonly status?: ReactNode;
  readonly children: ReactNode;
}

type OpenBoard = NonNullable<AppFrameProps["board"]>;

/** The places stand on a taut line; a head marks the one that is open. */
const Places = ({ board }: { readonly board: OpenBoard }) => (
  <nav
    aria-label="Places"
    className="places no-print max-laptop:px-page max-laptop:pb-safe max-laptop:fixed max-laptop:inset-x-0 max-laptop:bottom-0 max-laptop:bg-ground laptop:h-full"
  >
    {/* With large letters the places scroll sideways, so that the page need not. */}
    <ul className="flex h-16 max-laptop:overflow-x-auto laptop:h-full">
      {PLACES.map((place) => {
        const here = liesIn(board.path, place.path);
        return (
          <li key={place.path} className="flex flex-auto">
            <a
              href={boardHref(board.id, place.path)}
              aria-current={here ? "page" : undefined}
              className={classNames(
                "relative flex min-w-11 flex-auto items-center justify-center px-1 -outline-offset-4 max-laptop:pt-3 laptop:px-4",
                here ? "font-semibold text-ink" : "text-quiet hover:text-ink",
              )}
            >
              {place.name}
              {here ? <HereMark /> : null}
            </a>
          </li>
        );
      })}
    </ul>
  </nav>
);

/** Stands on the line: over the words on a phone, under them on a laptop. */
const HereMark = () => (
  <svg
    aria-hidden="true"
    width="16"
    height="11"
    viewBox="0 0 16 11"
    className="absolute inset-x-0 top-0.5 mx-auto fill-accent laptop:top-auto laptop:bottom-0"
  >
    <ellipse cx="8" cy="5.5" rx="7" ry="5" transform="rotate(-20 8 5.5)" />
  </svg>
);

const BandName = ({ board }: { readonly board: OpenBoard }) => (
  <Menu
    className="min-w-0 gap-2 font-semibold"
    trigger={
      <>
        <Mark />
        <span className="truncate">{board.name}</span>
        <ChevronDown aria-hidden="true" size={16} strokeWidth={1.75} className="text-quiet" />
      </>
    }
    items={[
      { label: "People and chairs", icon: Users, href: boardHref(board.id, "/people") },
      { label: "Settings", icon: Settings, href: boardHref(board.id, "/settings") },
    ]}
  />
);

const Home = () => (
  <a href="#/" className="inline-flex min-h-12 items-center gap-2 font-semibold dense:min-h-9">
    <Mark />
    Tightrow
  </a>
);

/** Nobody waits for it, so it is fetched last and its lack is no error. */
const LateHeaderNote = (props: HeaderNoteProps) => {
  const [Note, setNote] = useState<ComponentType<HeaderNoteProps> | null>(null);
  useEffect(() => {
    whenIdle(
      () =>
        void import("./header-note.tsx").then(
          ({ HeaderNote }) => setNote(() => HeaderNote),
          () => {},
        ),
    );
  }, []);
  return Note === null ? null : <Note {...props} />;
};

/** What stands around every screen: skip link, band, places, status. A bottom bar on phones, a top bar on laptops. */
export const AppFrame = ({ board, status, ownChanges, children }: AppFrameProps) => {
  const main = useRef<HTMLElement>(null);
  return (
    <div className="flex min-h-dvh flex-col">
      <button
        type="button"
        onClick={() => main.current?.focus()}
        className="sr-only border border-control bg-raised px-4 focus:not-sr-only focus:fixed focus:top-2 focus:left-2 focus:z-50 focus:min-h-12 focus:px-4"
      >
        Skip to the content
      </button>
      <header className="px-page no-print sticky top-0 z-20 flex min-h-14 items-center justify-between gap-4 border-b border-control bg-ground laptop:h-14">
        <div className="flex h-full min-w-0 items-center gap-6">
          {board ? <BandName board={board} /> : <Home />}
          {board ? <Places board={board} /> : null}
        </div>
        {status}
      </header>
      <LateHeaderNote ownChanges={ownChanges} />
      <main
        ref={main}
        tabIndex={-1}
        className="px-page w-full flex-1 pb-[calc(6rem+env(safe-area-inset-bottom,0px))] outline-none laptop:pb-12 print:pb-0"
      >
        {children}
      </main>
    </div>
  );
};

import { type ReactNode, useState } from "react";
import { ImportBoard } from "#client/pieces/import-board.tsx";
import {
  type FirstPlace,
  firstPlaceOf,
  type KnownBand,
  type LedBand,
  useBandAccess,
  useKnownBands,
} from "#client/store/band-access.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { HaveLink } from "./have-link.tsx";
import { KeepCode } from "./keep-code.tsx";
import { LostDevices } from "./lost-devices.tsx";
import { NewBand } from "./new-band.tsx";

export interface WelcomeScreenProps {
  readonly onOpen: (board: string, first: FirstPlace) => void;
}

const ROLE_WORDS = {
  leader: "you lead",
  member: "you play",
  guest: "you look on",
  dep: "you sit in",
} as const;

const Way = ({
  title,
  why,
  children,
}: {
  readonly title: string;
  readonly why: string;
  readonly children: ReactNode;
}) => (
  <section className="border-t border-line py-6">
    <h2 className="text-title font-semibold">{title}</h2>
    <p className="mb-3 text-quiet">{why}</p>
    {children}
  </section>
);

const KnownBands = ({ bands }: { readonly bands: readonly KnownBand[] }) => (
  <section aria-labelledby="known">
    <h2 id="known" className="text-title font-semibold">
      On this device
    </h2>
    {/* The line under the last row is the one over the next way in. */}
    <ul className="mt-2 -mb-px border-t border-line">
      {bands.map(({ board, name, role }) => (
        <ListRow key={board} href={`#/b/${encodeURIComponent(board)}/board`} note={ROLE_WORDS[role]}>
          {name}
        </ListRow>
      ))}
    </ul>
  </section>
);

const Demo = ({ onOpen, main }: { readonly onOpen: (board: string) => void; readonly main: boolean }) => {
  const access = useBandAccess();
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const open = async () => {
    setBusy(true);
    const answer = await access.openDemo();
    setBusy(false);
    if (answer.ok) onOpen(answer.value.board);
    else setProblem(answer.error.message);
  };
  return (
    <>
      <Button tone={main ? "main" : "plain"} disabled={busy} onClick={() => void open()}>
        Open the demo band
      </Button>
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      ) : null}
    </>
  );
};

/** A band whose recovery code is on the screen, and where to go after that. */
interface Led {
  readonly band: LedBand;
  readonly first: FirstPlace;
  readonly again: boolean;
}

/** The way in. One sentence on the job, three ways on, and what this device knows already. */
export const WelcomeScreen = ({ onOpen }: WelcomeScreenProps) => {
  const access = useBandAccess();
  const bands = useKnownBands();
  const [led, setLed] = useState<Led | null>(null);
  const joined = (band: KnownBand) => onOpen(band.board, firstPlaceOf(band));
  if (led !== null) return <KeepCode {...led} onDone={() => onOpen(led.band.board, led.first)} />;
  return (
    <div className="max-w-2xl">
      <PageHeading title="Which songs are ready, for whom, and why" />
      <p className="pb-8 text-room">
        A rehearsal board for a band: everybody marks their own details on their own phone, the band logs how
        its runs went, and the board says what stands for the next gig and what is still in the way.
      </p>
      {bands.length === 0 ? null : <KnownBands bands={bands} />}
      <Way
        title="Look around first"
        why="An invented band with a season behind it and a gig ahead. Change what you like."
      >
        <Demo main={bands.length === 0} onOpen={(board) => onOpen(board, "board")} />
      </Way>
      <Way
        title="Start your own band"
        why="Chairs, songs, a link for the others: a few minutes, and no account."
      >
        <NewBand onStarted={(band) => setLed({ band, first: "start", again: false })} />
      </Way>
      <Way title="I have a link" why="From your band's leader. Opening it lets this device in.">
        <HaveLink onJoined={joined} />
      </Way>
      <Accordion summary="I have a saved board" className="border-t">
        <div className="pb-4 pl-6">
          <ImportBoard onStarted={(band) => setLed({ band, first: "board", again: false })} />
        </div>
      </Accordion>
      <Accordion summary="I lead a band and lost every device">
        <div className="pb-4 pl-6">
          <p className="mb-3 text-quiet">
            The recovery code you wrote down lets this device lead your band again. Devices you lost can then
            be removed under People.
          </p>
          <LostDevices onRecovered={(band) => setLed({ band, first: "board", again: true })} />
        </div>
      </Accordion>
      <Accordion summary="What stays on this device">
        <div className="flex flex-col gap-2 pb-4 pl-6 text-quiet">
          <p>
            A copy of each board it has been let into, so that it works without a signal; the key that lets it
            in; and how you like it to look. No name, no address, no account, nothing about you that you did
            not write on a board.
          </p>
          <p>
            Boards themselves live on the server this page came from.{" "}
            {access.remembers()
              ? "Some browsers clear what was not used for a week: then open your link again."
              : "This browser keeps nothing between visits, perhaps because the window is private: keep your link."}
          </p>
        </div>
      </Accordion>
    </div>
  );
};

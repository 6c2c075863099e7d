import { type ReactNode, useEffect, useRef, useState } from "react";
import { useAuthor, useBand, useChairs, usePeople, useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { listed } from "#shared/readiness/names.ts";
import { StartYou } from "./start-you.tsx";

export interface StartScreenProps {
  /** Picks a line-up. */
  readonly lineUp: ReactNode;
  /** Adds songs. */
  readonly songs: ReactNode;
  /** Makes links. */
  readonly links: ReactNode;
  readonly onDone: () => void;
}

const STEPS = ["Chairs", "You", "Songs", "The others"] as const;
type Step = 0 | 1 | 2 | 3;

const HEADS = [
  "Which chairs does your band have?",
  "Who are you, and what do you play?",
  "What do you play?",
  "Let the others in",
] as const;

const Progress = ({ step }: { readonly step: Step }) => (
  <ol className="flex flex-wrap gap-x-6 gap-y-1 pb-6">
    {STEPS.map((name, index) => (
      <li
        key={name}
        aria-current={index === step ? "step" : undefined}
        className={index === step ? "border-b-4 border-ink font-semibold" : "text-quiet"}
      >
        {index + 1} {name}
      </li>
    ))}
  </ol>
);

const ChairsStep = ({ lineUp, onNext }: { readonly lineUp: ReactNode; readonly onNext: () => void }) => {
  const chairs = useChairs();
  return (
    <>
      {chairs.length === 0 ? (
        <>
          <p className="pb-3 text-quiet">
            A chair is an instrument or a voice, a column of the board. Start from the nearest line-up;
            everything can be changed under People and chairs.
          </p>
          {lineUp}
        </>
      ) : (
        <p>{listed(chairs.map(({ name }) => name))}.</p>
      )}
      <Button tone={chairs.length > 0 ? "main" : "quiet"} className="mt-4" onClick={onNext}>
        {chairs.length > 0 ? "Go on" : "Chairs later"}
      </Button>
    </>
  );
};

const SongsStep = ({ songs, onNext }: { readonly songs: ReactNode; readonly onNext: () => void }) => {
  const { size } = useSongs();
  return (
    <>
      <p className="pb-3 text-quiet">
        Three songs are enough to begin with. Paste the list you have, or write one title per line.
      </p>
      {songs}
      <div className="mt-4 flex flex-wrap items-center gap-4">
        <Button tone={size > 0 ? "main" : "quiet"} onClick={onNext}>
          {size > 0 ? "Go on" : "Songs later"}
        </Button>
        {size > 0 ? <p className="caption">{size === 1 ? "1 song" : `${size} songs`} on the board.</p> : null}
      </div>
    </>
  );
};

const LinksStep = ({ links, onDone }: { readonly links: ReactNode; readonly onDone: () => void }) => (
  <>
    <p className="pb-3 text-quiet">
      One joining link serves the whole band: each of them opens it on their own phone and picks their name.
    </p>
    {links}
    <Button tone="main" className="mt-6" onClick={onDone}>
      Go to the board
    </Button>
  </>
);

const firstStep = (chairs: number, me: boolean, songs: number): Step => {
  if (chairs === 0) return 0;
  if (!me) return 1;
  return songs === 0 ? 2 : 3;
};

/** A new band in four steps. Each may be left out; coming back goes on where something is missing. */
export const StartScreen = ({ lineUp, songs, links, onDone }: StartScreenProps) => {
  const { name } = useBand();
  const { member } = useAuthor();
  const [chairCount, songCount] = [useChairs().length, useSongs().size];
  const me = usePeople().has(member ?? "");
  const [step, setStep] = useState<Step>(() => firstStep(chairCount, me, songCount));
  const head = useRef<HTMLHeadingElement>(null);
  const arrived = useRef(step);
  useEffect(() => {
    if (arrived.current !== step) head.current?.focus();
    arrived.current = step;
  }, [step]);
  return (
    <div className="max-w-2xl">
      <PageHeading title={name} above="A new band" />
      <Progress step={step} />
      <h2 ref={head} tabIndex={-1} className="mb-3 text-title font-semibold">
        {HEADS[step]}
      </h2>
      {step === 0 ? <ChairsStep lineUp={lineUp} onNext={() => setStep(1)} /> : null}
      {step === 1 ? <StartYou onDone={() => setStep(2)} /> : null}
      {step === 2 ? <SongsStep songs={songs} onNext={() => setStep(3)} /> : null}
      {step === 3 ? <LinksStep links={links} onDone={onDone} /> : null}
    </div>
  );
};

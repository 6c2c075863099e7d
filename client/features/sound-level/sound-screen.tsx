import X from "lucide-react/icons/x";
import { roomLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { Button } from "#client/ui/button.tsx";
import { Figure } from "#client/ui/figure.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Stretch } from "#shared/music/loudness.ts";
import { percentWords, readSound, timeWords } from "#shared/selectors/sound-evening.ts";
import { StretchForm } from "./stretch-form.tsx";
import { useStretches } from "./use-stretches.ts";

const ADVICE = [
  "Wear plugs, and put them in before it is loud: taken out for part of the time they help far less.",
  "Take breaks somewhere quiet. Half the time is half the share.",
  "Step away from drums, cymbals and horns, and turn down: 3 dB less lasts twice as long. An amplifier that stands at the height of its player's ears can be set lower.",
] as const;

/** How much of a day's guide for loud sound an evening uses up, from levels that somebody read off a meter. */
export const SoundScreen = () => {
  const href = useHref();
  const [stretches, setStretches] = useStretches();
  return (
    <div className="max-w-2xl">
      <PageHeading title="How loud, how long" above="Take care" />
      <p className="mb-6 text-quiet">
        Type in what a real meter shows. Nothing here measures: a phone's microphone is no meter.
      </p>
      <StretchForm stretches={stretches} onAdd={(stretch) => setStretches([...stretches, stretch])} />
      <Result stretches={stretches} onChange={setStretches} />
      <SectionHeading title="What helps" />
      <ul className="list-disc pl-5 text-quiet">
        {ADVICE.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <SectionHeading title="Where the numbers come from" />
      <div className="flex flex-col gap-2 text-quiet">
        <p>
          A guide for work: 85 dB(A) for eight hours, half the time for every 3 dB more, stretches of a day
          added up (NIOSH, Criteria for a Recommended Standard, 98-126, 1998). No sound should be over 140
          dB(A).
        </p>
        <p>
          For venues the World Health Organization asks for at most 100 dB, averaged over 15 minutes (Global
          standard for safe listening venues and events, 2022).
        </p>
        <p>
          Plugs are not counted in. What is printed on them is measured in a laboratory; NIOSH (1998) takes a
          quarter off that for earmuffs, half for foam plugs and 70 % for other plugs.
        </p>
        <p className="text-ink">
          This is a guide for work, not medical advice. Ringing or muffled hearing: see a professional.
        </p>
      </div>
      <TextLink standing href={href(roomLink())} className="mt-6">
        Back to the room
      </TextLink>
    </div>
  );
};

interface ResultProps {
  readonly stretches: readonly Stretch[];
  readonly onChange: (stretches: readonly Stretch[]) => void;
}

const Result = ({ stretches, onChange }: ResultProps) => {
  const reading = readSound(stretches);
  return (
    <section aria-label="Today" aria-live="polite">
      <SectionHeading title="Today" aside="on this device only, until tomorrow" />
      {reading === null ? (
        <p className="text-quiet">Nothing counted yet.</p>
      ) : (
        <>
          <Figure label="of the day's guide" value={`${percentWords(reading.share)} %`} />
          <p className="mt-2">{reading.sentence}</p>
          <p>{reading.goesOn}</p>
          <ul className="mt-4 border-t border-line">
            {stretches.map(({ level, minutes }, i) => (
              <li
                // biome-ignore lint/suspicious/noArrayIndexKey: two stretches may be alike; a place is all they have
                key={i}
                className="flex min-h-12 items-center justify-between border-b border-line"
              >
                <span>
                  {level} dB(A) for {timeWords(minutes)}
                </span>
                <IconButton
                  icon={X}
                  label={`Leave out: ${level} dB(A) for ${timeWords(minutes)}`}
                  onClick={() => onChange(stretches.filter((_, other) => other !== i))}
                />
              </li>
            ))}
          </ul>
          <Button tone="quiet" onClick={() => onChange([])}>
            Start anew
          </Button>
        </>
      )}
    </section>
  );
};

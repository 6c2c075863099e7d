import { soundLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";

const CAUTIONS: readonly { readonly title: string; readonly lines: readonly string[] }[] = [
  {
    title: "Hearing",
    lines: [
      "Rehearsal rooms often run at 95 to 105 dB(A). The usual guide at work is 85 for eight hours, halved for every 3 dB more, so 100 is about 15 minutes (NIOSH, 1998).",
      "Wear plugs, take breaks. Keep the click just above what you play, in headphones above all: it starts at half volume at most. A phone does not measure what your ears take.",
    ],
  },
  {
    title: "Voice",
    lines: [
      "Singers may mark: sing softly or an octave down. Count the hard songs of an evening.",
      "Hoarse for more than two to three weeks: see a doctor. Nothing here is a diagnosis.",
    ],
  },
  {
    title: "Hands",
    lines: [
      "Break after 25 minutes of practice. Pain means stop; pain that stays is for a doctor.",
      "Raise the tempo by at most five per cent at a time: the click never does more. Common practice, no published source.",
    ],
  },
  {
    title: "Electricity and stage",
    lines: [
      "Residual-current protection on every circuit, tested leads, no drinks on amplifiers, no charging lead across a walkway.",
      "Never lift an earth against a hum. When in doubt, a competent person decides.",
    ],
  },
  {
    title: "Driving",
    lines: ["Nothing here needs an answer on the road. Look at it before you leave or once you are there."],
  },
  {
    title: "Light",
    lines: [
      "Nothing here flashes. Pulses for the beat stay small, because fast flashing of a whole screen can bring on seizures.",
    ],
  },
  {
    title: "Copyright",
    lines: [
      "Write down titles, keys, tempos, bars and your own words about how you play. Point at a line by its number and its last word.",
      "No lyrics, no whole tabs or scores, no recordings: they belong to others, and the board has no place for them. Rules differ between countries; this is no legal advice.",
    ],
  },
  {
    title: "People",
    lines: [
      "Fees, and why somebody is away, are nobody else's business: keep them off the board. Everybody who has a link sees it.",
    ],
  },
];

const SoundLink = () => {
  const href = useHref();
  return (
    <TextLink standing href={href(soundLink())}>
      How loud, how long
    </TextLink>
  );
};

/** Where this work can hurt, and the usual care. */
export const Cautions = () => (
  <section aria-labelledby="cautions">
    <SectionHeading title={<span id="cautions">Take care</span>} />
    <div className="max-w-2xl border-t border-line">
      {CAUTIONS.map(({ title, lines }) => (
        <Accordion key={title} summary={title}>
          <div className="flex flex-col gap-2 pb-4 pl-6 text-quiet">
            {lines.map((line) => (
              <p key={line}>{line}</p>
            ))}
            {title === "Hearing" ? <SoundLink /> : null}
          </div>
        </Accordion>
      ))}
    </div>
  </section>
);

import { useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { soundLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { guideMinutes } from "#shared/music/loudness.ts";

const NAME = "hearing-note";
/** About what a loud rehearsal room reaches, dB(A). */
const LOUD = 100;

/** Said once on each device, quietly. */
export const HearingNote = () => {
  const [read, setRead] = useState(() => recall(NAME) !== null);
  const href = useHref();
  if (read) return null;
  return (
    <aside aria-label="About your ears" className="no-print mt-10 border-l-2 border-control pl-3">
      <p className="text-quiet">
        Rooms are loud. A common guide for work (NIOSH, 1998) is 85 dB(A) for 8 hours, halved with every 3 dB
        more: at {LOUD} dB(A) that is {guideMinutes(LOUD)} minutes. Plugs and breaks help. Nothing here
        measures it.
      </p>
      <TextLink standing href={href(soundLink())} className="mr-4">
        How loud, how long
      </TextLink>
      <Button
        tone="quiet"
        onClick={() => {
          remember(NAME, "read");
          setRead(true);
        }}
      >
        Good to know
      </Button>
    </aside>
  );
};

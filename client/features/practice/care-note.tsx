import { useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { Button } from "#client/ui/button.tsx";
import { RISE_MOST } from "#shared/music/click.ts";
import { guideMinutes } from "#shared/music/loudness.ts";
import { BREAK_AFTER } from "#shared/selectors/practice-list.ts";

const NAME = "practice-note";
/** What headphones easily reach over drums or an amplifier, dB(A). */
const LOUD = 94;

/** Said until it has been read on this device; the settings say it again at any time. */
export const CareNote = () => {
  const [read, setRead] = useState(() => recall(NAME) !== null);
  if (read) return null;
  return (
    <aside aria-label="About your hands and ears" className="no-print mt-10 border-l-2 border-control pl-3">
      <p className="text-quiet">
        Pain means stop. Break after {BREAK_AFTER} minutes, and raise the tempo by {RISE_MOST} % at most
        (common practice, no published source). Keep the click just above what you play: a guide for work
        (NIOSH, 1998) is 85 dB(A) for 8 hours, halved with every 3 dB more; at {LOUD} dB(A) that is{" "}
        {guideMinutes(LOUD)} minutes. Nothing here measures it.
      </p>
      <Button
        tone="quiet"
        size="room"
        onClick={() => {
          remember(NAME, "read");
          setRead(true);
        }}
      >
        I have read it
      </Button>
    </aside>
  );
};

import { useState } from "react";
import { useLocation } from "wouter";
import { ImportBoard } from "#client/pieces/import-board.tsx";
import { RecoveryCode } from "#client/pieces/recovery-code.tsx";
import type { LedBand } from "#client/store/band-access.ts";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { SaveBoard } from "./save-board.tsx";

/** The whole board as a file, and a new board from such a file. */
export const DataSection = () => {
  const [, go] = useLocation();
  const [led, setLed] = useState<LedBand | null>(null);
  return (
    <section aria-labelledby="data">
      <SectionHeading title={<span id="data">Your data</span>} />
      <div className="max-w-2xl">
        <p className="text-quiet">
          One file holds everything: songs, details, statuses, the log, gigs, people, and what was taken off
          the board. Keep one now and then; some browsers clear unused storage after a week.
        </p>
        <SaveBoard />
        {led === null ? (
          <ImportBoard onStarted={setLed} />
        ) : (
          <div className="mt-6 flex flex-col gap-3">
            <p>
              The new board of <strong>{led.name}</strong> is there. This is its recovery code, shown this
              once.
            </p>
            <RecoveryCode
              band={led.name}
              code={led.recoveryCode}
              onWritten={() => go(`~/b/${encodeURIComponent(led.board)}/board`)}
            />
          </div>
        )}
      </div>
    </section>
  );
};

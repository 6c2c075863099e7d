import { useEffect } from "react";
import { RecoveryCode } from "#client/pieces/recovery-code.tsx";
import type { LedBand } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";

export interface KeepCodeProps {
  readonly band: LedBand;
  /** True when this device has just been let in again by a code, which is void now. */
  readonly again: boolean;
  readonly onDone: () => void;
}

/** Between starting a band and setting it up: the one thing that helps when every device is lost. */
export const KeepCode = ({ band, again, onDone }: KeepCodeProps) => {
  // It takes the place of the screen whose button had the focus.
  useEffect(() => {
    window.scrollTo(0, 0);
    document.querySelector<HTMLElement>("main h1")?.focus();
  }, []);
  return (
    <div className="max-w-2xl">
      <PageHeading title="Write this down" above={band.name} />
      <p className="pb-6 text-room">
        {again
          ? "You lead again on this device. The code you used is void; this is the new one, shown this once."
          : "Tightrow knows no accounts and no addresses. If you lose this device and no other one leads, this code is the only way back in. It is shown this once."}
      </p>
      <RecoveryCode
        band={band.name}
        code={band.recoveryCode}
        onWritten={onDone}
        others={
          <Button tone="quiet" onClick={onDone}>
            Go on without it
          </Button>
        }
      />
      <p className="no-print caption mt-4 max-w-xl">
        Going on without it is fine for a try. You can make a new code later under People, as long as one of
        your devices still leads.
      </p>
    </div>
  );
};

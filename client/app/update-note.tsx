import { useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { takeUpdate, useShellWorker } from "./shell-worker.ts";

/** Says that a newer version waits. It goes on waiting until somebody takes it. */
export const UpdateNote = () => {
  const state = useShellWorker();
  const [later, setLater] = useState(false);
  return (
    <div role="status" className="no-print">
      {state === "update waiting" && !later ? (
        <div className="px-page flex flex-wrap items-center gap-x-4 border-b border-line py-1">
          <p>A newer Tightrow is ready. It keeps everything you have here.</p>
          <Button tone="quiet" className="font-semibold" onClick={takeUpdate}>
            Use it now
          </Button>
          <Button tone="quiet" onClick={() => setLater(true)}>
            Later
          </Button>
        </div>
      ) : null}
    </div>
  );
};

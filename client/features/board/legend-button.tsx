import { useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { StatusLegend } from "#client/ui/status-legend.tsx";
import { LEVEL_WORDS } from "#shared/board/status.ts";

/** What the shapes mean, one tap away. */
export const LegendButton = () => {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button tone="quiet" onClick={() => setOpen(true)}>
        What the shapes mean
      </Button>
      <Dialog
        open={open}
        onClose={() => setOpen(false)}
        title="What the shapes mean"
        actions={
          <Button tone="main" onClick={() => setOpen(false)}>
            Close
          </Button>
        }
      >
        <StatusLegend words={LEVEL_WORDS} />
      </Dialog>
    </>
  );
};

import { Suspense } from "react";
import { AppFrame } from "./app-frame.tsx";
import { Arrival } from "./arrival.tsx";
import { ErrorBoundary } from "./error-boundary.tsx";
import { ShowScreen, screen } from "./screen.tsx";

/** Bands load none of it, and deps load nothing of the board. */
const depScreen = screen(async () => (await import("./dep-app.tsx")).DepApp);

/** Where a dep's link leads: one gig, whatever address within the board was opened. */
export const DepPlace = ({ board }: { readonly board: string }) => (
  <ErrorBoundary at={board} onCaught={depScreen.forgetFailure}>
    <Suspense fallback={<AppFrame>{null}</AppFrame>}>
      <ShowScreen screen={depScreen} params={{ board }} />
      <Arrival at={board} />
    </Suspense>
  </ErrorBoundary>
);

import { type ReactNode, useEffect, useState } from "react";
import { useBand, useSaveState } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { sizeWords } from "#shared/lib/size-words.ts";
import { type HomeScreen, putOnHomeScreen, useHomeScreen } from "./home-screen.ts";
import { askToLast, type Kept, readKept } from "./lasting-storage.ts";
import { type ShellState, takeUpdate, useShellWorker } from "./shell-worker.ts";
import { asOfWords } from "./what-is-saved.tsx";

const SHELL_WORDS = {
  absent:
    "This page cannot start without a signal: it did not come over a secure address (https), or the browser cannot keep it. While it stays open it goes on without one. Whoever runs the band's server can give it a secure address.",
  starting: "Tightrow is being kept on this device. Stay on the page for a moment.",
  kept: "Tightrow starts on this device without a signal.",
  "update waiting": "Tightrow starts on this device without a signal, and a newer version is ready.",
} as const satisfies Record<ShellState, string>;

const HOME_WORDS = {
  there: "It was opened from the home screen.",
  offered: "It can stand on the home screen like any other app.",
  "by hand": "The browser's menu can put it on the home screen.",
  absent: "Some browsers can put it on the home screen from their menu.",
} as const satisfies Record<HomeScreen, string>;

const keptWords = ({ lasting, bytes }: Kept): string => {
  const size = bytes === null ? "" : `About ${sizeWords(bytes)} are kept here. `;
  if (lasting === "lasting") return `${size}The browser does not clear it by itself.`;
  return `${size}The browser may clear it when space runs out or, in some, after a week unused: what was saved comes back from the band's server, what was not sent does not.`;
};

const Fact = ({ children, action }: { readonly children: ReactNode; readonly action?: ReactNode }) => (
  <li className="flex flex-wrap items-center gap-x-4 gap-y-2 border-b border-line py-3">
    <p className="min-w-0 flex-1 basis-72">{children}</p>
    {action}
  </li>
);

/** What of Tightrow and of the board is on this device, how safe it lies there, and what can be done about it. */
export const KeptHere = () => {
  const shell = useShellWorker();
  const home = useHomeScreen();
  const { asOf, unsent } = useSaveState();
  const { timeZone } = useBand();
  const [kept, setKept] = useState<Kept | null>(null);
  const read = () => void readKept().then(setKept);
  useEffect(read, []);
  return (
    <section aria-labelledby="kept-here">
      <SectionHeading title={<span id="kept-here">Without a signal</span>} />
      <ul className="max-w-2xl">
        <Fact action={shell === "update waiting" ? <Button onClick={takeUpdate}>Use it now</Button> : null}>
          {SHELL_WORDS[shell]}
        </Fact>
        <Fact
          action={
            home === "offered" ? <Button onClick={() => void putOnHomeScreen()}>Put it there</Button> : null
          }
        >
          {HOME_WORDS[home]}
        </Fact>
        <Fact
          action={
            kept?.lasting === "clearable" ? (
              <Button onClick={() => void askToLast().then(read)}>Ask the browser to keep it</Button>
            ) : null
          }
        >
          {kept === null ? "Looking what is kept here." : keptWords(kept)}
        </Fact>
        <Fact>
          {asOfWords(asOf, timeZone)}{" "}
          {unsent === 0
            ? "Nothing waits here to be sent."
            : `${unsent === 1 ? "1 change of yours waits" : `${unsent} changes of yours wait`} here to be sent.`}
        </Fact>
      </ul>
    </section>
  );
};

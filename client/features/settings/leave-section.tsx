import { type ReactNode, useState } from "react";
import { useLocation } from "wouter";
import { useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, useSaveState } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { useToast } from "#client/ui/toast.tsx";
import { PrivateValues } from "./private-values.tsx";

const Question = (props: {
  readonly title: string;
  readonly yes: string;
  readonly children: ReactNode;
  readonly onYes: () => void;
  readonly onClose: () => void;
}) => (
  <Dialog
    open
    onClose={props.onClose}
    title={props.title}
    actions={
      <>
        <Button tone="danger" onClick={props.onYes}>
          {props.yes}
        </Button>
        <Button data-first-focus onClick={props.onClose}>
          Leave it
        </Button>
      </>
    }
  >
    {props.children}
  </Dialog>
);

const RemoveHere = ({ onClose }: { readonly onClose: () => void }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const [, go] = useLocation();
  const { unsent } = useSaveState();
  const leads = useAuthor().role === "leader";
  const remove = async () => {
    onClose();
    await access.forget(board);
    go("~/");
  };
  return (
    <Question
      title="Remove this board from this device?"
      yes="Remove it"
      onYes={() => void remove()}
      onClose={onClose}
    >
      <p>
        Its copy and the way in are deleted here. The band keeps everything; you need a link to come back.
      </p>
      {unsent > 0 ? (
        <p className="mt-2 font-semibold">
          {unsent === 1 ? "1 change has" : `${unsent} changes have`} not been sent yet and would be lost.
        </p>
      ) : null}
      {leads ? (
        <p className="mt-2 font-semibold">
          You lead this board. If no other device does, only your recovery code lets anybody lead it again:
          have it at hand, or make a leading link first.
        </p>
      ) : null}
    </Question>
  );
};

const StartAfresh = ({ onClose }: { readonly onClose: () => void }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const toast = useToast();
  const [, go] = useLocation();
  const reset = async () => {
    onClose();
    const answer = await access.resetDemo(board);
    if (answer.ok) go(`~/b/${encodeURIComponent(answer.value.board)}/board`);
    toast({ text: answer.ok ? "The demo is as it was at first." : answer.error.message });
  };
  return (
    <Question
      title="Start the demo afresh?"
      yes="Start it afresh"
      onYes={() => void reset()}
      onClose={onClose}
    >
      Everything anybody changed in the demo band is given up, for everybody who is in it.
    </Question>
  );
};

/** Ways out: off this device, and the demo back to its beginning. */
export const LeaveSection = () => {
  const { demo } = useBand();
  const leads = useAuthor().role === "leader";
  const [asking, setAsking] = useState<"remove" | "afresh" | null>(null);
  const close = () => setAsking(null);
  return (
    <section aria-labelledby="leave">
      <SectionHeading title={<span id="leave">This board on this device</span>} />
      <PrivateValues />
      <div className="flex flex-wrap gap-3">
        {demo && leads ? <Button onClick={() => setAsking("afresh")}>Start the demo afresh</Button> : null}
        <Button tone="danger" onClick={() => setAsking("remove")}>
          Remove this board from this device
        </Button>
      </div>
      {asking === "remove" ? <RemoveHere onClose={close} /> : null}
      {asking === "afresh" ? <StartAfresh onClose={close} /> : null}
    </section>
  );
};

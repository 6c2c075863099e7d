import { useState } from "react";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Gig } from "#shared/board/band.ts";
import { reviseGig } from "#shared/commands/plan-gig.ts";

const ENTRIES = [
  ["call", "Everybody there at"],
  ["start", "Playing from"],
  ["dress", "Dress"],
  ["contact", "Whom to ring"],
] as const;

/** Call time, start, dress and whom to ring that day: what a dep asks first. */
export const Agreed = ({ gig }: { readonly gig: Gig }) => {
  const canChange = useAuthor().role !== "guest";
  const { root, editing, edit, done } = useInPlace<HTMLDivElement>("button");
  return (
    <section ref={root} aria-labelledby="agreed">
      <SectionHeading title={<span id="agreed">Agreed</span>} />
      {editing ? (
        <AgreedForm gig={gig} onDone={done} />
      ) : (
        <>
          <dl>
            {ENTRIES.map(([entry, label]) => (
              <div key={entry} className="flex flex-wrap gap-x-3 border-b border-line py-2">
                <dt className="caption w-40 max-w-full">{label}</dt>
                <dd className={gig[entry] === "" ? "expression text-quiet" : "min-w-0 break-words"}>
                  {gig[entry] || "not said"}
                </dd>
              </div>
            ))}
          </dl>
          {canChange ? (
            <Button className="mt-3 no-print" onClick={edit}>
              Change what is agreed
            </Button>
          ) : null}
        </>
      )}
    </section>
  );
};

const TIME = /^(([01]?\d|2[0-3]):[0-5]\d)?$/;
const WHEN = "Write a time such as 17:30.";

/** `7:30` as `07:30`. */
const clock = (text: string): string => (text.length === 4 ? `0${text}` : text);

const AgreedForm = ({ gig, onDone }: { readonly gig: Gig; readonly onDone: () => void }) => {
  const act = useAct();
  const [typed, setTyped] = useState({
    call: gig.call,
    start: gig.start,
    dress: gig.dress,
    contact: gig.contact,
  });
  const [tried, setTried] = useState(false);
  const wrong = (entry: "call" | "start"): boolean => !TIME.test(typed[entry].trim());
  const save = () => {
    setTried(true);
    if (wrong("call") || wrong("start")) return;
    const fields = {
      call: clock(typed.call.trim()),
      start: clock(typed.start.trim()),
      dress: typed.dress.trim(),
      contact: typed.contact.trim(),
    };
    if (act(reviseGig, { gig: gig.id, ...fields }, "What is agreed about the gig")) onDone();
  };
  return (
    <InPlaceForm label="What is agreed" onSave={save} onLeave={onDone}>
      <div className="grid gap-4 laptop:grid-cols-2">
        {ENTRIES.map(([entry, label]) => (
          <TextField
            key={entry}
            label={label}
            value={typed[entry]}
            maxLength={200}
            error={tried && (entry === "call" || entry === "start") && wrong(entry) ? WHEN : undefined}
            onChange={(text) => setTyped({ ...typed, [entry]: text })}
          />
        ))}
      </div>
      <p className="caption">The band reads this, and a dep for the gig.</p>
    </InPlaceForm>
  );
};

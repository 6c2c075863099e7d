import { useState } from "react";
import { useAuthor, useBand, usePeople } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { EraseBand, ErasePerson } from "./erase-questions.tsx";

const OnePerson = () => {
  const people = usePeople();
  const { member } = useAuthor();
  const [chosen, setChosen] = useState("");
  const [asking, setAsking] = useState(false);
  const person = people.get(chosen);
  return (
    <div className="flex flex-col items-start gap-3 pb-4 pl-6">
      <p className="text-quiet">
        For somebody who asks to be forgotten. Whoever only leaves the band is removed under People; that
        keeps their name for the log and can be taken back.
      </p>
      <Select
        label="Who"
        value={person?.id ?? ""}
        options={[
          { value: "", label: "choose", disabled: true },
          ...[...people.values()].map(({ id, name }) => ({
            value: id,
            label: id === member ? `${name} (you)` : name,
          })),
        ]}
        onChange={setChosen}
        className="w-full max-w-xs"
      />
      <Button tone="danger" disabled={person === undefined} onClick={() => setAsking(true)}>
        Erase {person?.name ?? "this person"}
      </Button>
      {asking && person !== undefined ? (
        <ErasePerson
          person={person}
          onDone={() => {
            setAsking(false);
            setChosen("");
          }}
          onClose={() => setAsking(false)}
        />
      ) : null}
    </div>
  );
};

const WholeBand = () => {
  const { name } = useBand();
  const [asking, setAsking] = useState(false);
  return (
    <div className="flex flex-col items-start gap-3 pb-4 pl-6">
      <p className="text-quiet">
        The board, its history, its links and its devices are deleted from the server, for everybody. Copies
        of the server that its keeper made age out in their own time.
      </p>
      <Button tone="danger" onClick={() => setAsking(true)}>
        Erase {name}
      </Button>
      {asking ? <EraseBand onClose={() => setAsking(false)} /> : null}
    </div>
  );
};

/** What goes for good: a person, or the whole band. For leaders. */
export const EraseSection = () => (
  <section aria-labelledby="erase">
    <SectionHeading title={<span id="erase">Erase for good</span>} />
    <div className="max-w-2xl border-t border-line">
      <Accordion summary="Erase a person">
        <OnePerson />
      </Accordion>
      <Accordion summary="Erase the band">
        <WholeBand />
      </Accordion>
    </div>
  </section>
);

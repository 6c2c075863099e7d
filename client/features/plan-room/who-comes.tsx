import { useState } from "react";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAways, useBand, useChairs, usePeople } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Attendance } from "#shared/board/rehearsal.ts";
import { sayWhoIsHere } from "#shared/commands/say-who-is-here.ts";
import { clockWords } from "#shared/lib/moment-words.ts";
import { listed } from "#shared/readiness/names.ts";
import { attendanceOf, momentOn } from "#shared/selectors/evenings.ts";
import { attendanceWords, expected } from "#shared/selectors/seating.ts";
import type { Evening } from "./use-evening.ts";

/** Those of the band, and whoever plays the gig or sits in: in the order of the board. */
const useAsked = ({ evening, gig }: Evening): readonly string[] => {
  const people = usePeople();
  const band = expected({ chairs: useChairs(), people });
  const others = [...(gig?.lineUp.values() ?? []), ...evening.standIns.values()];
  return [...people.keys()].filter((person) => band.includes(person) || others.includes(person));
};

/** Who is here, comes later or leaves early; each line opens to be changed. */
export const WhoComes = ({ evening, looking }: { readonly evening: Evening; readonly looking: boolean }) => {
  const people = usePeople();
  const aways = useAways();
  const { timeZone } = useBand();
  const names = useNames();
  const asked = useAsked(evening);
  if (asked.length === 0) return null;
  const lines = asked.map((person) => {
    const said = attendanceOf({ people, aways }, evening.evening, person);
    return { person, said, words: attendanceWords(said, evening.now, timeZone) };
  });
  const others = lines.filter(({ words }) => words !== "");
  const timed = others.some(({ said }) => said.from !== null || said.to !== null);
  return (
    <Accordion
      className="mb-4"
      summary={
        <>
          Who is here{" "}
          <span className="text-quiet">
            {others.length === 0
              ? "everybody, all evening"
              : listed(others.map(({ person, words }) => `${names.member(person)} ${words}`))}
          </span>
        </>
      }
    >
      {timed && evening.stretch.begin === null ? (
        <p className="py-2 text-accent">
          Nobody said when you start, so who comes late or leaves early is not counted. Give the start above.
        </p>
      ) : null}
      <ul>
        {lines.map((line) => (
          <Person key={line.person} {...line} evening={evening} looking={looking} />
        ))}
      </ul>
    </Accordion>
  );
};

interface PersonProps {
  readonly person: string;
  readonly said: Attendance;
  readonly words: string;
  readonly evening: Evening;
  readonly looking: boolean;
}

const Person = ({ person, said, words, evening, looking }: PersonProps) => {
  const names = useNames();
  const { root, editing, edit, done } = useInPlace<HTMLLIElement>("button");
  const reading = (
    <>
      <span className="min-w-0 flex-1">{names.member(person)}</span>
      <span className="text-quiet">{words || "all evening"}</span>
    </>
  );
  const look = "flex min-h-12 w-full items-center gap-4 py-1.5 text-left dense:min-h-9";
  return (
    <li ref={root} className="border-b border-line">
      {editing ? (
        <PersonForm person={person} said={said} evening={evening} onDone={done} />
      ) : looking ? (
        <p className={look}>{reading}</p>
      ) : (
        <button type="button" onClick={edit} className={`${look} underline-offset-4 hover:underline`}>
          {reading}
        </button>
      )}
    </li>
  );
};

const WAYS = [
  { value: "all", label: "all evening" },
  { value: "part", label: "part of it" },
  { value: "not", label: "not here" },
] as const;
type Way = (typeof WAYS)[number]["value"];

const wayOf = ({ here, from, to }: Attendance): Way =>
  !here ? "not" : from === null && to === null ? "all" : "part";

interface PersonFormProps extends Pick<PersonProps, "person" | "said" | "evening"> {
  readonly onDone: () => void;
}

const PersonForm = ({ person, said, evening, onDone }: PersonFormProps) => {
  const act = useAct();
  const names = useNames();
  const { timeZone } = useBand();
  const { day } = evening.evening;
  const clock = (at: number | null): string => (at === null ? "" : clockWords(at, timeZone));
  const [way, setWay] = useState(wayOf(said));
  const [from, setFrom] = useState(clock(said.from));
  const [to, setTo] = useState(clock(said.to));
  const [tried, setTried] = useState(false);
  const name = names.member(person);
  const [comes, leaves] =
    way === "part" ? [momentOn(day, from, timeZone), momentOn(day, to, timeZone)] : [null, null];
  const error =
    way !== "part" ? undefined
    : comes === null && leaves === null ? "Give when they come, or when they leave."
    : comes !== null && leaves !== null && leaves < comes ? "Nobody leaves before they come. Correct one of the two."
    : undefined; // biome-ignore format: one decision
  const save = () => {
    setTried(true);
    if (error !== undefined) return;
    const then = { here: way !== "not", from: comes, to: leaves };
    const label = `${name}: ${attendanceWords(then, evening.now, timeZone) || "all evening"}`;
    if (act(sayWhoIsHere, { day, person, ...then }, label)) onDone();
  };
  return (
    <InPlaceForm label={`when ${name} is here`} onSave={save} onLeave={onDone}>
      <Choice label={`${name} is here`} value={way} options={WAYS} onChange={setWay} />
      {way === "part" ? (
        <div className="grid grid-cols-2 gap-4">
          <TextField
            label="Comes at"
            type="time"
            value={from}
            onChange={setFrom}
            error={tried ? error : undefined}
          />
          <TextField label="Leaves at" type="time" value={to} onChange={setTo} />
        </div>
      ) : null}
    </InPlaceForm>
  );
};

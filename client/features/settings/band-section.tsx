import { type FormEvent, useId, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor, useBand } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Band } from "#shared/board/band.ts";
import { startBand } from "#shared/commands/start-band.ts";
import { isTimeZone } from "#shared/lib/calendar.ts";

const zones = (): readonly string[] => Intl.supportedValuesOf?.("timeZone") ?? [];

const BandForm = ({ band }: { readonly band: Band }) => {
  const act = useAct();
  const list = useId();
  const [name, setName] = useState(band.name);
  const [timeZone, setTimeZone] = useState(band.timeZone);
  const [tuning, setTuning] = useState(band.tuning);
  const unknown = !isTimeZone(timeZone.trim());
  const save = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "" || unknown) return;
    act(startBand, { name, timeZone: timeZone.trim(), tuning: tuning.trim() }, "Changed the band's entries");
  };
  return (
    <form onSubmit={save} className="flex max-w-xl flex-col gap-4">
      <TextField
        label="Name"
        value={name}
        onChange={setName}
        maxLength={200}
        error={name.trim() === "" ? "Give the band a name." : undefined}
      />
      <TextField
        label="Time zone"
        value={timeZone}
        onChange={setTimeZone}
        list={list}
        spellCheck={false}
        hint="In which the band's days begin and end. All scores are for the end of a day."
        error={unknown ? "Give a zone such as Europe/Lisbon." : undefined}
      />
      <datalist id={list}>
        {zones().map((zone) => (
          <option key={zone} value={zone} />
        ))}
      </datalist>
      <TextField
        label="Usual tuning"
        value={tuning}
        onChange={setTuning}
        maxLength={200}
        hint="In your own words: standard, a half step down."
      />
      <Button type="submit" className="self-start">
        Save
      </Button>
    </form>
  );
};

/** The band's own entries; for the leader to change, for all to read. */
export const BandSection = () => {
  const band = useBand();
  const leads = useAuthor().role === "leader";
  return (
    <section aria-labelledby="band">
      <SectionHeading title={<span id="band">Band</span>} />
      {leads ? (
        <BandForm key={`${band.name} ${band.timeZone} ${band.tuning}`} band={band} />
      ) : (
        <>
          <p>{band.name}</p>
          <p className="caption">
            {band.timeZone} · tuning: {band.tuning}. The leader changes these.
          </p>
        </>
      )}
    </section>
  );
};

import { type FormEvent, useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useBand, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Ruling } from "#shared/board/song.ts";
import { rule } from "#shared/commands/rule.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { capital } from "#shared/readiness/names.ts";
import { NO_RULING, RulingFields } from "./ruling-fields.tsx";

const RulingLine = ({ ruling }: { readonly ruling: Ruling }) => {
  const names = useNames();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const who = ruling.by === "" ? "somebody" : names.member(ruling.by);
  return (
    <li className="border-b border-line py-2">
      <p className="caption">
        {capital(ruling.about)} · <span className="expression">{ruling.source}</span> · {who},{" "}
        {dayWords(dayOf(ruling.at, timeZone), { today })}
      </p>
      <p>
        {ruling.before === "" ? null : (
          <>
            <span className="sr-only">before: </span>
            <span className="text-quiet">{ruling.before}</span>
            <span aria-hidden="true"> → </span>
            <span className="sr-only">, now: </span>
          </>
        )}
        {ruling.text}
      </p>
      {ruling.why === "" ? null : <p className="text-quiet">because {ruling.why}</p>}
    </li>
  );
};

/** A ruling on the form, which has no single line of its own to change. */
const FormRuling = ({ song }: { readonly song: string }) => {
  const act = useAct();
  const [text, setText] = useState("");
  const [ruling, setRuling] = useState(NO_RULING);
  const [again, setAgain] = useState(false);
  const [fault, setFault] = useState<string | undefined>();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() === "") {
      setFault("Say what was decided.");
      return;
    }
    const { source, why } = ruling;
    const args = { song, about: "form" as const, source, text, why: why.trim(), learnAgain: again };
    if (!act(rule, args, `Ruled on the form: ${text.trim()}`)) return;
    setText("");
    setRuling(NO_RULING);
    setAgain(false);
  };
  return (
    <form onSubmit={submit} className="flex flex-col gap-4 py-3">
      <TextField
        label="What was decided about the form"
        value={text}
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
        error={fault}
      />
      <RulingFields always ruling={ruling} onChange={setRuling} />
      <LearnAgain what="song" value={again} onChange={setAgain} />
      <Button type="submit" className="self-start">
        Write it down
      </Button>
    </form>
  );
};

/** What was decided about this song, latest first: before → after, from where, by whom, when, why. */
export const RulingList = ({ file }: { readonly file: SongFile }) => {
  const { role } = useAuthor();
  return (
    <>
      {file.rulings.length === 0 ? (
        <p className="caption py-2">
          Nothing yet. When you change the version, key, tempo, count-in, ending or tuning, you can write it
          down as a ruling with its reason.
        </p>
      ) : (
        <ul>
          {[...file.rulings].reverse().map((ruling) => (
            <RulingLine key={ruling.id} ruling={ruling} />
          ))}
        </ul>
      )}
      {role === "guest" ? null : (
        <Accordion summary="Rule on the form" className="border-b-0 no-print">
          <FormRuling song={file.song.id} />
        </Accordion>
      )}
    </>
  );
};

import { useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { useBand } from "#client/store/hooks.ts";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { rule } from "#shared/commands/rule.ts";
import type { KeyFit, KeyLine } from "#shared/selectors/key-fit.ts";

export interface RuleKeyProps {
  readonly line: KeyLine;
  readonly fit: KeyFit;
  readonly file: SongFile;
  readonly onDone: () => void;
}

/** Rules the key with its reason; tuning and capo follow where the choice asks for others. */
export const RuleKey = ({ line, fit, file: { song }, onDone }: RuleKeyProps) => {
  const act = useActTogether();
  const band = useBand();
  const [why, setWhy] = useState(
    `It lies better for ${fit.singer.name}: ${line.range} instead of ${fit.now.range}.`,
  );
  const [learnAgain, setLearnAgain] = useState(song.key !== "");
  const tuning = line.tuning === (song.tuning || band.tuning) ? {} : { tuning: line.tuning };
  const capo = line.capo === song.capo ? {} : { capo: line.capo };
  const also = [
    "tuning" in tuning ? `tuning ${line.tuning}` : "",
    "capo" in capo ? (line.capo === 0 ? "no capo" : `capo at fret ${line.capo}`) : "",
  ].filter((words) => words !== "");
  const save = () => {
    const ruled = step(rule, {
      song: song.id,
      about: "key",
      source: "ours",
      text: line.key,
      why: why.trim(),
      learnAgain,
    });
    const follows = step(reviseSong, { song: song.id, fields: { ...tuning, ...capo } });
    if (act(also.length === 0 ? [ruled] : [ruled, follows], `${song.title}: Our key ${line.key}`)) onDone();
  };
  return (
    <InPlaceForm label={`our key to ${line.name}`} onSave={save} onLeave={onDone}>
      {also.length === 0 ? null : <p>With it the guitars change to {also.join(" and ")}.</p>}
      <TextField label="Why" value={why} maxLength={4000} onChange={setWhy} autoFocus />
      <LearnAgain what="song" value={learnAgain} onChange={setLearnAgain} />
    </InPlaceForm>
  );
};

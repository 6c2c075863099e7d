import { useState } from "react";
import { useAuthor, useBoardStore } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Select } from "#client/ui/select.tsx";
import type { Person } from "#shared/board/band.ts";
import { type KeyFit as Fit, keyFitOf, singersOf } from "#shared/selectors/key-fit.ts";
import { VOICE_CAUTION } from "#shared/selectors/key-fit-words.ts";
import { HandsForm } from "./hands-form.tsx";
import { KeyList } from "./key-list.tsx";
import { MelodyEntry } from "./melody-entry.tsx";
import { TonightTop } from "./tonight-top.tsx";
import { VoiceEntry } from "./voice-entry.tsx";

/** Singer, melody, and the keys that suit both. */
export const KeyFit = ({ view }: { readonly view: SongView }) => {
  const board = useBoardStore().board();
  const { role, member } = useAuthor();
  const { file, gig } = view;
  const [chosen, setChosen] = useState<string | null>(null);
  const singers = singersOf(board, file, gig);
  const singer = singers.find(({ id }) => id === chosen) ?? singers[0];
  if (singer === undefined)
    return <p className="caption py-2">Nobody is in the band yet. Add who sings on the screen People.</p>;
  const looking = role === "guest";
  const fit = keyFitOf(board, file.song.id, singer.id, gig);
  return (
    <div className="flex flex-col gap-4 pt-3">
      <Select
        label="Who sings"
        value={singer.id}
        options={singers.map(({ id, name }) => ({ value: id, label: name }))}
        onChange={setChosen}
      />
      <VoiceEntry
        key={singer.id}
        person={singer}
        may={!looking && (role === "leader" || member === singer.id)}
      />
      <MelodyEntry song={file.song} may={!looking} />
      {looking ? null : <HandsForm file={file} chairs={view.chairs} />}
      {fit.ok ? <Ranking fit={fit.value} view={view} /> : <Waiting missing={fit.error} singer={singer} />}
      {member === singer.id && !looking ? <TonightTop view={view} member={member} /> : null}
    </div>
  );
};

const Ranking = ({ fit, view }: { readonly fit: Fit; readonly view: SongView }) => (
  <section aria-labelledby="keys-ranked">
    <h3 id="keys-ranked" className="font-semibold">
      Keys for {fit.singer.name}, the best first
    </h3>
    <p className="caption">
      A lower cost suits better. The costs put keys in order and measure nothing; what stands behind each is
      said inside.
    </p>
    {fit.notes.map((note) => (
      <p key={note} className="mt-1">
        {note}
      </p>
    ))}
    <KeyList fit={fit} file={view.file} />
    <p className="caption mt-3">{VOICE_CAUTION}</p>
  </section>
);

const Waiting = ({ missing, singer }: { readonly missing: string; readonly singer: Person }) => {
  const words =
    missing === "melody"
      ? "Give three notes of the melody, and the keys are ranked here."
      : missing === "voice"
        ? `Once it is said what ${singer.name} can sing, the keys are ranked here.`
        : "The key cannot be read. Write down our key or the recording's under “Played by”.";
  return <p className="caption">{words}</p>;
};

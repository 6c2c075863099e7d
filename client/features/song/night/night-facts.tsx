import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { FloorRole, Song, StrongPlace } from "#shared/board/song.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { readTolerance } from "#shared/selectors/night-facts.ts";

const FLOOR: readonly { readonly value: FloorRole; readonly label: string }[] = [
  { value: "", label: "nobody said" },
  { value: "fills", label: "fills the floor" },
  { value: "holds", label: "keeps it dancing" },
  { value: "slow", label: "slow dance" },
  { value: "seated", label: "for listening" },
];
const STRONG: readonly { readonly value: StrongPlace; readonly label: string }[] = [
  { value: "", label: "anywhere" },
  { value: "opener", label: "opens well" },
  { value: "closer", label: "closes well" },
  { value: "both", label: "both" },
];
const ENERGY = ["1", "2", "3", "4", "5"] as const;

/** What a running order and a tempo reading ask of a song. */
export const NightFacts = ({ song }: { readonly song: Song }) => {
  const act = useAct();
  const [rig, setRig] = useState(song.rig);
  const [tolerance, setTolerance] = useState(song.tolerance === null ? "" : String(song.tolerance));
  const [fault, setFault] = useState<string | undefined>();
  if (useAuthor().role === "guest") return null;
  const revise = (fields: Parameters<typeof reviseSong.write>[1]["fields"], label: string): void => {
    act(reviseSong, { song: song.id, fields }, `${song.title}: ${label}`, { quiet: true });
  };
  const save = () => {
    const read = readTolerance(tolerance);
    if (!read.ok) return setFault(read.error);
    setFault(undefined);
    act(
      reviseSong,
      { song: song.id, fields: { tolerance: read.value, rig: rig.trim() } },
      `${song.title}: on the night`,
    );
  };
  return (
    <div className="flex flex-col gap-4 py-3">
      <Choice
        label="How big it feels, 1 to 5"
        value={song.energy === null ? null : (String(song.energy) as (typeof ENERGY)[number])}
        options={ENERGY.map((value) => ({ value, label: value }))}
        onChange={(value) => revise({ energy: Number(value) }, `energy ${value}`)}
      />
      <Select
        label="What it does to the floor"
        value={song.floor}
        options={FLOOR}
        onChange={(floor) => revise({ floor }, "floor")}
      />
      <Choice
        label="Where in a block it is strong"
        value={song.strong}
        options={STRONG}
        onChange={(strong) => revise({ strong }, "place in a block")}
      />
      <Checkbox
        label="Hard to sing"
        hint="Two in a row are fine; a third one is warned of."
        checked={song.hardToSing}
        onChange={(hardToSing) => revise({ hardToSing }, hardToSing ? "hard to sing" : "not hard to sing")}
      />
      <form
        noValidate
        className="flex flex-wrap items-end gap-4"
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <TextField
          className="w-52"
          label="Change of instrument"
          hint="Acoustic guitar, a stool."
          value={rig}
          maxLength={200}
          onChange={setRig}
        />
        <TextField
          className="w-40"
          label="Tempo tolerance, percent"
          hint="Empty: the usual 2."
          inputMode="decimal"
          value={tolerance}
          error={fault}
          onChange={(text) => {
            setTolerance(text);
            setFault(undefined);
          }}
        />
        <Button type="submit">Save</Button>
      </form>
    </div>
  );
};

import Ellipsis from "lucide-react/icons/ellipsis";
import Plus from "lucide-react/icons/plus";
import Printer from "lucide-react/icons/printer";
import { useState } from "react";
import { Button } from "./button.tsx";
import { Checkbox } from "./checkbox.tsx";
import { Choice } from "./choice.tsx";
import { IconButton } from "./icon-button.tsx";
import { NumberField } from "./number-field.tsx";
import { SectionHeading } from "./page-heading.tsx";
import { Select } from "./select.tsx";
import { TapTempo } from "./tap-tempo.tsx";
import { TextArea, TextField } from "./text-field.tsx";
import { TextLink } from "./text-link.tsx";

const Buttons = () => (
  <>
    <SectionHeading title="Buttons" />
    <div className="flex flex-wrap items-center gap-3">
      <Button tone="main" icon={Plus}>
        Add a detail
      </Button>
      <Button>Log a take</Button>
      <Button tone="danger">Remove</Button>
      <Button tone="quiet">Step back</Button>
      <Button disabled>Lock in</Button>
      <Button tone="main" disabled>
        Lock in
      </Button>
      <IconButton icon={Printer} label="Print" />
      <IconButton icon={Ellipsis} label="More" disabled />
      <TextLink href="#/gallery" standing>
        A link
      </TextLink>
    </div>
    <p className="caption pt-3">A shared detail is locked in by a run together, not alone.</p>
    <div className="mt-4 flex flex-wrap items-center gap-3">
      <Button tone="main" size="room">
        Clean
      </Button>
      <Button size="room">Wobble</Button>
      <Button size="room">Stopped</Button>
      <IconButton icon={Ellipsis} label="More for this run" size="room" />
    </div>
  </>
);

const Fields = () => {
  const [title, setTitle] = useState("Paper Lantern Hour");
  const [note, setNote] = useState("");
  const [bpm, setBpm] = useState<number | null>(118);
  const [bars, setBars] = useState<number | null>(null);
  const [kind, setKind] = useState<"ending" | "entry" | "groove">("ending");
  return (
    <>
      <SectionHeading title="Fields" />
      <div className="grid gap-6 tablet:grid-cols-2 laptop:grid-cols-3">
        <TextField label="Title" value={title} onChange={setTitle} hint="As the band calls it" />
        <TextField label="Key" value="H#" onChange={() => {}} error="Write a key as C, F# or B flat minor." />
        <TextField label="Capo" value="" placeholder="none" onChange={() => {}} disabled />
        <NumberField label="Tempo" unit="bpm" value={bpm} onChange={setBpm} min={20} max={400} />
        <NumberField
          label="Bars"
          value={bars}
          onChange={setBars}
          min={1}
          max={999}
          hint="Empty = not known"
        />
        <Select
          label="Kind"
          value={kind}
          onChange={setKind}
          options={[
            { value: "ending", label: "Ending" },
            { value: "entry", label: "Entry" },
            { value: "groove", label: "Groove", disabled: true },
          ]}
        />
        <TextArea label="Right when" value={note} onChange={setNote} placeholder="one attack, one silence" />
      </div>
    </>
  );
};

const Choices = () => {
  const [set, setSet] = useState(true);
  const [result, setResult] = useState<"clean" | "wobble" | "stopped" | null>(null);
  const [sort, setSort] = useState<"worst" | "set" | "title">("worst");
  return (
    <>
      <SectionHeading title="Choices" />
      <div className="grid max-w-3xl gap-6">
        <Choice
          label="Order"
          value={sort}
          onChange={setSort}
          options={[
            { value: "worst", label: "Worst first" },
            { value: "set", label: "As in the set" },
            { value: "title", label: "By title" },
          ]}
        />
        <Choice
          label="How did it go?"
          size="room"
          value={result}
          onChange={setResult}
          options={[
            { value: "clean", label: "Clean" },
            { value: "wobble", label: "Wobble" },
            { value: "stopped", label: "Stopped" },
          ]}
        />
        <div>
          <Checkbox label="This set only" checked={set} onChange={setSet} hint="14 of 24 songs" />
          <Checkbox label="Resting songs too" checked={false} onChange={() => {}} />
          <Checkbox label="Without Ifeoma" checked disabled onChange={() => {}} />
          <Checkbox label="Everybody was there" checked size="room" onChange={() => {}} />
        </div>
      </div>
    </>
  );
};

const Tapping = () => {
  const [taps, setTaps] = useState(0);
  return (
    <>
      <SectionHeading title="Tap tempo" />
      <div className="max-w-sm">
        <TapTempo
          reading={taps === 0 ? "Tap" : `${taps} ${taps === 1 ? "tap" : "taps"}`}
          onTap={() => setTaps(taps + 1)}
        />
      </div>
    </>
  );
};

/** Everything one presses, fills in or chooses. */
export const GalleryControls = () => (
  <>
    <Buttons />
    <Fields />
    <Choices />
    <Tapping />
  </>
);

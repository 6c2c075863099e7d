import ArrowUp from "lucide-react/icons/arrow-up";
import Printer from "lucide-react/icons/printer";
import Trash2 from "lucide-react/icons/trash-2";
import { useState } from "react";
import { Button } from "./button.tsx";
import { Dialog } from "./dialog.tsx";
import { EmptyState } from "./empty-state.tsx";
import { ErrorNote } from "./error-note.tsx";
import { Menu } from "./menu.tsx";
import { SectionHeading } from "./page-heading.tsx";
import { QrCode } from "./qr-code.tsx";
import { Sheet } from "./sheet.tsx";
import { TextField } from "./text-field.tsx";
import { useToast } from "./toast.tsx";

const LINES = [
  "Top: two bars of hats",
  "Verse: out until bar five",
  "Bridge: third above",
  "End: one attack",
];

const Opened = () => {
  const [open, setOpen] = useState<"dialog" | "sheet" | "form" | null>(null);
  const [said, setSaid] = useState("nothing yet");
  const [name, setName] = useState("");
  const toast = useToast();
  const close = () => setOpen(null);
  return (
    <>
      <SectionHeading title="Dialog, sheet, menu, undo" />
      <div className="flex flex-wrap items-center gap-3">
        <Button onClick={() => setOpen("dialog")}>Ask something</Button>
        <Button onClick={() => setOpen("form")}>Add a chair</Button>
        <Button onClick={() => setOpen("sheet")}>Open a part</Button>
        <Menu
          trigger="Menu of a song"
          className="border border-control px-4"
          items={[
            { label: "Move up", icon: ArrowUp, onSelect: () => setSaid("moved up") },
            { label: "Print", icon: Printer, onSelect: () => setSaid("printed") },
            { label: "To the gallery", href: "#/gallery" },
            { label: "Swap in the spare", disabled: true },
            { label: "Remove", icon: Trash2, danger: true, onSelect: () => setSaid("removed") },
          ]}
        />
        <Button
          onClick={() => toast({ text: "Practised: two bars of hats.", undo: () => setSaid("taken back") })}
        >
          Mark a detail
        </Button>
      </div>
      <p className="caption mt-3" data-gallery="said">
        Last done: {said}
      </p>
      <Dialog
        open={open === "dialog"}
        onClose={close}
        title="Still true?"
        actions={
          <>
            <Button tone="main" onClick={close}>
              Still true
            </Button>
            <Button onClick={close}>Step back</Button>
          </>
        }
      >
        You locked in "off together" eleven weeks ago.
      </Dialog>
      <Dialog
        open={open === "form"}
        onClose={close}
        title="Add a chair"
        actions={
          <Button tone="main" onClick={close}>
            Add
          </Button>
        }
      >
        <TextField label="Name of the chair" value={name} onChange={setName} data-first-focus />
      </Dialog>
      <Sheet
        open={open === "sheet"}
        onClose={close}
        above="Second Tram Home"
        title="Keys"
        subject="keys"
        actions={
          <Button
            tone="main"
            onClick={() => toast({ text: "Added: one attack.", undo: () => setSaid("not added") })}
          >
            Add a detail
          </Button>
        }
      >
        <ul>
          {LINES.map((line) => (
            <li key={line} className="flex min-h-12 items-center border-b border-line">
              {line}
            </li>
          ))}
        </ul>
      </Sheet>
    </>
  );
};

/** What opens, what speaks up, and what stands where nothing is yet. */
export const GalleryPanels = () => (
  <>
    <Opened />
    <SectionHeading title="Nothing yet, and trouble" />
    <EmptyState title="No songs yet" action={<Button tone="main">Paste a list</Button>}>
      A song stands here with one bar for each chair. Paste your list, one title on each line.
    </EmptyState>
    <ErrorNote title="Line 7 of the list could not be read." action={<Button>Show line 7</Button>}>
      The tempo says "fast". Write it as a number of beats a minute, or leave it out. The other 23 lines are
      fine.
    </ErrorNote>
    <SectionHeading title="QR code" />
    <QrCode text="http://192.0.2.7:4747/#/join/demo/not-a-secret" label="Opens this board on another phone" />
  </>
);

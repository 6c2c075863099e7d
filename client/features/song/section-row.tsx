import ArrowDown from "lucide-react/icons/arrow-down";
import ArrowUp from "lucide-react/icons/arrow-up";
import type { KeyboardEvent } from "react";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { IconButton } from "#client/ui/icon-button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Section } from "#shared/board/song.ts";
import { SectionForm } from "./section-form.tsx";
import { TakeOutSection } from "./take-out-section.tsx";

export interface SectionRowProps {
  readonly file: SongFile;
  readonly section: Section;
  readonly index: number;
  /** `control` names the button that asked, so that the focus can come back to it. */
  readonly onMove: (index: number, control: string) => void;
}

const STEPS: Readonly<Record<string, number>> = { ArrowUp: -1, ArrowDown: 1 };

/** One section of the form. Its name opens it for changes; Alt and an arrow move it. */
export const SectionRow = ({ file, section, index, onMove }: SectionRowProps) => {
  const { role } = useAuthor();
  const { root, editing, edit, done } = useInPlace<HTMLLIElement>("button");
  const { name, bars } = section;
  const { repeats, metre, tempo, key } = section;
  const words = [
    `${bars} ${bars === 1 ? "bar" : "bars"}${repeats > 1 ? `, ${repeats} times` : ""}`,
    metre,
    tempo === null ? "" : String(tempo),
    key === "" ? "" : `to ${key}`,
  ]
    .filter((word) => word !== "")
    .join(" · ");
  const onKeyDown = (event: KeyboardEvent) => {
    const step = STEPS[event.key];
    if (!event.altKey || step === undefined) return;
    event.preventDefault();
    onMove(index + step, "name");
  };
  if (editing)
    return (
      <li ref={root} className="border-b border-line">
        <SectionForm file={file} section={section} onDone={done} />
      </li>
    );
  if (role === "guest")
    return (
      <li className="flex justify-between border-b border-line py-2">
        <span>{name}</span>
        <span className="text-quiet">{words}</span>
      </li>
    );
  return (
    <li ref={root} data-section={section.id} className="flex items-center border-b border-line">
      <button
        type="button"
        data-control="name"
        aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
        onClick={edit}
        onKeyDown={onKeyDown}
        className="flex min-h-12 min-w-0 flex-1 items-center justify-between gap-3 text-left -outline-offset-2 hover:underline decoration-control underline-offset-4 dense:min-h-9"
      >
        <span className="min-w-0">
          <span className="sr-only">Change: </span>
          {name}
        </span>{" "}
        <span className="shrink-0 text-quiet">{words}</span>
      </button>
      <span className="flex shrink-0 pl-2 no-print">
        <IconButton
          icon={ArrowUp}
          label={`Move up: ${name}`}
          data-control="up"
          disabled={index === 0}
          onClick={() => onMove(index - 1, "up")}
        />
        <IconButton
          icon={ArrowDown}
          label={`Move down: ${name}`}
          data-control="down"
          disabled={index === file.sections.length - 1}
          onClick={() => onMove(index + 1, "down")}
        />
        <TakeOutSection file={file} section={section} />
      </span>
    </li>
  );
};

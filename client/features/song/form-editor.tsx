import { useLayoutEffect, useRef } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import { moveSection } from "#shared/commands/revise-section.ts";
import { AddSections } from "./add-sections.tsx";
import { FormStrip } from "./form-strip.tsx";
import { LostList } from "./lost-list.tsx";
import { SectionRow } from "./section-row.tsx";

/** The form: sections with their bars, moved by buttons or Alt and an arrow. */
export const FormEditor = ({ file }: { readonly file: SongFile }) => {
  const act = useAct();
  const { role } = useAuthor();
  const { sections, song } = file;
  const list = useRef<HTMLOListElement>(null);
  const moved = useRef<{ readonly section: string; readonly control: string } | null>(null);
  // Moving an element in the document takes the focus from it, so it is given back.
  useLayoutEffect(() => {
    const { section, control } = moved.current ?? {};
    moved.current = null;
    if (section === undefined) return;
    const row = list.current?.querySelector(`[data-section="${CSS.escape(section)}"]`);
    const same = row?.querySelector<HTMLButtonElement>(`[data-control="${control}"]:enabled`);
    (same ?? row?.querySelector<HTMLElement>('[data-control="name"]'))?.focus();
  });
  const move = (section: string, index: number, control: string) => {
    const at = sections.findIndex(({ id }) => id === section);
    if (index < 0 || index >= sections.length) return;
    moved.current = { section, control };
    const label = `${sections[at]?.name ?? "Section"} moved ${index < at ? "up" : "down"}`;
    act(moveSection, { song: song.id, section, index }, label);
  };
  return (
    <>
      {sections.length === 0 ? (
        <p className="caption py-2">
          No form yet. Places of details, joints to drill and the length check all start from it.
        </p>
      ) : (
        <>
          <FormStrip
            file={file}
            onOpen={(section) =>
              list.current
                ?.querySelector<HTMLElement>(`[data-section="${CSS.escape(section)}"] [data-control="name"]`)
                ?.click()
            }
          />
          <LostList file={file} />
          <ol ref={list}>
            {sections.map((section, index) => (
              <SectionRow
                key={section.id}
                file={file}
                section={section}
                index={index}
                onMove={(to, control) => move(section.id, to, control)}
              />
            ))}
          </ol>
        </>
      )}
      {role === "guest" ? null : <AddSections file={file} />}
    </>
  );
};

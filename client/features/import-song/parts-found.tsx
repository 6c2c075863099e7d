import { useMemo } from "react";
import { useChairs } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import type { Id } from "#shared/board/ids.ts";
import {
  type FoundPart,
  type FoundSong,
  playedChairs,
  presenceIn,
  presenceWords,
} from "#shared/exchange/score/found-song.ts";
import { rangeWords } from "#shared/exchange/score/found-words.ts";

export interface PartsFoundProps {
  readonly found: FoundSong;
  /** For each part its chair; null = left out. */
  readonly assigned: readonly (Id | null)[];
  /** The same, a moment later. */
  readonly settled: readonly (Id | null)[];
  readonly onAssign: (part: number, chair: Id | null) => void;
  readonly textures: boolean;
  readonly onTextures: (taken: boolean) => void;
  readonly withForm: boolean;
}

const NOBODY = "";

const about = ({ range, notes, percussion }: FoundPart, key: string): string =>
  [
    ...(percussion ? ["percussion"] : []),
    ...(range === null ? [] : [rangeWords(range, key)]),
    notes === 1 ? "1 note" : `${notes.toLocaleString("en")} notes`,
  ].join(" · ");

const WhoPlaysWhen = ({ found, settled }: Pick<PartsFoundProps, "found" | "settled">) => {
  const chairs = useChairs();
  const lines = useMemo(
    () =>
      playedChairs(found.facts, settled).map((played) => ({
        chair: played.chair,
        words: presenceWords(found.song.form, presenceIn(found, played)),
      })),
    [found, settled],
  );
  return (
    <ul className="mb-3 ml-9">
      {lines.map(({ chair, words }) => (
        <li key={chair} className="border-t border-line py-1.5">
          <strong>{chairs.find(({ id }) => id === chair)?.name}</strong>{" "}
          <span className="text-quiet">{words}</span>
        </li>
      ))}
    </ul>
  );
};

/** The parts of a file, the chairs they belong to, and what that says of who plays when. */
export const PartsFound = (props: PartsFoundProps) => {
  const chairs = useChairs();
  const options = [
    { value: NOBODY, label: "nobody: leave it out" },
    ...chairs.map(({ id, name }) => ({ value: id, label: name })),
  ];
  return (
    <>
      <SectionHeading title="Who plays what" />
      {chairs.length === 0 ? (
        <p>The band has no chairs yet. Add them under People first, to bring in who plays what.</p>
      ) : (
        <ul>
          {props.found.parts.map((part, i) => (
            <li
              key={part.name}
              className="flex flex-wrap items-center justify-between gap-x-6 border-b border-line py-1.5"
            >
              <span className="min-w-0">
                {part.name}
                <span className="caption block">{about(part, props.found.song.key)}</span>
              </span>
              <Select
                label={`Chair of ${part.name}`}
                hideLabel
                value={props.assigned[i] ?? NOBODY}
                options={options}
                onChange={(chair) => props.onAssign(i, chair === NOBODY ? null : chair)}
                className="w-52"
              />
            </li>
          ))}
        </ul>
      )}
      {props.settled.every((chair) => chair === null) ? null : (
        <>
          <Checkbox
            label="Who plays when, as recorded"
            hint={
              props.withForm
                ? "Counted from how many notes each part has in each section"
                : "Belongs to the form: take that as well"
            }
            checked={props.textures && props.withForm}
            disabled={!props.withForm}
            onChange={props.onTextures}
          />
          <WhoPlaysWhen found={props.found} settled={props.settled} />
        </>
      )}
    </>
  );
};

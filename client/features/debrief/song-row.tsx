import { songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Choice } from "#client/ui/choice.tsx";
import type { DebriefRow } from "#shared/selectors/debrief.ts";
import { FloorChoice } from "./floor-choice.tsx";
import type { Logging } from "./use-log.ts";

const WENT = [
  { value: "clean", label: "clean" },
  { value: "wobble", label: "wobble" },
  { value: "stopped", label: "stopped" },
  { value: "out", label: "left out" },
] as const;

export interface SongRowProps extends Pick<Logging, "log" | "leaveOut" | "tellFloor"> {
  readonly row: DebriefRow;
}

/** One song of the night: how it went in one tap, and what it did to the floor. */
export const SongRow = ({ row, log, leaveOut, tellFloor }: SongRowProps) => {
  const href = useHref();
  const { role } = useAuthor();
  const went = row.take?.feel ?? (row.leftOut ? "out" : null);
  return (
    <li
      data-song={row.song}
      className="flex flex-wrap items-center gap-x-6 gap-y-1 border-b border-line py-2"
    >
      <div className="flex min-w-60 flex-1 items-center gap-3">
        <a
          href={href(songLink(row.song))}
          className="inline-flex min-h-11 min-w-0 flex-1 items-center decoration-control underline-offset-4 hover:underline dense:min-h-6"
        >
          {row.title}
          {row.called ? "" : " (not called)"}
        </a>
        {role !== "guest" && row.take !== null ? <FloorChoice row={row} onChange={tellFloor} /> : null}
      </div>
      {role === "guest" ? (
        <span>
          {went === "out" ? "left out" : (went ?? "not logged")}
          {row.floorDid === "" ? "" : `, floor ${row.floorDid}`}
        </span>
      ) : (
        <Choice
          label={`How ${row.title} went`}
          hideLabel
          className="w-full laptop:w-96"
          value={went}
          options={row.called ? WENT : WENT.filter(({ value }) => value !== "out")}
          onChange={(value) => (value === "out" ? leaveOut(row) : log(row, value))}
        />
      )}
    </li>
  );
};

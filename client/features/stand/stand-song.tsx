import type { StandSong } from "#shared/selectors/stand.ts";
import { PulseBar } from "./pulse-bar.tsx";

/** One song as it is read in the dark: seven lines, each at its place. */
export const StandSongLines = ({ song }: { readonly song: StandSong }) => {
  const line = (name: StandSong["lines"][number]["name"]) => (
    <span data-stand-line={name}>{song.lines.find((one) => one.name === name)?.text ?? ""}</span>
  );
  return (
    <div className="stand-lines">
      <h1 tabIndex={-1} className="font-semibold outline-none">
        {line("song")}
      </h1>
      <div className="stand-pair">
        <p>{line("key")}</p>
        <p className="flex items-center gap-4">
          {line("tempo")}
          {song.tempo === null ? null : <PulseBar bpm={song.tempo} metre={song.metre} />}
        </p>
      </div>
      <p>{line("count-in")}</p>
      <p>{line("first")}</p>
      <p className={song.must ? "font-semibold" : "text-quiet"}>{line("must")}</p>
      <p>{line("ending")}</p>
    </div>
  );
};

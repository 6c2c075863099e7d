import { useChairs, useGigs, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { Choice } from "#client/ui/choice.tsx";
import { Select } from "#client/ui/select.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { castingOf, seatKept, seatMeant } from "#shared/board/line-up.ts";
import { castPart } from "#shared/commands/cast-part.ts";
import { useAct } from "./use-act.ts";
import { useNames } from "./use-names.ts";

export interface CastingFieldsProps {
  readonly song: SongFile;
  readonly chair: string;
}

const USUAL = "";

/** How one chair is cast in one song: plays or tacet, needed or nice to have, and who plays it. */
export const CastingFields = ({ song, chair }: CastingFieldsProps) => {
  const act = useAct();
  const names = useNames();
  const people = usePeople();
  const usual = useChairs().find(({ id }) => id === chair)?.holder ?? null;
  const casting = castingOf(song, chair);
  const what = `${names.chair(chair)} in ${song.song.title}`;
  const cast = (fields: { plays?: boolean; needed?: boolean; holder?: string }, words: string) =>
    act(castPart, { song: song.song.id, chair, ...fields }, `${what}: ${words}`);
  return (
    <div className="flex flex-col gap-4 py-2">
      <Choice
        label={`${names.chair(chair)} in this song`}
        value={casting.plays ? "plays" : "tacet"}
        options={[
          { value: "plays", label: "plays" },
          { value: "tacet", label: <span className="expression">tacet</span> },
        ]}
        onChange={(value) => cast({ plays: value === "plays" }, value)}
      />
      {casting.plays ? (
        <>
          <Choice
            label="The song works without it?"
            value={casting.needed ? "needed" : "nice to have"}
            options={[
              { value: "needed", label: "needed" },
              { value: "nice to have", label: "nice to have" },
            ]}
            onChange={(value) => cast({ needed: value === "needed" }, value)}
          />
          <Select
            label="Who plays it in this song"
            value={casting.holder ?? USUAL}
            options={[
              {
                value: USUAL,
                label: usual === null ? "whoever gets the chair" : `as usual: ${names.member(usual)}`,
              },
              ...[...people.values()].map(({ id, name, dep }) => ({
                value: id,
                label: dep ? `${name} (dep)` : name,
              })),
            ]}
            onChange={(holder) => cast({ holder }, holder === USUAL ? "as usual" : names.member(holder))}
          />
          <TonightNote chair={chair} />
        </>
      ) : null}
    </div>
  );
};

/** A gig may fill the chair differently; then the numbers on the screen are for that person. */
const TonightNote = ({ chair }: { readonly chair: string }) => {
  const names = useNames();
  const [{ gig }] = useViewpoint();
  const known = useGigs().find(({ id }) => id === gig?.id);
  const column = useChairs().find(({ id }) => id === chair);
  const people = usePeople();
  if (known === undefined || column === undefined) return null;
  const seat = seatKept(seatMeant(column, known), { people }, known);
  if (seat === column.holder) return null;
  return (
    <p className="caption">
      For {known.name || known.place}: {seat === null ? "nobody" : names.member(seat)} on this chair.
    </p>
  );
};

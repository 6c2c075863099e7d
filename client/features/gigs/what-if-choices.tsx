import { memo, useMemo, useState } from "react";
import { useChairs, usePeople, useSongs } from "#client/store/hooks.ts";
import { Select } from "#client/ui/select.tsx";
import type { Gig } from "#shared/board/band.ts";
import type { Supposed } from "#shared/selectors/what-if.ts";
import { SupposeKey } from "./suppose-key.tsx";

const NONE = "";

/** What can be chosen whatever is supposed so far; apart, so that a choice does not build its long lists again. */
export const WhatIfChoices = memo(
  ({ gig, onChoose }: { readonly gig: Gig; readonly onChoose: (one: Supposed) => void }) => {
    const chairs = useChairs();
    const people = usePeople();
    const songs = useSongs();
    const played = useMemo(
      () =>
        gig.songs.map(({ song }) => ({
          id: song,
          title: songs.get(song)?.song.title ?? "a song that is gone",
        })),
      [gig, songs],
    );
    const called = new Set(gig.songs.map(({ song }) => song));
    const spares = [...songs.values()].filter(
      ({ song }) => !called.has(song.id) && (song.stage === "in the book" || song.stage === "learning"),
    );
    return (
      <>
        <Seats
          chairs={chairs.map(({ id, name }) => ({ id, name }))}
          members={[...people.values()].map(({ id, name, dep }) => ({
            id,
            name: dep ? `${name} (dep)` : name,
          }))}
          onSeat={(chair, member) => onChoose({ of: "seat", chair, member })}
        />
        <SupposeKey songs={played} onKey={(song, key) => onChoose({ of: "key", song, key })} />
        <Swaps
          played={played}
          spares={spares.map(({ song }) => ({ id: song.id, title: song.title }))}
          onSwap={(out, into) => onChoose({ of: "swap", out, in: into })}
        />
      </>
    );
  },
);

interface Named {
  readonly id: string;
  readonly name: string;
}
interface Titled {
  readonly id: string;
  readonly title: string;
}

const Seats = ({
  chairs,
  members,
  onSeat,
}: {
  readonly chairs: readonly Named[];
  readonly members: readonly Named[];
  readonly onSeat: (chair: string, member: string) => void;
}) => {
  const [chair, setChair] = useState(chairs[0]?.id ?? NONE);
  return (
    <div className="grid grid-cols-2 gap-3">
      <Select
        label="On the chair"
        value={chair}
        options={chairs.map(({ id, name }) => ({ value: id, label: name }))}
        onChange={setChair}
      />
      <Select
        label="sits"
        value={NONE}
        options={[
          { value: NONE, label: "whoever does" },
          ...members.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(member) => member !== NONE && chair !== NONE && onSeat(chair, member)}
      />
    </div>
  );
};

const Swaps = ({
  played,
  spares,
  onSwap,
}: {
  readonly played: readonly Titled[];
  readonly spares: readonly Titled[];
  readonly onSwap: (out: string, into: string) => void;
}) => {
  const [out, setOut] = useState(played[0]?.id ?? NONE);
  return (
    <div className="grid grid-cols-2 gap-3">
      <Select
        label="Instead of"
        value={out}
        options={played.map(({ id, title }) => ({ value: id, label: title }))}
        onChange={setOut}
      />
      <Select
        label="play"
        value={NONE}
        options={[
          { value: NONE, label: "it as called" },
          ...spares.map(({ id, title }) => ({ value: id, label: title })),
        ]}
        onChange={(into) => into !== NONE && out !== NONE && onSwap(out, into)}
      />
    </div>
  );
};

import { type ReactNode, useState } from "react";
import { peopleLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useChairs, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { listed } from "#shared/readiness/names.ts";
import { MySongList } from "./my-song-list.tsx";

const NOBODY = "";

/** What one member has to play: their chair, their songs, their details. Made for a phone on a music stand. */
export const MyPartsScreen = () => {
  const { member: own, role } = useAuthor();
  const people = usePeople();
  const [looking, setLooking] = useState<string | null>(null);
  const chosen = looking ?? own;
  const person = chosen === null ? undefined : people.get(chosen);
  const others = looking !== null && looking !== own;
  return (
    <div className="in-room max-w-3xl">
      <PageHeading
        title={others && person !== undefined ? `Parts of ${person.name}` : "My parts"}
        above={
          person === undefined ? undefined : <Chairs member={person.id} name={others ? "" : person.name} />
        }
      />
      {others ? (
        <Button className="mb-4" onClick={() => setLooking(null)}>
          Back to my own
        </Button>
      ) : null}
      {person === undefined ? (
        <WhoAreYou />
      ) : (
        <HasChair member={person.id}>
          <MySongList key={person.id} member={person.id} />
        </HasChair>
      )}
      {role === "leader" ? (
        <Select
          className="mt-8 no-print"
          label="Look at somebody's parts"
          value={chosen ?? NOBODY}
          options={[
            { value: NOBODY, label: "choose a member", disabled: true },
            ...[...people.values()].map(({ id, name, dep }) => ({
              value: id,
              label: dep ? `${name} (dep)` : name,
            })),
          ]}
          onChange={(id) => {
            setLooking(id === own ? null : id);
            window.scrollTo(0, 0);
          }}
        />
      ) : null}
    </div>
  );
};

/** Chairs somebody holds, the gig's line-up included. */
const useChairsOf = (member: string) => {
  const chairs = useChairs();
  const [{ gig }] = useViewpoint();
  return chairs.filter(({ id, holder }) => holder === member || gig?.lineUp.get(id) === member);
};

const Chairs = ({ member, name }: { readonly member: string; readonly name: string }) => {
  const chairs = useChairsOf(member).map((chair) => chair.name);
  return [name, listed(chairs)].filter((part) => part !== "").join(" · ");
};

const WhoAreYou = () => {
  const href = useHref();
  return (
    <EmptyState
      title="Who are you?"
      action={
        <TextLink standing href={href(peopleLink())}>
          Pick your name
        </TextLink>
      }
    >
      This device does not know whose it is. Once it does, your songs and your details stand here.
    </EmptyState>
  );
};

/** Somebody without a chair may still be cast in single songs, so only the list itself says that there is nothing. */
const HasChair = ({ member, children }: { readonly member: string; readonly children: ReactNode }) => {
  const chairs = useChairsOf(member);
  const href = useHref();
  return (
    <>
      {chairs.length > 0 ? null : (
        <p className="mb-4 border-l-2 border-control pl-3">
          No chair yet, so only songs with a part cast by name are listed.{" "}
          <TextLink href={href(peopleLink())}>Take a chair</TextLink>
        </p>
      )}
      {children}
    </>
  );
};

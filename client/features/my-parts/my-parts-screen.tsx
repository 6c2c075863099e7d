import { type ReactNode, useState } from "react";
import { practiceLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { WhoAreYou } from "#client/pieces/who-are-you.tsx";
import { useAuthor, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { listed } from "#shared/readiness/names.ts";
import { MySongList } from "./my-song-list.tsx";
import { useChairsOf } from "./use-chairs-of.ts";

const NOBODY = "";

/**
 * What one member has to play: their chair, their songs, their details. Made for a phone on a music stand. `news` is
 * one line of fixed height.
 */
export const MyPartsScreen = ({ news }: { readonly news?: ReactNode }) => {
  const { member: own, role } = useAuthor();
  const people = usePeople();
  const [looking, setLooking] = useState<string | null>(null);
  const chosen = looking ?? own;
  const person = chosen === null ? undefined : people.get(chosen);
  const href = useHref();
  const others = looking !== null && looking !== own;
  return (
    <div className="in-room max-w-3xl">
      <PageHeading
        title={others && person !== undefined ? `Parts of ${person.name}` : "My parts"}
        above={
          person === undefined ? undefined : <Chairs member={person.id} name={others ? "" : person.name} />
        }
      />
      {others || person === undefined ? null : news}
      {others ? (
        <Button className="mb-4" onClick={() => setLooking(null)}>
          Back to my own
        </Button>
      ) : null}
      {others || person === undefined ? null : (
        <TextLink standing className="no-print -mt-4" href={href(practiceLink())}>
          Practise: 20 minutes
        </TextLink>
      )}
      {person === undefined ? (
        <WhoAreYou>your songs and your details stand here.</WhoAreYou>
      ) : (
        <MySongList key={person.id} member={person.id} />
      )}
      {role === "leader" ? (
        <Chooser
          chosen={chosen}
          onChoose={(id) => {
            setLooking(id === own ? null : id);
            window.scrollTo(0, 0);
          }}
        />
      ) : null}
    </div>
  );
};

/** A leader looks at anybody's list; at the end of the page, because it is not what the screen is for. */
const Chooser = (props: { readonly chosen: string | null; readonly onChoose: (member: string) => void }) => {
  const people = usePeople();
  return (
    <Select
      className="mt-8 no-print"
      label="Look at somebody's parts"
      value={props.chosen ?? NOBODY}
      options={[
        { value: NOBODY, label: "choose a member", disabled: true },
        ...[...people.values()].map(({ id, name, dep }) => ({
          value: id,
          label: dep ? `${name} (dep)` : name,
        })),
      ]}
      onChange={props.onChoose}
    />
  );
};

/** Whose parts these are, and the chairs they hold. */
const Chairs = ({ member, name }: { readonly member: string; readonly name: string }) => {
  const chairs = useChairsOf(member).map((chair) => chair.name);
  return [name, listed(chairs)].filter((part) => part !== "").join(" · ");
};

import { useState } from "react";
import { useClaim } from "#client/pieces/use-claim.ts";
import { useAuthor, usePeople } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { useToast } from "#client/ui/toast.tsx";

/** Whose device this is, and how to hand it over. */
export const ThisDevice = () => {
  const people = usePeople();
  const { member, role } = useAuthor();
  const claim = useClaim();
  const toast = useToast();
  const [choosing, setChoosing] = useState(false);
  if (role === "guest") return null;
  const me = member === null ? undefined : people.get(member);
  const become = async (next: string) => {
    setChoosing(false);
    const answer = await claim(next);
    const name = people.get(next)?.name ?? "somebody";
    toast({
      text: answer.ok ? `This device is ${name}'s now.` : answer.error,
      ...(answer.ok && me ? { undo: () => void claim(me.id) } : {}),
    });
  };
  const options = [
    ...(me ? [] : [{ value: "", label: "choose", disabled: true }]),
    ...[...people.values()].map(({ id, name }) => ({ value: id, label: name })),
  ];
  return (
    <section aria-labelledby="device">
      <SectionHeading title={<span id="device">This device</span>} />
      <p>
        {me ? (
          <>
            This device is <strong>{me.name}</strong>’s{role === "leader" ? ", with a leader's say" : ""}.
          </>
        ) : (
          "Nobody has said whose device this is."
        )}
      </p>
      <p className="caption">Marks and takes made here carry that name.</p>
      {people.size === 0 ? null : choosing || !me ? (
        <Select
          label="Whose device is it?"
          value={me?.id ?? ""}
          options={options}
          onChange={(next) => void become(next)}
          className="mt-3 max-w-xs"
        />
      ) : (
        <Button className="mt-3" onClick={() => setChoosing(true)}>
          It is somebody else’s
        </Button>
      )}
    </section>
  );
};

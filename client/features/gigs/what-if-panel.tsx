import X from "lucide-react/icons/x";
import { useCallback, useState } from "react";
import { songLink } from "#client/pieces/links.ts";
import { type Step, step, useActTogether } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useChairs, useSongs, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { arrangeGig } from "#shared/commands/arrange-gig.ts";
import { tuneForGig } from "#shared/commands/call-song.ts";
import { sayAway } from "#shared/commands/say-who-is-here.ts";
import { seatForGig } from "#shared/commands/seat-for-gig.ts";
import { orderOf } from "#shared/selectors/running-order.ts";
import { playersOf, type Supposed, suppose, supposedWords } from "#shared/selectors/what-if.ts";
import { useWhatIf } from "./use-what-if.ts";
import { WhatIfChoices } from "./what-if-choices.tsx";

const NONE = "";

/** Supposes this and that about a night, and says at once what would come of it. */
export const WhatIfPanel = ({ gig }: { readonly gig: Gig }) => {
  const act = useActTogether();
  const href = useHref();
  const names = useNames();
  const chairs = useChairs();
  const songs = useSongs();
  const board = useWholeBoard();
  const { role, member } = useAuthor();
  const [supposed, setSupposed] = useState<readonly Supposed[]>([]);
  const reading = useWhatIf(gig, supposed);
  const titleOf = (song: string): string => songs.get(song)?.song.title ?? "a song that is gone";
  const add = useCallback((one: Supposed): void => setSupposed((before) => [...before, one]), []);
  const wouldBe = suppose(gig, supposed);
  const there = playersOf(board, wouldBe);
  const maySayAway =
    role === "leader" || supposed.every((one) => one.of !== "without" || one.person === member);
  const make = (): void => {
    const steps: Step[] = [];
    for (const person of wouldBe.away)
      if (!gig.away.includes(person)) steps.push(step(sayAway, { person, from: gig.date, to: gig.date }));
    for (const { id } of chairs)
      if (wouldBe.lineUp.get(id) !== gig.lineUp.get(id) || wouldBe.lineUp.has(id) !== gig.lineUp.has(id))
        steps.push(step(seatForGig, { gig: gig.id, chair: id, member: wouldBe.lineUp.get(id) ?? "" }));
    if (supposed.some(({ of }) => of === "swap"))
      steps.push(step(arrangeGig, { gig: gig.id, blocks: orderOf(wouldBe).map((block) => [...block]) }));
    for (const one of supposed)
      if (one.of === "key") steps.push(step(tuneForGig, { gig: gig.id, song: one.song, key: one.key }));
    const label = supposed.map((one) => supposedWords(one, names, titleOf)).join(", ");
    if (act(steps, label)) setSupposed([]);
  };
  return (
    <div className="py-3">
      <p className="caption pb-3">Only on this screen until you say so.</p>
      <div className="grid gap-4 laptop:grid-cols-2">
        <Select
          label="Without"
          value={NONE}
          options={[
            { value: NONE, label: "everybody comes" },
            ...there.map((id) => ({ value: id, label: names.member(id) })),
          ]}
          onChange={(person) => person !== NONE && add({ of: "without", person })}
        />
        <WhatIfChoices gig={gig} onChoose={add} />
      </div>
      <ul className="flex flex-wrap gap-x-4 py-2">
        {supposed.map((one, i) => {
          const words = supposedWords(one, names, titleOf);
          return (
            <li key={words} className="flex items-center">
              <span className="font-semibold">{words}</span>
              <IconButton
                icon={X}
                label={`Not so: ${words}`}
                onClick={() => setSupposed(supposed.filter((_, other) => other !== i))}
              />
            </li>
          );
        })}
      </ul>
      <div role="status">
        {reading === null ? null : (
          <p className="text-room">
            {Math.floor(reading.after)} ready minutes instead of {Math.floor(reading.before)}
            {reading.changes.length === 0 ? "; no song stands differently." : "."}
          </p>
        )}
      </div>
      {reading === null ? null : (
        <>
          <ul>
            {reading.changes.map(({ song, title, sentence, worse }) => (
              <li key={song} className="border-b border-line py-2">
                <p>
                  <TextLink href={href(songLink(song))}>{title}</TextLink>
                  <span className={worse ? "text-accent" : ""}>: {sentence}</span>
                </p>
              </li>
            ))}
          </ul>
          {role === "guest" ? null : (
            <div className="flex flex-wrap items-center gap-3 pt-3">
              {maySayAway ? (
                <Button onClick={make}>Make it so</Button>
              ) : (
                <p className="caption">Who is away says so themselves, or the leader does.</p>
              )}
              <Button tone="quiet" onClick={() => setSupposed([])}>
                Suppose nothing
              </Button>
            </div>
          )}
        </>
      )}
    </div>
  );
};

import { useAct } from "#client/pieces/use-act.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { Gig } from "#shared/board/band.ts";
import { askForKey, tuneForGig } from "#shared/commands/call-song.ts";
import type { TonightRemedy } from "#shared/selectors/tonight-top.ts";

export interface RemediesProps {
  readonly song: string;
  readonly title: string;
  readonly remedies: readonly TonightRemedy[];
  /** The gig of today; null = none that has the song. */
  readonly gig: Gig | null;
}

/** What can be done about one song tonight, what asks least of the band first, and who pays for each. */
export const Remedies = ({ remedies, ...props }: RemediesProps) => (
  <>
    <p className="caption mt-2">For tonight only, what asks least of the band first:</p>
    <ol aria-label={`For tonight only: ${props.title}`} className="list-decimal pl-6">
      {remedies.map((remedy) => (
        <li key={remedy.words} className="py-1">
          {remedy.words} {remedy.key === null ? null : <ForTonight {...props} keyOf={remedy.key} />}
          {remedy.pays.length === 0 ? null : <span className="caption block">{remedy.pays.join(" · ")}</span>}
        </li>
      ))}
    </ol>
  </>
);

interface ForTonightProps extends Omit<RemediesProps, "remedies"> {
  readonly keyOf: string;
}

/** A leader sends the key to everybody; anybody else asks the leader for it. Why is said nowhere. */
const ForTonight = ({ song, title, gig, keyOf }: ForTonightProps) => {
  const act = useAct();
  const { role } = useAuthor();
  if (gig === null || role === "guest") return null;
  if (role === "leader")
    return (
      <Button
        tone="quiet"
        onClick={() => act(tuneForGig, { gig: gig.id, song, key: keyOf }, `${title}: ${keyOf} that night`)}
      >
        Send the band {keyOf} for tonight
      </Button>
    );
  if (gig.keysAsked.get(song)?.key === keyOf)
    return (
      <>
        <span className="text-quiet">Asked for; the leader has not answered yet.</span>{" "}
        <Button
          tone="quiet"
          onClick={() => act(askForKey, { gig: gig.id, song, key: "" }, `${title}: no longer asked for`)}
        >
          Take it back
        </Button>
      </>
    );
  return (
    <Button
      tone="quiet"
      onClick={() =>
        act(askForKey, { gig: gig.id, song, key: keyOf }, `Asked for ${title} in ${keyOf} tonight`)
      }
    >
      Ask for {keyOf} tonight
    </Button>
  );
};

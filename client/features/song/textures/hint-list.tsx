import { partLink } from "#client/pieces/links.ts";
import { step, useAct, useActTogether } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { dismissHint } from "#shared/commands/paint-texture.ts";
import type { TextureHint } from "#shared/selectors/textures/hints.ts";

export interface HintListProps {
  readonly song: string;
  readonly hints: readonly TextureHint[];
  readonly dismissed: ReadonlySet<string>;
  readonly canDismiss: boolean;
}

/** What one could ask about the form: each with a part that could wait, each to be left unasked for this song. */
export const HintList = ({ song, hints, dismissed, canDismiss }: HintListProps) => {
  const act = useAct();
  const actTogether = useActTogether();
  const href = useHref();
  const askAgain = (): void => {
    const steps = [...dismissed].map((hint) => step(dismissHint, { song, hint, dismissed: false }));
    actTogether(steps, "Hints are shown again");
  };
  if (hints.length === 0 && dismissed.size === 0) return null;
  return (
    <>
      <ul>
        {hints.map(({ id, sentence, remedy }) => (
          <li key={id} className="flex items-center justify-between gap-3 border-b border-line py-1">
            <span>
              {sentence}
              {remedy === null ? null : (
                <>
                  {" "}
                  <TextLink href={href(partLink(song, remedy.chair))}>{remedy.sentence}</TextLink>
                </>
              )}
            </span>
            {canDismiss ? (
              <Button
                className="no-print shrink-0"
                aria-label={`Not here: ${sentence}`}
                onClick={() =>
                  act(dismissHint, { song, hint: id, dismissed: true }, "Hint dismissed for this song")
                }
              >
                Not here
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      {canDismiss && dismissed.size > 0 ? (
        <Button tone="quiet" className="no-print" onClick={askAgain}>
          {dismissed.size === 1
            ? "Show the dismissed hint again"
            : `Show ${dismissed.size} dismissed hints again`}
        </Button>
      ) : null}
    </>
  );
};

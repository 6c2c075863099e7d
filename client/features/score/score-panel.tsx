import { peopleLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongView } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { GateList } from "./gate-list.tsx";
import { RaiseList } from "./raise-list.tsx";
import { ScoreFigures } from "./score-figures.tsx";
import { StandInNote } from "./stand-in-note.tsx";
import { UnitList } from "./unit-list.tsx";

export interface ScorePanelProps {
  /** Song id. */
  readonly song: string;
}

/** What the number is not. */
const Limits = () => (
  <p className="caption mt-8">
    The score orders rehearsal time; it is not a measured probability. It was fitted on simulated bands, its
    forgetting constants come from studies of other skills, and all its constants are the band's own settings.
  </p>
);

/**
 * Everything behind one song's number: the score and its exact split, the six gates, what would raise it most, and
 * every detail and take it was read from. Stands in a sheet or on a page.
 */
export const ScorePanel = ({ song }: ScorePanelProps) => {
  const view = useSongView(song);
  const href = useHref();
  if (view === null) {
    return (
      <EmptyState title="This song is gone">
        It was taken off the board. Its takes are kept, and the leader can put it back.
      </EmptyState>
    );
  }
  if (view.night.plan.parts.length === 0) {
    return (
      <EmptyState
        title="Nobody plays this song yet"
        action={
          <TextLink standing href={href(peopleLink())}>
            Set up chairs and people
          </TextLink>
        }
      >
        A score needs at least one chair with something to play.
      </EmptyState>
    );
  }
  return (
    <div className="max-w-3xl">
      <ScoreFigures view={view} />
      <StandInNote view={view} />
      <SectionHeading title={readyOf(view).ready ? "Ready for the night" : "Not ready: what is in the way"} />
      <GateList view={view} />
      <SectionHeading title="What would raise it most" />
      <RaiseList view={view} />
      <SectionHeading title="What it is made of" />
      <UnitList view={view} />
      <Limits />
    </div>
  );
};

import { ScorePanel } from "#client/features/score/score-panel.tsx";
import { useSong } from "#client/store/hooks.ts";
import { PageHeading } from "#client/ui/page-heading.tsx";
import type { ScreenProps } from "./screen.tsx";

/** What is behind a song's score, as a page. */
export const ScoreRoute = ({ params: { song = "" } }: ScreenProps) => {
  const file = useSong(song);
  return (
    <div className="max-w-3xl">
      <PageHeading title="Behind the score" above={file?.song.title} />
      <ScorePanel song={song} />
    </div>
  );
};

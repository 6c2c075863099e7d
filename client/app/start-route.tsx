import { useLocation } from "wouter";
import { PickLineUp } from "#client/features/people/pick-line-up.tsx";
import { ShareLinks } from "#client/features/people/share-links.tsx";
import { PasteSongs } from "#client/features/songs/paste-songs.tsx";
import { StartScreen } from "#client/features/welcome/start-screen.tsx";
import { boardLink } from "#client/pieces/links.ts";

/** A new band, step by step. */
export const StartRoute = () => {
  const [, go] = useLocation();
  return (
    <StartScreen
      lineUp={<PickLineUp />}
      songs={<PasteSongs />}
      links={<ShareLinks />}
      onDone={() => go(boardLink())}
    />
  );
};

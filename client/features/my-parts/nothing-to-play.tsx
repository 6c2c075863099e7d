import { gigsLink, peopleLink, songsLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongs } from "#client/store/hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { useChairsOf } from "./use-chairs-of.ts";

/** Why a member's list is empty, and the one step that fills it. */
export const NothingToPlay = ({ member }: { readonly member: string }) => {
  const href = useHref();
  const noSongs = useSongs().size === 0;
  const noChair = useChairsOf(member).length === 0;
  const [title, words, link, step] = noChair
    ? ([
        "No chair yet",
        "Whoever holds a chair finds its songs here. So does whoever is cast for one song by name.",
        peopleLink(),
        "Take a chair",
      ] as const)
    : noSongs
      ? ([
          "No songs yet",
          "The band has no songs on its board. The first ones make this page.",
          songsLink(),
          "Add songs",
        ] as const)
      : ([
          "Nothing to play yet",
          "None of the songs that the band keeps up has something to play for this chair.",
          gigsLink(),
          "Look at the gigs",
        ] as const);
  return (
    <EmptyState
      title={title}
      action={
        <TextLink standing href={href(link)}>
          {step}
        </TextLink>
      }
    >
      {words}
    </EmptyState>
  );
};

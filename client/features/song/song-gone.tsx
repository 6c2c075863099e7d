import { boardLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { restoreSong } from "#shared/commands/remove-record.ts";

/** A song that was taken off the board, with the way to bring it back; or one this board never had. */
export const SongGone = ({ song }: { readonly song: string }) => {
  const act = useAct();
  const href = useHref();
  const { role } = useAuthor();
  const removed = useWholeBoard().removed.has(`songs/${song}`);
  const back = (
    <TextLink standing href={href(boardLink())}>
      Back to the board
    </TextLink>
  );
  if (!removed)
    return (
      <>
        <PageHeading title="Song" />
        <EmptyState title="This song is not on the board" action={back}>
          The link may belong to another band, or the song has not arrived on this device yet.
        </EmptyState>
      </>
    );
  return (
    <>
      <PageHeading title="Song" />
      <EmptyState
        title="This song was taken off the board"
        action={
          <div className="flex flex-wrap items-center gap-4">
            {role === "guest" ? null : (
              <Button tone="main" onClick={() => act(restoreSong, { id: song }, "Back on the board")}>
                Bring it back
              </Button>
            )}
            {back}
          </div>
        }
      >
        Its details, statuses and takes are kept and come back with it.
      </EmptyState>
    </>
  );
};

import { useAct } from "#client/pieces/use-act.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Gig } from "#shared/board/band.ts";
import { askForKey, tuneForGig } from "#shared/commands/call-song.ts";

/** Keys that somebody asks for, for this night only: the leader takes each or leaves the song in its key. */
export const KeysAsked = ({ gig }: { readonly gig: Gig }) => {
  const act = useAct();
  const names = useNames();
  const songs = useSongs();
  const leads = useAuthor().role === "leader";
  const [{ today }] = useViewpoint();
  if (gig.date < today) return null;
  const open = [...gig.keysAsked].flatMap(([song, { key, by }]) => {
    const file = songs.get(song);
    const now = gig.songs.find((entry) => entry.song === song)?.key ?? file?.song.key ?? "";
    return file === undefined || key === now ? [] : [{ song, key, by, now, title: file.song.title }];
  });
  if (open.length === 0) return null;
  return (
    <section aria-labelledby="keys-asked">
      <SectionHeading title={<span id="keys-asked">Keys asked for that night</span>} />
      <ul>
        {open.map(({ song, key, by, now, title }) => {
          return (
            <li key={song} className="flex flex-wrap items-center gap-x-3 gap-y-2 border-b border-line py-2">
              <p className="min-w-0 flex-1 basis-60">
                <span className="font-semibold">{title}</span> in {key}
                {now === "" ? "" : `, not ${now}`}: {by === "" ? "somebody" : names.member(by)} asks for it.
              </p>
              {leads ? (
                <>
                  <Button
                    onClick={() => act(tuneForGig, { gig: gig.id, song, key }, `${title}: ${key} that night`)}
                  >
                    Play it in {key}
                    <span className="sr-only">: {title}</span>
                  </Button>
                  <Button
                    tone="quiet"
                    onClick={() =>
                      act(askForKey, { gig: gig.id, song, key: "" }, `${title}: the key stays as it is`)
                    }
                  >
                    Leave it{now === "" ? "" : ` in ${now}`}
                    <span className="sr-only">: {title}</span>
                  </Button>
                </>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
};

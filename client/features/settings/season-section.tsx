import { useCallback, useState } from "react";
import { AskedView } from "#client/pieces/asked-view.tsx";
import { Confirm } from "#client/pieces/confirm.tsx";
import { type Asked, useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess, useKnownBands } from "#client/store/band-access.ts";
import { useBand, useBoardId, useSaveFact } from "#client/store/hooks.ts";
import type { SaveState } from "#client/store/save-state.ts";
import { Button } from "#client/ui/button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { sizeWords } from "#shared/lib/size-words.ts";
import type { SeasonClosed, SeasonInfo } from "#shared/protocol/api.ts";

const isOffline = ({ connection }: SaveState): boolean => connection === "offline";

const SeasonRow = ({ season }: { readonly season: SeasonInfo }) => {
  const { timeZone } = useBand();
  const on = (moment: number): string => dayWords(dayOf(moment, timeZone));
  const span =
    season.closedAt === null
      ? `open since ${on(season.openedAt)}`
      : `from ${on(season.openedAt)} to ${on(season.closedAt)}`;
  return (
    <ListRow
      note={season.archivedBytes > 0 ? `${span} · its history: ${sizeWords(season.archivedBytes)}` : span}
      trail={<span>{sizeWords(season.bytes)}</span>}
    >
      Season {season.season}
    </ListRow>
  );
};

const Closed = ({ closed }: { readonly closed: SeasonClosed }) => (
  <p role="status" className="mt-4 border-l-4 border-l-ink pl-4">
    Season {closed.season} is open. The board went from {sizeWords(closed.bytesBefore)} to{" "}
    {sizeWords(closed.bytesAfter)}. The other phones go over by themselves.
  </p>
);

const CloseSeason = ({ asked }: { readonly asked: Asked<readonly SeasonInfo[]> }) => {
  const access = useBandAccess();
  const board = useBoardId();
  const document = useKnownBands().find((band) => band.board === board)?.document;
  const offline = useSaveFact(isOffline);
  const [asking, setAsking] = useState(false);
  const [closed, setClosed] = useState<SeasonClosed | null>(null);
  const close = async () => {
    const answer = await access.closeSeason(board, document ?? board);
    if (!answer.ok) return answer;
    setAsking(false);
    setClosed(answer.value);
    await asked.again();
    return answer;
  };
  return (
    <>
      {closed === null ? null : <Closed closed={closed} />}
      <Button className="mt-4" disabled={offline} onClick={() => setAsking(true)}>
        Close the season
      </Button>
      {offline ? <p className="caption mt-1">This needs a signal.</p> : null}
      {asking ? (
        <Confirm title="Close the season?" yes="Close it" onYes={close} onClose={() => setAsking(false)}>
          <ul className="flex list-disc flex-col gap-2 pl-5">
            <li>The board goes on in a fresh document that is smaller and faster to load.</li>
            <li>Songs, details, marks, takes and gigs all go over. Every score stays as it is.</li>
            <li>The history of the old season stays readable under History.</li>
            <li>What was done before can no longer be taken back by Undo.</li>
            <li>Phones that are offline now catch up by themselves, with what they have not sent yet.</li>
          </ul>
          <p className="font-semibold">It cannot be opened again.</p>
        </Confirm>
      ) : null}
    </>
  );
};

/** The seasons of the band with their sizes, and the way into the next. For leaders. */
export const SeasonSection = () => {
  const access = useBandAccess();
  const board = useBoardId();
  const asked = useAsked(useCallback(() => access.seasons(board), [access, board]));
  return (
    <section aria-labelledby="season">
      <SectionHeading title={<span id="season">Season</span>} />
      <div className="max-w-2xl">
        <p className="pb-3 text-quiet">
          A board grows with every change, because it remembers the one before. Once or twice a year, after a
          run of gigs, close the season: the band starts light again and loses nothing.
        </p>
        <AskedView asked={asked}>
          {(seasons) => (
            <ul className="border-t border-line">
              {[...seasons].reverse().map((season) => (
                <SeasonRow key={season.document} season={season} />
              ))}
            </ul>
          )}
        </AskedView>
        <CloseSeason asked={asked} />
      </div>
    </section>
  );
};

import { useCallback, useState } from "react";
import { useAsked } from "#client/pieces/use-asked.ts";
import { useBandAccess, useKnownBands } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, usePeople, useSongs } from "#client/store/hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import type { SeasonInfo } from "#shared/protocol/api.ts";
import { byTitle } from "#shared/selectors/repertoire.ts";
import { type HistoryFilter, SeasonHistory } from "./season-history.tsx";

export interface HistoryScreenProps {
  /** The song to narrow it to at first. */
  readonly song?: string | undefined;
}

const seasonName = ({ season, closedAt }: SeasonInfo): string =>
  closedAt === null ? `season ${season}, open` : `season ${season}`;

interface FiltersProps {
  readonly filter: HistoryFilter;
  readonly onFilter: (filter: HistoryFilter) => void;
  readonly seasons: readonly SeasonInfo[];
  readonly document: string;
  readonly onSeason: (document: string) => void;
}

const Filters = ({ filter, onFilter, seasons, document, onSeason }: FiltersProps) => {
  const people = usePeople();
  const songs = useSongs();
  const titles = [...songs.values()].map(({ song }) => song).sort(byTitle);
  return (
    <div className="grid max-w-3xl grid-cols-2 gap-4 tablet:grid-cols-3">
      <Select
        label="Who"
        value={filter.member}
        options={[
          { value: "", label: "everybody" },
          ...[...people.values()].map(({ id, name }) => ({ value: id, label: name })),
        ]}
        onChange={(member) => onFilter({ ...filter, member })}
      />
      <Select
        label="Song"
        value={filter.song}
        options={[
          { value: "", label: "everything" },
          ...(filter.song === "" || songs.has(filter.song)
            ? []
            : [{ value: filter.song, label: "the song that was opened" }]),
          ...titles.map(({ id, title }) => ({ value: id, label: title })),
        ]}
        onChange={(song) => onFilter({ ...filter, song })}
      />
      {seasons.length < 2 ? null : (
        <Select
          label="Season"
          value={document}
          options={[...seasons]
            .reverse()
            .map((season) => ({ value: season.document, label: seasonName(season) }))}
          onChange={onSeason}
        />
      )}
    </div>
  );
};

const ForLeaders = ({ song = "" }: HistoryScreenProps) => {
  const access = useBandAccess();
  const board = useBoardId();
  const current = useKnownBands().find((band) => band.board === board)?.document ?? board;
  const seasons = useAsked(useCallback(() => access.seasons(board), [access, board])).answer;
  const [chosen, setChosen] = useState<string | null>(null);
  const [filter, setFilter] = useState<HistoryFilter>({ member: "", song });
  const document = chosen ?? current;
  return (
    <>
      <Filters
        filter={filter}
        onFilter={setFilter}
        seasons={seasons?.ok ? seasons.value : []}
        document={document}
        onSeason={setChosen}
      />
      <SeasonHistory key={document} document={document} open={document === current} filter={filter} />
    </>
  );
};

/** What was changed on the board, when and by whom, with a way back from each change. For leaders. */
export const HistoryScreen = ({ song }: HistoryScreenProps) => {
  const { name } = useBand();
  const leads = useAuthor().role === "leader";
  return (
    <div className="max-w-3xl">
      <PageHeading title="History" above={name} />
      {leads ? (
        <ForLeaders key={song} song={song} />
      ) : (
        <EmptyState title="The history is the leader's to read.">
          Your own changes of this visit stand under Settings, each with its undo. Ask the leader to put back
          anything older.
        </EmptyState>
      )}
    </div>
  );
};

import { useMySong } from "#client/pieces/my-source.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { formatWhere } from "#shared/board/where.ts";

export interface RestOfPartProps {
  readonly song: string;
  readonly card: string;
  readonly member: string;
}

/** The player's other details of the song in playing order: what comes before and after, across the form. */
export const RestOfPart = ({ song, card, member }: RestOfPartProps) => {
  const open = useMySong(song, member);
  const details = (open?.parts ?? []).flatMap((part) => part.details).filter((line) => line.card.id !== card);
  if (open === null || details.length === 0) return null;
  return (
    <Accordion size="room" summary={`Your other details in this song (${details.length})`}>
      <ol className="pb-4">
        {details.map((line) => (
          <li key={line.card.id} className="py-1">
            <span className="text-quiet">{formatWhere(line.card.where, open.source.file.sections)}</span>{" "}
            {line.card.text}
          </li>
        ))}
      </ol>
    </Accordion>
  );
};

import { useWholeBoard } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";

/** What of the stored board could not be read. Nothing of it is lost. */
export const IssuesSection = () => {
  const { issues } = useWholeBoard();
  return (
    <Accordion
      summary={
        issues.length === 0
          ? "Everything on the board can be read"
          : `Entries that cannot be read: ${issues.length}`
      }
    >
      <div className="pb-4 pl-6">
        <p className="text-quiet">
          {issues.length === 0
            ? "If an entry were broken or written by a newer Tightrow, it would be named here."
            : "They stay where they are and are part of every saved file. A newer Tightrow may read them."}
        </p>
        <ul>
          {issues.map(({ map, key, message }) => (
            <li key={`${map} ${key}`} className="border-b border-line py-2">
              {message}
              <span className="caption block break-all">
                {map}: {key}
              </span>
            </li>
          ))}
        </ul>
      </div>
    </Accordion>
  );
};

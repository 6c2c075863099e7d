import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { ItemGroup } from "#shared/selectors/catch-up/digest.ts";
import { GROUP_WORDS } from "#shared/selectors/catch-up/group-words.ts";
import type { Item } from "#shared/selectors/catch-up/item.ts";
import { NewsItem } from "./news-item.tsx";

export interface NewsGroupProps {
  readonly group: ItemGroup;
  readonly isOpen: (item: Item) => boolean;
  readonly onUnderstand: (items: readonly Item[], label: string) => void;
}

/** One kind of news: the weightiest in sight, the rest behind one line. */
export const NewsGroup = ({ group: { group, shown, folded }, isOpen, onUnderstand }: NewsGroupProps) => {
  const title = GROUP_WORDS[group].title;
  const all = [...shown, ...folded];
  const left = all.filter(isOpen).length;
  const rows = (items: readonly Item[]) => (
    <ol>
      {items.map((item) => (
        <NewsItem
          key={item.key}
          item={item}
          open={isOpen(item)}
          onUnderstand={() => onUnderstand([item], `Understood: ${item.title}`)}
        />
      ))}
    </ol>
  );
  return (
    <section aria-label={title}>
      <SectionHeading
        title={`${title} (${all.length})`}
        aside={
          left < 2 ? null : (
            <Button tone="quiet" onClick={() => onUnderstand(all, `Understood: ${left} under “${title}”`)}>
              All {left} understood
            </Button>
          )
        }
      />
      {rows(shown)}
      {folded.length === 0 ? null : (
        <Accordion summary={shown.length === 0 ? `${folded.length} to read` : `${folded.length} more`}>
          {rows(folded)}
        </Accordion>
      )}
    </section>
  );
};

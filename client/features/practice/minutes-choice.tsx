import { useState } from "react";
import { Choice } from "#client/ui/choice.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { DAY_MOST, detailsIn } from "#shared/selectors/practice-list.ts";

const OFFERED = ["10", "15", "20", "30"] as const;
const OWN = "own";
type Offer = (typeof OFFERED)[number] | typeof OWN;
const OFFERS: readonly Offer[] = [...OFFERED, OWN];

export interface MinutesChoiceProps {
  readonly minutes: number;
  readonly disabled: boolean;
  readonly onChange: (minutes: number) => void;
}

const offerOf = (minutes: number): Offer => OFFERED.find((offer) => Number(offer) === minutes) ?? OWN;

/** How much time there is, and what fits into it. */
export const MinutesChoice = ({ minutes, disabled, onChange }: MinutesChoiceProps) => {
  const [offer, setOffer] = useState<Offer>(() => offerOf(minutes));
  const count = detailsIn(minutes);
  return (
    <>
      <Choice
        label="Minutes I have"
        size="room"
        value={offer}
        options={OFFERS.map((value) => ({
          value,
          label: value === OWN ? "other" : value,
          disabled,
        }))}
        onChange={(value) => {
          setOffer(value);
          if (value !== OWN) onChange(Number(value));
        }}
      />
      {offer === OWN ? (
        <NumberField
          className="mt-3 max-w-48"
          label="Minutes"
          value={minutes}
          min={1}
          max={600}
          step={5}
          disabled={disabled}
          onChange={(value) => value !== null && onChange(value)}
        />
      ) : null}
      <p className="caption mt-2">
        {count === 1 ? "One detail" : `${count} details`}, five to seven minutes each: ten to fifteen over two
        days is the usual measure.
        {minutes > DAY_MOST ? ` Planned for ${DAY_MOST} minutes; more in one day seldom helps.` : ""}
      </p>
    </>
  );
};

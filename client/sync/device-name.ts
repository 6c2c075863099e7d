/** What a page knows of the device it is on. */
export interface DeviceTraits {
  readonly userAgent: string;
  /** Fingers the screen tells apart; 0 without a touch screen. */
  readonly maxTouchPoints: number;
}

/** In this order: most browsers also name those that came before them. */
const BROWSERS: readonly (readonly [pattern: RegExp, name: string])[] = [
  [/Firefox\/|FxiOS\//, "Firefox"],
  [/Edg(e|A|iOS)?\//, "Edge"],
  [/OPR\//, "Opera"],
  [/SamsungBrowser\//, "Samsung Internet"],
  [/Chrome\/|CriOS\//, "Chrome"],
  [/Safari\//, "Safari"],
];

const kindOf = ({ userAgent, maxTouchPoints }: DeviceTraits): string => {
  // A tablet that asks for desktop pages says it is a computer, but no such computer has a touch screen.
  if (/iPad|Tablet/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1)) return "Tablet";
  if (/Android/.test(userAgent)) return /Mobile/.test(userAgent) ? "Phone" : "Tablet";
  return /iPhone|Mobi/.test(userAgent) ? "Phone" : "Computer";
};

/** What a leader reads in the list of devices, `Phone, Firefox`: enough to tell one's own apart, no more. */
export const deviceName = (traits: DeviceTraits): string => {
  const browser = BROWSERS.find(([pattern]) => pattern.test(traits.userAgent))?.[1];
  return [kindOf(traits), browser].filter((part) => part !== undefined).join(", ");
};

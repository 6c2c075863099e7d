/** Breaks bytes the ways that disks, radios and bad memory do. The same random numbers give the same damage. */

export const DAMAGES = ["one byte", "several bytes", "cut short", "doubled", "spliced"] as const;
export type Damage = (typeof DAMAGES)[number];

/** `other` is where spliced bytes come from; `random` gives 0 ≤ r < 1. The bytes themselves stay as they are. */
export const damaged = (
  kind: Damage,
  bytes: Uint8Array,
  other: Uint8Array,
  random: () => number,
): Uint8Array => {
  const below = (n: number): number => Math.floor(random() * n);
  const flip = (target: Uint8Array): Uint8Array => {
    const at = below(target.length);
    target[at] = (target[at] ?? 0) ^ (1 + below(255));
    return target;
  };
  const copy = bytes.slice();
  switch (kind) {
    case "one byte":
      return flip(copy);
    case "several bytes":
      for (let more = 1 + below(7); more >= 0; more--) flip(copy);
      return copy;
    case "cut short":
      return copy.subarray(0, below(copy.length));
    case "doubled": {
      const from = below(copy.length);
      const to = from + 1 + below(copy.length - from);
      return joined(copy.subarray(0, to), copy.subarray(from));
    }
    case "spliced":
      return joined(copy.subarray(0, below(copy.length)), other.subarray(below(other.length)));
  }
};

const joined = (head: Uint8Array, tail: Uint8Array): Uint8Array => {
  const whole = new Uint8Array(head.length + tail.length);
  whole.set(head);
  whole.set(tail, head.length);
  return whole;
};

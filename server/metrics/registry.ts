/**
 * Numbers about the server in the text format of Prometheus, version 0.0.4
 * (https://prometheus.io/docs/instrumenting/exposition_formats/). No name or id of a board is ever a label.
 */

export interface Counter {
  /** `label` is the value of the family's only label, where it has one. */
  add(count?: number, label?: string): void;
}

export interface Histogram {
  /** In seconds. */
  observe(seconds: number): void;
}

export interface MetricRegistry {
  counter(name: string, help: string, label?: string): Counter;
  /** Read when the page is asked for. */
  gauge(name: string, help: string, read: () => number): void;
  /** `bounds` are the upper ends of the buckets, in seconds, ascending. */
  histogram(name: string, help: string, bounds: readonly number[]): Histogram;
  render(): string;
}

/** What the page is, for its Content-Type. */
export const METRICS_TYPE = "text/plain; version=0.0.4; charset=utf-8";

export const createMetricRegistry = (): MetricRegistry => {
  const families: (() => readonly string[])[] = [];
  const family = (name: string, help: string, type: string, samples: () => readonly string[]): void => {
    families.push(() => [`# HELP ${name} ${help}`, `# TYPE ${name} ${type}`, ...samples()]);
  };

  return {
    counter(name, help, label) {
      const counts = new Map<string, number>(label === undefined ? [["", 0]] : []);
      family(name, help, "counter", () =>
        [...counts].map(([value, count]) =>
          label === undefined ? `${name} ${count}` : `${name}{${label}="${escaped(value)}"} ${count}`,
        ),
      );
      return {
        add: (count = 1, value = "") => void counts.set(value, (counts.get(value) ?? 0) + count),
      };
    },
    gauge: (name, help, read) => family(name, help, "gauge", () => [`${name} ${read()}`]),
    histogram(name, help, bounds) {
      const counts = new Array<number>(bounds.length + 1).fill(0);
      let sum = 0;
      family(name, help, "histogram", () => {
        let below = 0;
        const buckets = [...bounds.map(String), "+Inf"].map((bound, i) => {
          below += counts[i] ?? 0;
          return `${name}_bucket{le="${bound}"} ${below}`;
        });
        return [...buckets, `${name}_sum ${sum}`, `${name}_count ${below}`];
      });
      return {
        observe(seconds) {
          const at = bounds.findIndex((bound) => seconds <= bound);
          const bucket = at === -1 ? bounds.length : at;
          counts[bucket] = (counts[bucket] ?? 0) + 1;
          sum += seconds;
        },
      };
    },
    render: () => `${families.flatMap((lines) => lines()).join("\n")}\n`,
  };
};

/** Backslash, quote and line feed are escaped in a label's value, as the format says. */
const escaped = (value: string): string =>
  value.replace(/\\/g, "\\\\").replace(/"/g, '\\"').replace(/\n/g, "\\n");

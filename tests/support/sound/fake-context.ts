/** One sound that was handed over: when it starts, and whether it was taken back before. */
interface Sound {
  at: number;
  stopped: boolean;
}

/** A sound card with a clock that the test moves. */
export class FakeContext extends EventTarget {
  static last: FakeContext;
  currentTime = 3;
  sampleRate = 8000;
  state = "running";
  baseLatency = 0;
  outputLatency = 0;
  destination = {};
  sounds: Sound[] = [];
  gains: { readonly ramps: (readonly [number, number])[] }[] = [];

  constructor() {
    super();
    FakeContext.last = this;
  }
  createBuffer = (_channels: number, length: number) => ({ getChannelData: () => new Float32Array(length) });
  createBufferSource = () => {
    const sound: Sound = { at: -1, stopped: false };
    this.sounds.push(sound);
    return {
      buffer: null,
      connect: (to: unknown) => to,
      disconnect: () => undefined,
      start: (at: number) => {
        sound.at = at;
      },
      stop: () => {
        sound.stopped = true;
      },
    };
  };
  createGain = () => {
    const ramps: (readonly [number, number])[] = [];
    this.gains.push({ ramps });
    return {
      gain: {
        value: 1,
        setValueAtTime: () => undefined,
        setTargetAtTime: () => undefined,
        linearRampToValueAtTime: (value: number, at: number) => void ramps.push([value, at]),
      },
      connect: (to: unknown) => to,
      disconnect: () => undefined,
    };
  };
  resume = () => Promise.resolve();
  close = () => Promise.resolve();

  /** Moments of what will sound, in order. */
  heardAt = (): number[] => this.sounds.filter(({ stopped }) => !stopped).map(({ at }) => at);
}

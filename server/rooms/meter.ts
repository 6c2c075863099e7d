import type { RoomBounds } from "./bounds.ts";
import { TokenBucket } from "./token-bucket.ts";

/** What one connection has used of what it may. */
export class Meter {
  readonly frames: TokenBucket;
  readonly bytes: TokenBucket;
  /** What makes the server read or write out a document, or the disk answer. */
  readonly questions: TokenBucket;
  readonly presence: TokenBucket;

  constructor(bounds: RoomBounds, clock: () => number) {
    this.frames = new TokenBucket(bounds.framesPerSecond, clock);
    this.bytes = new TokenBucket(bounds.bytesPerSecond, clock);
    this.questions = new TokenBucket(bounds.questionsPerSecond, clock);
    this.presence = new TokenBucket(bounds.presencePerSecond, clock);
  }

  /** The smaller, the more it has used. */
  get left(): number {
    return Math.min(this.frames.left, this.bytes.left);
  }
}

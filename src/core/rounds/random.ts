/**
 * Seeded pseudo-random numbers for the search: xorshift with 128 bits of state (G. Marsaglia 2003, J. Stat. Softw. 8(14)
 * from memory). The same seed gives the same numbers on every machine.
 */
export class Random {
  private x: number;
  private y = 362436069;
  private z = 521288629;
  private w = 88675123;

  constructor(seed: number) {
    this.x = (seed ^ 123456789) | 0;
    for (let i = 0; i < 20; i++) this.bits();
  }

  /** 32 random bits as a signed whole number. */
  bits(): number {
    const t = this.x ^ (this.x << 11);
    this.x = this.y;
    this.y = this.z;
    this.z = this.w;
    this.w = this.w ^ (this.w >>> 19) ^ t ^ (t >>> 8);
    return this.w;
  }

  /** Uniform in [0, 1). */
  fraction(): number {
    return (this.bits() >>> 0) * 2.3283064365386963e-10;
  }

  /** Uniform whole number from 0 to `limit` - 1. */
  below(limit: number): number {
    return (this.fraction() * limit) | 0;
  }
}

// SHA-256 after FIPS 180-4, fed piece by piece. The browser's own digest is missing on plain http over a local network.

const K = new Uint32Array(64);
const START = new Uint32Array(8);

// The constants are the first 32 bits behind the point of the roots of the first primes (FIPS 180-4, 4.2.2 and 5.3.3).
// 53-bit numbers hold them exactly enough: cube roots of primes up to 311 need 3 bits before the point and 32 behind.
(function () {
  const bits = root => Math.floor((root - Math.floor(root)) * 2 ** 32);
  for (let candidate = 2, n = 0; n < 64; candidate++) {
    let isPrime = true;
    for (let d = 2; d * d <= candidate && isPrime; d++) isPrime = candidate % d !== 0;
    if (!isPrime) continue;
    if (n < 8) START[n] = bits(Math.sqrt(candidate));
    K[n++] = bits(Math.cbrt(candidate));
  }
})();

/** A running digest: add(Uint8Array) as often as wanted, then hex(). */
export class Sha256 {
  #state = START.slice();
  #rest = new Uint8Array(64);
  #held = 0;
  #length = 0;
  #words = new Uint32Array(64);

  add(bytes) {
    this.#length += bytes.length;
    let at = 0;
    if (this.#held > 0) {
      at = Math.min(64 - this.#held, bytes.length);
      this.#rest.set(bytes.subarray(0, at), this.#held);
      this.#held += at;
      if (this.#held < 64) return this;
      this.#block(this.#rest, 0);
      this.#held = 0;
    }

    for (; at + 64 <= bytes.length; at += 64) this.#block(bytes, at);
    this.#rest.set(bytes.subarray(at), 0);
    this.#held = bytes.length - at;
    return this;
  }

  hex() {
    const length = this.#length;
    const tail = new Uint8Array(((this.#held + 9 + 63) >> 6) * 64 - this.#held);
    tail[0] = 0x80;
    const view = new DataView(tail.buffer);
    view.setUint32(tail.length - 8, Math.floor(length / 0x20000000));
    view.setUint32(tail.length - 4, (length * 8) >>> 0);
    this.add(tail);
    return Array.from(this.#state, word => word.toString(16).padStart(8, "0")).join("");
  }

  #block(bytes, at) {
    const w = this.#words;
    for (let i = 0; i < 16; i++, at += 4) {
      w[i] = (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3];
    }

    for (let i = 16; i < 64; i++) {
      const x = w[i - 15], y = w[i - 2];
      const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3);
      const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10);
      w[i] = (w[i - 16] + s0 + w[i - 7] + s1) | 0;
    }

    let [a, b, c, d, e, f, g, k] = this.#state;
    for (let i = 0; i < 64; i++) {
      const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
      const t1 = (k + s1 + ((e & f) ^ (~e & g)) + K[i] + w[i]) | 0;
      const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      k = g; g = f; f = e; e = (d + t1) | 0; d = c; c = b; b = a; a = (t1 + t2) | 0;
    }

    const state = this.#state;
    state[0] += a; state[1] += b; state[2] += c; state[3] += d; state[4] += e; state[5] += f; state[6] += g; state[7] += k;
  }
}

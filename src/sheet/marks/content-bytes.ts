/**
 * The content of a PDF page as it is written: ASCII in a buffer that all pages use. A page has some ten thousand
 * numbers: as strings they would be garbage many times the size of the file.
 */
export class ContentBytes {
  #bytes = new Uint8Array(1 << 18);
  #length = 0;

  /** Text as it is: operators and numbers of PDF, which are ASCII. */
  ascii(text: string): void {
    this.#reserve(text.length);
    for (let i = 0; i < text.length; i++) this.#bytes[this.#length++] = text.charCodeAt(i);
  }

  /** A whole number and a space. */
  integer(value: number): void {
    this.#reserve(24);
    const bytes = this.#bytes;
    let rest = Math.abs(value);
    if (value < 0) bytes[this.#length++] = 45;
    let digits = 1;
    for (let power = 10; power <= rest; power *= 10) digits++;
    const end = this.#length + digits;
    for (let at = end - 1; at >= this.#length; at--) {
      const tenth = Math.floor(rest / 10);
      bytes[at] = 48 + rest - 10 * tenth;
      rest = tenth;
    }
    bytes[end] = 32;
    this.#length = end + 1;
  }

  /** A copy of what was written so far; the next page begins anew. */
  take(): Uint8Array<ArrayBuffer> {
    const taken = this.#bytes.slice(0, this.#length);
    this.#length = 0;
    return taken;
  }

  #reserve(more: number): void {
    if (this.#length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(2 * this.#bytes.length, this.#length + more));
    larger.set(this.#bytes.subarray(0, this.#length));
    this.#bytes = larger;
  }
}

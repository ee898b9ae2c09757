// Hands the microphone's samples on to the page, in pieces. Runs beside the page, on the audio's own thread.

/** Samples in a piece: about 20 ms. */
const PIECE = 1024;

/** @typedef {{new (): {port: MessagePort}}} Processor what the audio thread gives: no page has it, so its type is told here */
const scope = /** @type {{AudioWorkletProcessor: Processor, registerProcessor: (name: string, kind: Function) => void}} */ (
  /** @type {unknown} */ (globalThis));

class Samples extends scope.AudioWorkletProcessor {
  #piece = new Float32Array(PIECE);
  #filled = 0;

  /** @param {Float32Array[][]} inputs @returns {boolean} whether to go on */
  process([input]) {
    const [samples] = input ?? [];
    for (const sample of samples ?? []) {
      this.#piece[this.#filled] = sample;
      if (++this.#filled < PIECE) continue;
      this.port.postMessage(this.#piece);
      this.#filled = 0;
    }
    return true;
  }
}

scope.registerProcessor("samples", Samples);

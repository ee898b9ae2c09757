// Listens by the microphone when asked to. Nothing is recorded or sent: samples are looked at and forgotten.
import { audio, hasAudio, release, use, wake } from "../sound/audio.js";

/** What a voice needs and a string does not: it would be taken for noise, or made louder and softer. */
const WANTED = { audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } };

/** Why there is no sound to be heard, by the name of the browser's error. */
const REASONS = new Map([
  ["NotAllowedError", "denied"], ["SecurityError", "denied"], ["PermissionDeniedError", "denied"],
  ["NotFoundError", "absent"], ["OverconstrainedError", "absent"], ["DevicesNotFoundError", "absent"],
  ["NotReadableError", "busy"], ["AbortError", "busy"],
]);

/**
 * @typedef {object} Listening
 * @property {number} rate samples a second
 * @property {() => void} stop lets the microphone go
 */

/**
 * Call it within the tap that asks for it.
 * @param {(samples: Float32Array) => void} hears told each piece
 * @param {() => void} ended told when the microphone is taken away
 * @returns {Promise<Listening>}
 * @throws {Error} (rejects) its message is `denied`, `absent`, `busy` or `unable`
 */
export async function listen(hears, ended) {
  const user = {};
  /** @type {MediaStream | null} */
  let stream = null;
  try {
    if (!hasAudio() || !navigator.mediaDevices?.getUserMedia || typeof AudioWorkletNode !== "function") throw new Error();
    const awake = wake();
    awake.catch(() => undefined);
    stream = await navigator.mediaDevices.getUserMedia(WANTED);
    await awake;
    const context = audio();
    use(user);
    await context.audioWorklet.addModule(new URL("./worklet.js", import.meta.url));
    return connect(stream, context, { hears, ended, user });
  } catch (error) {
    release(user);
    letGo(stream);
    throw new Error(REASONS.get(error instanceof DOMException ? error.name : "") ?? "unable");
  }
}

/** @param {MediaStream} stream @param {AudioContext} context @param {{hears: (samples: Float32Array) => void, ended: () => void, user: object}} to @returns {Listening} */
function connect(stream, context, { hears, ended, user }) {
  const source = context.createMediaStreamSource(stream);
  const samples = new AudioWorkletNode(context, "samples", { numberOfInputs: 1, numberOfOutputs: 1 });
  // A node is asked for samples only where it leads to the loudspeaker; it gives it silence.
  source.connect(samples).connect(context.destination);
  samples.port.onmessage = ({ data }) => hears(data);
  const stop = () => {
    samples.port.onmessage = null;
    source.disconnect();
    samples.disconnect();
    letGo(stream);
    release(user);
  };
  for (const track of stream.getTracks()) track.addEventListener("ended", () => { stop(); ended(); });
  return { rate: context.sampleRate, stop };
}

/** @param {MediaStream | null} stream */
function letGo(stream) {
  for (const track of stream?.getTracks() ?? []) track.stop();
}

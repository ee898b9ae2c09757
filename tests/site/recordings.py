"""Recordings of plucked strings (not the course's own) for a browser's fake microphone, and spies on its sounds."""

from __future__ import annotations

import itertools
import math
import random
import struct
import wave
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserType

from .looking import FLAGS, chromium_path

RATE = 48_000
SPY = """(() => {
  window.spy = { contexts: 0, starts: [], tasks: 0, most: 0 };
  const Context = window.AudioContext;
  window.AudioContext = class extends Context { constructor(...all) { super(...all); window.spy.contexts += 1; } };
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (at) {
    window.spy.starts.push([at, this.buffer.length]);
    return start.call(this, at);
  };
  // How many strings are put into buffers within one task of the page.
  let task = 0;
  const copy = AudioBuffer.prototype.copyToChannel;
  AudioBuffer.prototype.copyToChannel = function (...all) {
    if (task === 0) setTimeout(() => { task = 0; }, 0);
    task += 1;
    window.spy.tasks += 1;
    window.spy.most = Math.max(window.spy.most, task);
    return copy.apply(this, all);
  };
})()"""
"""Set up before a page loads: a script that is run later counts as the student's own gesture."""


def tone(midi: float, seconds: float) -> list[float]:
    """A stiff string (Fletcher 1964: f_n = n f sqrt((1 + B n^2) / (1 + B))) that sounds the pitch and dies away."""
    hertz, stiff = 440 * 2 ** ((midi - 69) / 12), 8e-5
    out = [0.0] * int(seconds * RATE)
    for n in range(1, min(12, int(5000 / hertz)) + 1):
        turn = 2 * math.pi * n * hertz * math.sqrt((1 + stiff * n * n) / (1 + stiff)) / RATE
        size, fall = 0.3 * math.sin(math.pi * n * 0.2) / n, math.exp(-(1 + 0.25 * n) / RATE)
        for at in range(len(out)):
            out[at] += size * math.sin(turn * at)
            size *= fall
    return [sample * min(1.0, at / 144) for at, sample in enumerate(out)]


def plucked(midi: float, seconds: float, *, stiff: float, glide: float, noise: float, seed: int = 1) -> list[float]:
    """A string as it is tuned: stiffer, its pitch so many cents sharp when struck, noise so many dB below it.

    The pitch falls by 1/e in a quarter of a second; the level of the noise is held against the whole tone.
    """
    hertz, chance = 440 * 2 ** ((midi - 69) / 12), random.Random(seed)
    length = int(seconds * RATE)
    bent = (2 ** (glide * math.exp(-4 * at / RATE) / 1200) for at in range(length))
    phases = list(itertools.accumulate(2 * math.pi * hertz * factor / RATE for factor in bent))
    out = [0.0] * length
    for n in range(1, min(12, int(5000 / hertz)) + 1):
        turn, begin = n * math.sqrt((1 + stiff * n * n) / (1 + stiff)), chance.uniform(0, 2 * math.pi)
        size, fall = 0.3 * math.sin(math.pi * n * 0.2) / n, math.exp(-(1.2 + 0.25 * n) / RATE)
        for at, phase in enumerate(phases):
            out[at] += size * math.sin(begin + turn * phase)
            size *= fall
    loud = math.sqrt(sum(sample * sample for sample in out) / length) / 10 ** (noise / 20)
    ends = RATE // 20
    return [
        (sample + chance.gauss(0, loud)) * min(1.0, at / 144, (length - at) / ends) for at, sample in enumerate(out)
    ]


def strum(pitches: Sequence[float], muted: float | None = None, seconds: float = 2.2) -> list[float]:
    """Strings struck one after another, lowest first; on the muted one a finger lies, so that it only thuds."""
    out = [0.0] * int((seconds + 0.2) * RATE)
    for order, midi in enumerate(pitches):
        sound = tone(midi, 0.05 if midi == muted else seconds)
        if midi == muted:
            sound = [sample * (1 - at / len(sound)) ** 2 for at, sample in enumerate(sound)]
        begins = int(order * 0.015 * RATE)
        for at, sample in enumerate(sound):
            out[begins + at] += 0.5 * sample
    return out


def silence(seconds: float) -> list[float]:
    """No sound at all."""
    return [0.0] * int(seconds * RATE)


def record(path: Path, parts: Sequence[list[float]]) -> Path:
    """Writes the parts one after another as a recording with 16 bits a sample."""
    samples = [max(-32767, min(32767, int(sample * 32767))) for part in parts for sample in part]
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(struct.pack(f"<{len(samples)}h", *samples))
    return path


@contextmanager
def hearing(kind: BrowserType, recording: Path, allowed: bool = True) -> Iterator[Browser]:
    """A browser whose microphone plays a recording, again and again; asked whether it may, it hears yes or no."""
    fake = ["--use-fake-device-for-media-stream", f"--use-file-for-fake-audio-capture={recording}"]
    asked = ["--use-fake-ui-for-media-stream" if allowed else "--use-fake-ui-for-media-stream=deny"]
    browser = kind.launch(executable_path=chromium_path(), args=[*FLAGS, *fake, *asked])
    yield browser
    browser.close()

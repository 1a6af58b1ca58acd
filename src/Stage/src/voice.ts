import type { Cue } from "./playback.js";

/** Speaks cues with the browser's own voice, when asked. */
export class Voice {
  on = false;
  private spoken: Cue | null = null;
  private until = 0;

  static get exists(): boolean {
    return "speechSynthesis" in window && typeof SpeechSynthesisUtterance === "function";
  }

  /** Whether something is still being said; never for longer than a sentence can take, should the browser not tell the end. */
  get busy(): boolean {
    return this.on && speechSynthesis.speaking && performance.now() < this.until;
  }

  say(cue: Cue, language: string): void {
    if (!this.on || this.spoken === cue) return;
    this.spoken = cue;
    speechSynthesis.cancel();
    const utterance = new SpeechSynthesisUtterance(cue.text);
    utterance.lang = language;
    this.until = performance.now() + 3000 + cue.text.length * 150;
    speechSynthesis.speak(utterance);
  }

  hush(): void {
    this.spoken = null;
    if (Voice.exists) speechSynthesis.cancel();
  }
}

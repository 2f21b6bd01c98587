/** Lets one holder through at a time, in the order of arrival. */
export class Turnstile {
  #tail: Promise<void> = Promise.resolve();

  /** Resolves when it is the caller's turn, with the function that ends the turn. */
  async enter(): Promise<() => void> {
    const turn = Promise.withResolvers<void>();
    const before = this.#tail;
    this.#tail = turn.promise;
    await before;
    return turn.resolve;
  }
}

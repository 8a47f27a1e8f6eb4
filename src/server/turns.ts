/** Lets work on the same thing wait for each other: two sheets of one stoma must not get the same number. */
export class Turns {
  private readonly last = new Map<string, Promise<unknown>>();

  async take<T>(about: string, work: () => Promise<T>): Promise<T> {
    const before = this.last.get(about) ?? Promise.resolve();
    const mine = before.then(work, work);
    this.last.set(about, mine);
    try {
      return await mine;
    } finally {
      if (this.last.get(about) === mine) this.last.delete(about);
    }
  }
}

// Typed arrays that grow: millions of numbers without an object for each.

type Typed = Float64Array | Int32Array | Int16Array;

/** Adds numbers at the end; `done` gives them back as one array of their length. */
export class Growing<T extends Typed> {
  length = 0;
  private data: T;
  private readonly make: (length: number) => T;

  constructor(make: (length: number) => T, room = 1024) {
    this.make = make;
    this.data = make(room);
  }

  push(value: number): void {
    if (this.length === this.data.length) {
      const larger = this.make(this.data.length * 2);
      larger.set(this.data);
      this.data = larger;
    }
    this.data[this.length++] = value;
  }

  done(): T {
    return this.data.slice(0, this.length) as T;
  }
}

// The routes of a day as arrays: what one crew could do, whoever it is.
import type { Tables } from './tables.ts';
import type { Timing } from './timing.ts';

export type Routes = {
  count: number;
  /** Visits and starts of route r are at first[r] .. first[r + 1]. */
  first: Int32Array;
  visits: Int16Array;
  starts: Int16Array;
  crewSize: Uint8Array;
  begins: Int16Array;
  ends: Int16Array;
  /** Driving between the visits, and waiting. */
  inner: Int16Array;
  waits: Int16Array;
  /** What each member pays for moved starts and broken promises. */
  soft: Float64Array;
  needs: Int32Array;
  kit: Int32Array;
  /** Sum of what leaving the visits out would cost. */
  skip: Float64Array;
};

type Row = Pick<Timing, 'begins' | 'ends' | 'soft'> & {
  crewSize: number;
  inner: number;
  waits: number;
  needs: number;
  kit: number;
  skip: number;
};

/** Collects routes one by one. */
export class RouteList {
  private readonly tables: Tables;
  private readonly offsets: number[] = [0];
  private readonly visits: number[] = [];
  private readonly starts: number[] = [];
  private readonly rows: Row[] = [];

  constructor(tables: Tables) {
    this.tables = tables;
  }

  get count(): number {
    return this.rows.length;
  }

  /** `work` is the time at the visits, `inner` the driving between them. */
  add(sequence: readonly number[], { begins, ends, soft, starts }: Timing, inner: number, work: number): void {
    const { tables } = this;
    const row: Row = { begins, ends, soft, inner, waits: ends - begins - work - inner, crewSize: 2, needs: 0, kit: 0, skip: 0 };
    sequence.forEach((visit, at) => {
      this.visits.push(visit);
      this.starts.push(starts[at]!);
      row.crewSize = tables.visits[visit]!.crewSize;
      row.needs |= tables.needs[visit]!;
      row.kit |= tables.kitOf[visit]!;
      row.skip += tables.skip[visit]!;
    });
    this.offsets.push(this.visits.length);
    this.rows.push(row);
  }

  done(): Routes {
    const { rows } = this;
    return {
      count: rows.length,
      first: Int32Array.from(this.offsets),
      visits: Int16Array.from(this.visits),
      starts: Int16Array.from(this.starts),
      crewSize: Uint8Array.from(rows, (row) => row.crewSize),
      begins: Int16Array.from(rows, (row) => row.begins),
      ends: Int16Array.from(rows, (row) => row.ends),
      inner: Int16Array.from(rows, (row) => row.inner),
      waits: Int16Array.from(rows, (row) => row.waits),
      soft: Float64Array.from(rows, (row) => row.soft),
      needs: Int32Array.from(rows, (row) => row.needs),
      kit: Int32Array.from(rows, (row) => row.kit),
      skip: Float64Array.from(rows, (row) => row.skip),
    };
  }
}

import { InvalidValueError } from '../../core/errors.js';

/** A vehicle routing problem with time windows as its text file says it; customer 0 is the depot. */
export interface VrptwInstance {
  readonly name: string;
  readonly vehicles: number;
  readonly capacity: number;
  readonly customers: readonly VrptwCustomer[];
}

export interface VrptwCustomer {
  readonly number: number;
  readonly x: number;
  readonly y: number;
  readonly demand: number;
  readonly ready: number;
  readonly due: number;
  readonly service: number;
}

const ADVICE =
  'Give a file in the text format of Solomon (1987): name, VEHICLE block, CUSTOMER block of seven columns.';

/** Reads Solomon's text format; blank lines, headings and line ends do not matter. */
export function readVrptw(text: string): VrptwInstance {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const name = lines.find((line) => line !== '') ?? '';
  const rows = lines.map((line) => line.split(/\s+/).map(Number)).filter((row) => row.every(Number.isFinite));
  const fleet = rows.find((row) => row.length === 2);
  const customers = rows
    .filter((row) => row.length === 7)
    .map(
      ([number, x, y, demand, ready, due, service]) => ({ number, x, y, demand, ready, due, service }) as VrptwCustomer,
    );
  if (!fleet || customers.length < 2) throw new InvalidValueError('instance', name, ADVICE);
  return { name, vehicles: fleet[0] as number, capacity: fleet[1] as number, customers };
}

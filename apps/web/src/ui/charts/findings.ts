// Titles of drawings as findings: what is to be seen, and whether chance alone would show as much.
import type { ControlPoint } from './ControlChart.tsx';

type Told = {
  points: readonly ControlPoint[];
  /** What is counted, as it begins a sentence and goes on with "were": 'Callbacks per 100 jobs'. */
  what: string;
  format: (value: number) => string;
};

const last = <T>(list: readonly T[]): T | undefined => list.at(-1);
const others = (n: number): string => (n === 0 ? '' : ` and at ${n} other ${n === 1 ? 'point' : 'points'}`);
const ROW = 'for eight points or more in a row, which chance alone rarely does';

/** The newest point beyond a limit tells most, then the newest run; without either, where it was highest, and that chance allows it. */
export function findingOf({ points, what, format }: Told): string {
  const drawn = points.filter((point): point is ControlPoint & { value: number } => point.value !== null);
  const beyond = drawn.filter(({ signals = [] }) => signals.some(({ rule }) => rule !== 'run'));
  const [far, run] = [last(beyond), last(drawn.filter(({ signals = [] }) => signals.length > 0))];
  if (far) return `${what} were ${sideOf(far)} what chance allows in ${far.label} (${format(far.value)})${others(beyond.length - 1)}`;
  if (run) return `${what} stood ${sideOf(run)} the center up to ${run.label} ${ROW}`;
  const most = drawn.reduce<(typeof drawn)[number] | null>((top, point) => (top && top.value >= point.value ? top : point), null);
  if (!most || most.value === 0) return `${what} were none in all that is drawn`;
  const chance =
    most.upper === null || most.upper === undefined ? '; too little is known yet for limits of chance' : ', within what chance allows';
  return `${what} were highest in ${most.label} (${format(most.value)})${chance}`;
}

/** The same of a chart that counts the way from one to the next: `what` came closer together or farther apart. */
export function gapFindingOf({ points, what, format }: Told): string {
  const beyond = points.filter(({ signals = [] }) => signals.some(({ rule }) => rule !== 'run'));
  const [far, run] = [last(beyond), last(points.filter(({ signals = [] }) => signals.length > 0))];
  const came = (point: ControlPoint): string => (sideOf(point) === 'above' ? 'farther apart' : 'closer together');
  if (far) return `${what} came ${came(far)} than chance allows up to ${far.label}${others(beyond.length - 1)}`;
  if (run) return `${what} came ${came(run)} than in the middle up to ${run.label} ${ROW}`;
  const center = points[0]?.center;
  return `${what} came ${center === null || center === undefined ? '' : `${format(center)} apart in the middle, `}as evenly as chance allows`;
}

const sideOf = ({ signals = [] }: ControlPoint): 'above' | 'below' => (signals.find(({ rule }) => rule !== 'run') ?? signals[0])!.side;

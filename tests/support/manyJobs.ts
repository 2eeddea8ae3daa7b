// A spreadsheet of many jobs that were done before, as a firm of some years has one: invented, and equal on every machine.
import { randomOf } from '../bench/random.ts';

const STREETS = [
  'Alder Way',
  'Birch Street',
  'Cedar Lane',
  'Dogwood Court',
  'Elder Road',
  'Fir Avenue',
  'Gale Street',
  'Heron Road',
  'Iris Lane',
  'Juniper Drive',
];
const FIRST = ['Ada', 'Bert', 'Clara', 'Dirk', 'Edda', 'Frank', 'Greta', 'Hugo', 'Inge', 'Jost'];
const LAST = ['Ames', 'Brandt', 'Corey', 'Dunne', 'Ewald', 'Fenn', 'Grove', 'Hale', 'Irving', 'Jung'];
const HEADS = 'Job No,Inspection date,Start time,Street,City,Client,Client email,Client phone,Fee,Inspector 1,Inspector 2,Report sent';

/** `count` rows; one client in five has two jobs, one house in ten was inspected twice. `people`: names on file; `towns`: known ones. */
export function manyJobs(count: number, { people, towns }: { people: readonly string[]; towns: readonly string[] }): string {
  const random = randomOf(4180);
  const lines = [HEADS];
  for (let n = 0; n < count; n++) {
    const at = new Date(Date.UTC(2019, 0, 2) + random.int(2_500) * 86_400_000);
    const say = (day: Date): string => `${day.getUTCMonth() + 1}/${day.getUTCDate()}/${day.getUTCFullYear()}`;
    const house = random.chance(0.1) ? random.int(n + 1) : n;
    const client = random.chance(0.2) ? random.int(n + 1) : n;
    const first = random.int(people.length);
    const second = (first + 1 + random.int(people.length - 1)) % people.length;
    lines.push(
      [
        ...[
          `B-${n + 1}`,
          say(at),
          random.chance(0.5) ? '9:00 AM' : '1:30 PM',
          `${house + 1} ${STREETS[house % 10]}`,
          towns[house % towns.length],
        ],
        ...[`${FIRST[client % 10]} ${LAST[Math.floor(client / 10) % 10]} ${client}`, `c${client}@mail.example`, '920-555-0170'],
        ...[
          `${350 + random.int(400)}.00`,
          people[first],
          people[second],
          random.chance(0.9) ? say(new Date(at.getTime() + 86_400_000)) : '',
        ],
      ].join(','),
    );
  }
  return `${lines.join('\r\n')}\r\n`;
}

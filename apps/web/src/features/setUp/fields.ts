// What the set-up asks for, under the names of what is sent, and how it becomes the request.
import type { SetUp } from '../../api/firm.ts';
import { spanOf, type TypedWeek } from '../../ui/clock.ts';

export const EMPTY = {
  code: '',
  'firm.name': '',
  'firm.phone': '',
  'firm.email': '',
  'firm.address': '',
  'firm.onCallPhone': '',
  'office.name': '',
  'office.zip': '',
  'office.lat': '',
  'office.lon': '',
  'owner.name': '',
  'owner.email': '',
  'owner.phone': '',
  'owner.password': '',
  beginWithExamples: true,
};
export type Values = typeof EMPTY;

export const LABELS: Record<keyof Values | 'office.hours', string> = {
  code: 'Set-up code',
  'firm.name': 'Name of the firm',
  'firm.phone': 'Phone',
  'firm.email': 'E-mail',
  'firm.address': 'Address',
  'firm.onCallPhone': 'Phone outside office hours',
  'office.name': 'Town of the office',
  'office.zip': 'ZIP code of the office',
  'office.lat': 'Latitude, in degrees',
  'office.lon': 'Longitude, in degrees',
  'office.hours': 'Office hours',
  'owner.name': "Owner's name",
  'owner.email': "Owner's e-mail, to sign in with",
  'owner.phone': "Owner's phone",
  'owner.password': 'Password',
  beginWithExamples: 'Begin with the example services, fees, rules, agreement text and procedures',
};

/** A number as typed; what is none becomes NaN, which the service refuses at its field. */
const numberOf = (typed: string): number | undefined => (typed.trim() === '' ? undefined : Number(typed.replace(',', '.')));

export function bodyOf(v: Values, week: TypedWeek, ids: { office: string; owner: string }): SetUp {
  const [d1, d2, d3, d4, d5, d6, d7] = week.map(spanOf) as [number, number][];
  const hours = { 1: d1 ?? null, 2: d2 ?? null, 3: d3 ?? null, 4: d4 ?? null, 5: d5 ?? null, 6: d6 ?? null, 7: d7 ?? null };
  return {
    code: v.code,
    beginWithExamples: v.beginWithExamples,
    firm: {
      name: v['firm.name'],
      phone: v['firm.phone'],
      email: v['firm.email'],
      address: v['firm.address'],
      onCallPhone: v['firm.onCallPhone'],
    },
    office: {
      id: ids.office,
      name: v['office.name'],
      zip: v['office.zip'].trim(),
      lat: numberOf(v['office.lat']),
      lon: numberOf(v['office.lon']),
      hours,
    },
    owner: { id: ids.owner, name: v['owner.name'], email: v['owner.email'], phone: v['owner.phone'], password: v['owner.password'] },
  };
}

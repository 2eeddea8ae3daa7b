// The closed lists of taking in, each with the words that people read.

/** What somebody is in danger from. */
export const DANGERS = {
  electric: 'Electricity: sparks, shocks, a burning smell, water at wiring',
  gas: 'Gas: smell of gas, a hissing pipe',
  carbon_monoxide: 'Carbon monoxide: the alarm sounds, headache, sick feeling',
  other: 'Something else: it may fall, burn, flood or hurt somebody',
} as const;
export type Danger = keyof typeof DANGERS;

/** How it came in. */
export const WAYS = {
  desk: 'told to the office',
  mail: 'by e-mail',
  link: "by the client's private link",
  site: 'recorded on site',
} as const;
export type Way = keyof typeof WAYS;

/** Who caught a near-miss before anybody relied on the work. */
export const CAUGHT_BY = {
  partner: 'the partner on site',
  lead: 'the lead inspector',
  reviewer: 'whoever reviewed the report',
  client: 'the client, before relying on it',
} as const;
export type CaughtBy = keyof typeof CAUGHT_BY;

/** How a callback belongs to an earlier one of the same property. */
export const LINKS = { duplicate: 'the same as', repeat: 'came back after' } as const;
export type LinkKind = keyof typeof LINKS;

/** What a client can report by the private link, in the client's words. Each is taken in as a kind. */
export const CLIENT_MATTERS = {
  missed: 'Something was missed, or the report says it wrongly',
  damaged: 'Something was damaged during the visit',
  hurt: 'Somebody was hurt during the visit',
  conduct: 'How we worked or behaved',
  fee: 'The fee',
  question: 'I only have a question about the report',
} as const;
export type ClientMatter = keyof typeof CLIENT_MATTERS;

/** Parts of a house, and the arrival at it, as the office and the client choose them. */
export const SYSTEMS = {
  electrical: 'Electrical',
  plumbing: 'Plumbing',
  water_heater: 'Water heater',
  heating: 'Heating',
  cooling: 'Cooling',
  roof: 'Roof',
  attic: 'Attic',
  exterior: 'Exterior and site',
  structure: 'Structure',
  interior: 'Interior',
  garage: 'Garage',
  fireplace: 'Fireplace',
  alarms: 'Smoke and carbon monoxide alarms',
  arrival: 'Arrival at the house',
  other: 'Something else',
} as const;
export type System = keyof typeof SYSTEMS;

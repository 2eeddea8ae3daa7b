// The invented towns of Tamarack County around its inland lake.
export const TOWNS = [
  { name: 'Birchmere', zip: '54901', lat: 44.03, lon: -88.54 },
  { name: 'Port Ansel', zip: '54956', lat: 44.19, lon: -88.46 },
  { name: 'Stony Ferry', zip: '54986', lat: 44.11, lon: -88.71 },
  { name: 'Lower Kettle', zip: '54935', lat: 43.86, lon: -88.48 },
  { name: 'Orrin Mills', zip: '54963', lat: 44.04, lon: -88.74 },
  { name: 'Whitefish Landing', zip: '54971', lat: 43.9, lon: -88.8 },
] as const;

// Types of the one list that zipPlace.ts reads; the package brings none of its own.
declare module 'zipcodes/lib/codes.js' {
  type Code = { zip: string; latitude: number; longitude: number; city: string; state: string; country: string };
  const list: { codes: Record<string, Code> };
  export default list;
}

// What the address of a screen may say after its question mark. Anything else counts as not said, so that an old or mistyped link still opens.

/** A part as it stands in the address, or undefined where it is nothing that the screen knows. */
type Part<T> = (said: unknown) => T | undefined;

export const text =
  (longest = 400): Part<string> =>
  (said) =>
    typeof said === 'string' && said.length <= longest ? said : undefined;

/** A number of digits is read as a number by the router; such words stay words. */
export const words: Part<string> = (said) => (typeof said === 'number' ? String(said) : text()(said));

export const yes: Part<boolean> = (said) => (typeof said === 'boolean' ? said : undefined);

/** A whole number from `least` on. */
export const whole =
  (least: number): Part<number> =>
  (said) => {
    const number = typeof said === 'string' && said !== '' ? Number(said) : said;
    return typeof number === 'number' && Number.isSafeInteger(number) && number >= least ? number : undefined;
  };

const matching =
  (shape: RegExp): Part<string> =>
  (said) =>
    typeof said === 'string' && shape.test(said) ? said : undefined;

export const uuid = matching(/^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/i);

/** An ISO day that the calendar has. */
export const day: Part<string> = (said) => {
  const given = matching(/^\d{4}-\d{2}-\d{2}$/)(said);
  const at = given === undefined ? NaN : Date.parse(`${given}T00:00:00Z`);
  return Number.isNaN(at) || new Date(at).toISOString().slice(0, 10) !== given ? undefined : given;
};

/** An address of this app: a link must not lead elsewhere. */
export const inside = matching(/^\/(?![/\\])/);

/** One of the keys of a list of words. */
export const keyOf =
  <K extends string>(list: Record<K, unknown>): Part<K> =>
  (said) =>
    typeof said === 'string' && Object.hasOwn(list, said) ? (said as K) : undefined;

/** Reads the parts of an address. What is said wrongly is named as not said: left out, the router would hand it on as it stands. */
export const searchOf =
  <P extends Record<string, Part<unknown>>>(parts: P) =>
  (said: Record<string, unknown>) =>
    Object.fromEntries(
      Object.entries(parts)
        .filter(([name]) => said[name] !== undefined)
        .map(([name, read]) => [name, read(said[name])]),
    ) as { [K in keyof P]?: ReturnType<P[K]> };

// Types of the few jstat functions that distributions.ts uses; the library brings none of its own.
declare module 'jstat' {
  type Distribution<P extends number[]> = {
    cdf(x: number, ...parameters: P): number;
    inv(p: number, ...parameters: P): number;
  };

  const library: {
    jStat: {
      normal: Distribution<[mean: number, deviation: number]>;
      chisquare: Distribution<[degrees: number]>;
      beta: Distribution<[alpha: number, beta: number]>;
      centralF: Distribution<[numeratorDegrees: number, denominatorDegrees: number]>;
      /** Natural logarithm of the gamma function, right to the last digits of a double (gammaln is good to 1e-12 only). */
      loggam(x: number): number;
    };
  };
  export default library;
}

// Samples of published control charts and their limits.

/** Shares, to 1e-9; printed .2313, .4102, .0524. Left out: samples 15 and 23, whose causes were found; sample numbers count from 1. */
export const juice = {
  source: 'NIST/SEMATECH e-Handbook, section 6.3.3.2; D. C. Montgomery, Introduction to Statistical Quality Control (1991), orange juice cans',
  status: 'found; Laney limits computed with R 4.2.2',
  counts: [12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6],
  total: 50,
  all: { center: 0.23133333333333334, upper: 0.41023911859473844, lower: 0.05242754807192823, beyond: [15, 23], sigmaZ: 1.66086671974324, widened: 0.5284719980435317 },
  without: { leftOut: [15, 23], center: 0.215, upper: 0.38929716004571047, lower: 0.040702839954289555, beyond: [15, 21, 23], sigmaZ: 1.46937087749234, widened: 0.47110717100078836 },
};

/** Counts, to 1e-9; printed 19.85, 33.22, 6.48. */
export const boards = {
  source: 'Montgomery, Introduction to Statistical Quality Control (1991) 173-175, printed circuit boards',
  status: 'found',
  counts: [21, 24, 16, 12, 15, 5, 28, 20, 31, 25, 20, 24, 16, 19, 10, 17, 13, 22, 18, 39, 30, 24, 16, 19, 17, 15],
  center: 19.846153846153847, upper: 33.21086052514178, lower: 6.481447167165914, beyond: [6, 20],
};

/** Failures per unit, to 1e-9; printed 1.93, 3.79, .07. */
export const computers = {
  source: 'Montgomery, Introduction to Statistical Quality Control (1991) 181-182, personal computers',
  status: 'found; widened limits computed with numpy 2.4 from the formula',
  counts: [10, 12, 8, 14, 10, 16, 11, 7, 10, 15, 9, 5, 7, 11, 12, 6, 8, 10, 7, 5],
  exposure: 5,
  values: [2, 2.4, 1.6, 2.8, 2, 3.2, 2.2, 1.4, 2, 3, 1.8, 1, 1.4, 2.2, 2.4, 1.2, 1.6, 2, 1.4, 1],
  center: 1.93, upper: 3.793866948041088, lower: 0.06613305195891184,
  sigmaZ: 1.0664291101753263, widened: 3.917681970884659,
};

/** To 1e-9. */
export const dispersion = {
  source: 'Wetherill & Brown, Statistical Process Control (1991) 212-218',
  status: 'data found; computed with R 4.2.2',
  counts: [12, 11, 18, 11, 10, 16, 9, 11, 14, 15, 11, 9, 10, 13, 12, 8, 12, 13, 10, 12, 13, 16, 12, 18, 16, 10, 16, 10, 12, 14],
  size: 50,
  varianceRatio: 0.764456631497513, statistic: 22.169242313427873, degrees: 29, p: 0.813114881075751,
};

/** Hours between failures of a valve, to 1e-9; printed first transformed time 4.80986. */
export const valve = {
  source: 'Montgomery, Introduction to Statistical Quality Control (2009), section 7.3.5, table 7.14',
  status: 'data from memory; computed with R 4.2.2',
  times: [286, 948, 536, 124, 816, 729, 4, 143, 431, 8, 2837, 596, 81, 227, 603, 492, 1199, 1214, 2831, 96],
  transformed: [
    4.80986456070996, 6.70902909495299, 5.72649732385673, 3.81367080342111, 6.43541201615882, 6.23705300122096,
    1.46957602979122, 3.96768163791354, 5.39006916331162, 1.78150928174738, 9.09617982695223, 5.89774357734928,
    3.38833459325257, 4.51095381403962, 5.91689847601804, 5.59189115075736, 7.1612376641165, 7.18600523591835,
    9.09083345927692, 3.55203078759317,
  ],
  center: 5.38662357491792, range: 2.35920973721573, lower: -0.887870407038801, upper: 11.66111755687464,
  meanTime: 710.05, probability: [0.959215115982476, 492.16915555658915, 4691.762369971903],
};

/** Units between failures, to 1e-9. */
export const gaps = {
  source: 'J. Benneyan, Health Care Management Science 4 (2001) 305-318; Provost & Murray, The Health Care Data Guide (2011) 228-229 (formulas)',
  status: 'formulas found; data invented; computed with R 4.2.2',
  between: [12, 3, 41, 0, 25, 17, 8, 33, 60, 5, 14, 22, 9, 2, 48],
  meanGap: 19.933333333333334, chance: 0.04777070063694267, upper: 81.21497821987339, median: 13.813799999999999, probability: [0, 14, 134],
};

/** To 1e-6; printed high sums 3.01, 4.94, 7.45, 10.63, 11.99, 14.445, 16.00, 19.04. */
export const weights = {
  source: 'NIST/SEMATECH e-Handbook, section 6.3.2.3',
  status: 'from memory, recomputed',
  values: [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25,
    327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ],
  settings: { target: 325, allowance: 0.3175, interval: 4.1959 },
  high: [0, 0, 0, 0, 0.0325, 0, 0, 0, 0, 0, 0, 0, 3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035],
  low: [0, 0.0075, 0, 0.3325, 0, 0, 0.5575, 0.715, 0.1725, 0.255, 0.3125, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  deviations: [
    -0.075, -0.4, -0.675, -1.325, -0.975, -0.75, -1.625, -2.1, -1.875, -2.275, -2.65, -2.5, 0.825, 3.075, 5.9, 9.4, 11.075,
    13.85, 15.725, 19.075,
  ],
  signals: [14, 15, 16, 17, 18, 19, 20],
};

/** Callbacks after single jobs, to 1e-9: the jobs that brought one, counted from 1, of 52. */
export const jobs = {
  source: 'Steiner, Cook, Farewell & Treasure, Biostatistics 1 (2000) 441-452 (formula)',
  status: 'formula from memory; data invented; computed with Python 3.11',
  count: 52, bad: [31, 41, 47, 49, 52], chance: 0.02, oddsRatio: 2, limit: 2,
  ifBad: 0.6733445532637655, ifGood: -0.019802627296179754,
  sums: [
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.6733445532637655,
    0.6535419259675858, 0.633739298671406, 0.6139366713752262, 0.5941340440790465, 0.5743314167828667, 0.5545287894866869,
    0.5347261621905072, 0.5149235348943274, 0.49512090759814764, 1.1684654608619132, 1.1486628335657334, 1.1288602062695536,
    1.1090575789733739, 1.089254951677194, 1.0694523243810143, 1.7427968776447798, 1.7229942503486, 2.3963388036123656,
    2.376536176316186, 2.356733549020006, 3.0300781022837717,
  ],
  firstSignal: 49,
};

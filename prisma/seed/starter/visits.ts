// Kinds of visit and how many people each takes: never one alone where there may be crawl space, roof or attic.
export const VISIT_KINDS = [
  { key: 'inspection', name: 'Inspection', crewSize: 2, minutes: 150, reportMinutes: 0, onSiteHazard: true },
  { key: 'reinspection', name: 'Re-inspection', crewSize: 2, minutes: 60, reportMinutes: 30, onSiteHazard: true },
  { key: 'callback_visit', name: 'Callback visit', crewSize: 2, minutes: 60, reportMinutes: 0, onSiteHazard: true },
  { key: 'radon_pickup', name: 'Radon pick-up', crewSize: 1, minutes: 15, reportMinutes: 0, onSiteHazard: false, afterHours: 48 },
  { key: 'sample_drop', name: 'Sample to the laboratory', crewSize: 1, minutes: 30, reportMinutes: 0, onSiteHazard: false },
  { key: 'roof_relook', name: 'Roof re-look', crewSize: 2, minutes: 30, reportMinutes: 0, onSiteHazard: true },
  { key: 'exterior_relook', name: 'Exterior re-look', crewSize: 1, minutes: 30, reportMinutes: 0, onSiteHazard: false },
] as const;

/**
 * carriedByAll: in every inspector's bag; the others are pooled, and a pair keeps a piece for the whole day. worn: each has a
 * piece in his size. minFeet: those of a kind that are long enough (`ladderFeetFor` tells how long).
 */
export const KIT_KINDS = [
  { key: 'flashlight', name: 'Flashlight', calibrated: false, carriedByAll: true },
  { key: 'camera', name: 'Camera', calibrated: false, carriedByAll: true },
  { key: 'receptacle_tester', name: 'Receptacle tester', calibrated: false, carriedByAll: true },
  { key: 'voltage_tester', name: 'Voltage tester', calibrated: false, carriedByAll: true },
  { key: 'thermometer', name: 'Thermometer', calibrated: false, carriedByAll: true },
  { key: 'level', name: 'Level', calibrated: false, carriedByAll: true },
  { key: 'coveralls_respirator', name: 'Coveralls and respirator', calibrated: false, carriedByAll: true },
  { key: 'water_pressure_gauge', name: 'Water pressure gauge', calibrated: false, carriedByAll: true },
  { key: 'moisture_meter', name: 'Moisture meter', calibrated: true, carriedByAll: false },
  { key: 'gas_detector', name: 'Gas detector', calibrated: true, carriedByAll: false },
  { key: 'carbon_monoxide_meter', name: 'Carbon monoxide meter', calibrated: true, carriedByAll: false },
  { key: 'ladder', name: 'Extension ladder', calibrated: false, carriedByAll: false },
  {
    key: 'ladder_28',
    name: 'Extension ladder of 28 ft and more, for two stories',
    calibrated: false,
    carriedByAll: false,
    ofKind: 'ladder',
    minFeet: 28,
  },
  {
    key: 'ladder_40',
    name: 'Extension ladder of 40 ft and more, for three stories',
    calibrated: false,
    carriedByAll: false,
    ofKind: 'ladder',
    minFeet: 40,
  },
  { key: 'respirator', name: 'Respirator', calibrated: false, carriedByAll: false, worn: true },
  { key: 'crawl_suit', name: 'Crawl suit', calibrated: false, carriedByAll: false, worn: true },
  { key: 'infrared_camera', name: 'Infrared camera', calibrated: true, carriedByAll: false },
  { key: 'radon_monitor', name: 'Radon monitor', calibrated: true, carriedByAll: false },
  { key: 'vehicle', name: 'Vehicle', calibrated: false, carriedByAll: false },
] as const;

/** Checks with a date, and how often each is due: common practice, to be set to the instrument's manual. */
export const KIT_CHECKS = [
  { kind: 'ladder', checkKind: 'ladder', everyDays: 90 },
  { kind: 'gas_detector', checkKind: 'bump_test', everyDays: 30 },
  { kind: 'gas_detector', checkKind: 'battery', everyDays: 90 },
  { kind: 'carbon_monoxide_meter', checkKind: 'bump_test', everyDays: 30 },
  { kind: 'carbon_monoxide_meter', checkKind: 'battery', everyDays: 90 },
  { kind: 'moisture_meter', checkKind: 'battery', everyDays: 90 },
] as const;

export const QUALIFICATIONS = [
  { key: 'wood_insects', name: 'Wood-destroying insects, licensed applicator' },
  { key: 'radon', name: 'Radon measurement, certified' },
  { key: 'infrared', name: 'Infrared thermography, level 1' },
  { key: 'roof_access', name: 'Roof access, trained' },
] as const;

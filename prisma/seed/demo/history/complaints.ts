// What came back in the firm's first years, in the words of those who called: invented, most of it settled at no cost.
import type { Cause, Kind, RemedyKind, Speaker } from '@backsight/domain/callbacks/words';

export type Complaint = {
  system: string;
  place: string;
  words: string;
  sought: string;
  cause: Cause;
  /** The step that it is traced to; without one the conclusion names none. */ step?: string;
  conclusion: string;
  remedy: RemedyKind;
  /** Dollars from and to, in tens; what pays nothing has none. */ cost?: readonly [number, number];
  /** Days from the visit until somebody called. */ lag: readonly [number, number];
  /** How often it comes, beside the others. */ weight: number;
  /** Who says it, and what it is; the client, and something missed, when absent. */ speaker?: Speaker;
  kind?: Kind;
  /** What was set aside before anybody had looked, in dollars. */ firstGuess?: number;
  /** Dollars that the insurer paid back, of what it consented to. */ recovered?: number;
};

export const COMPLAINTS: readonly Complaint[] = [
  {
    ...{ system: 'structure', place: 'Basement, north wall', sought: 'Somebody to come and see it', weight: 7, lag: [20, 400] },
    words: 'After the heavy rain there is water along the basement wall. The report says nothing of it.',
    ...{ cause: 'arose_later', remedy: 'declined' },
    conclusion: 'Dry on the day, as both recorded; no stain in the photos. The rain was the heaviest of the year.',
  },
  {
    ...{ system: 'structure', place: 'Basement, behind the shelves', sought: 'The wall sealed', weight: 11, lag: [15, 240] },
    words: 'We moved the shelves and the wall behind them is white and crumbling. You should have seen that it takes in water.',
    ...{ cause: 'unclear', step: 'water-entry-lowest-level', remedy: 'goodwill_payment', cost: [150, 600] },
    conclusion:
      'The step asks for signs of water and does not say what to do where belongings hide the wall; nothing was noted of the shelves.',
  },
  {
    ...{ system: 'roof', place: 'Roof, above the kitchen', sought: 'The repair paid', weight: 5, lag: [30, 500] },
    words: 'A roofer says that the shingles on the back side have been worn for years. You told us that the roof had years left.',
    ...{ cause: 'was_reported', remedy: 'declined' },
    conclusion: 'The worn slope stands in the report with a photo; no number of years was given.',
  },
  {
    ...{ system: 'roof', place: 'Roof, at the chimney', sought: 'Part of the fee back', weight: 3, lag: [40, 450] },
    words: 'Water comes in at the chimney. The roofer found the metal around it loose.',
    ...{ cause: 'skipped', step: 'chimney-outside', remedy: 'fee_refund', cost: [100, 250] },
    conclusion: 'The chimney was looked at from the ground only; the record gives no reason why not from the roof.',
  },
  {
    ...{ system: 'electrical', place: 'Panel in the basement', sought: 'The electrician paid', weight: 3, lag: [10, 200] },
    words: 'The electrician found two wires under one screw in the panel that your people had open.',
    ...{ cause: 'done_wrongly', step: 'panel-interior', remedy: 'goodwill_payment', cost: [120, 350] },
    conclusion: 'Seen on the photo of the report, not noted at the step.',
  },
  {
    ...{ system: 'electrical', place: 'Bath upstairs', sought: 'An explanation', weight: 5, lag: [3, 60] },
    words: 'The outlet in the upstairs bath has had no power since the inspection.',
    ...{ cause: 'not_in_procedure', step: 'ground-fault-trip-reset', remedy: 'goodwill_payment', cost: [80, 200] },
    conclusion: 'The device was reset; nobody looked again at what it feeds.',
  },
  {
    ...{ system: 'heating', place: 'Furnace', sought: 'A new igniter', weight: 6, lag: [25, 380] },
    words: 'The furnace does not start. It is not even a year since you inspected it.',
    ...{ cause: 'arose_later', remedy: 'declined' },
    conclusion: 'It started and ran on the day. Igniters wear out without a sign (common practice).',
  },
  {
    ...{ system: 'heating', place: 'Furnace room', sought: 'The flue put right', weight: 2, lag: [30, 300] },
    words: 'The heating man says that the vent pipe slopes the wrong way and always has.',
    ...{ cause: 'done_wrongly', step: 'heating-vents-and-flues', remedy: 'independent_contractor', cost: [250, 900] },
    conclusion: 'The reading was taken, the run of the pipe not followed.',
  },
  {
    ...{ system: 'plumbing', place: 'Kitchen', sought: 'Somebody to look', weight: 4, lag: [5, 250] },
    words: 'The kitchen drain backs up every week.',
    ...{ cause: 'arose_later', remedy: 'declined' },
    conclusion: 'It drained on the day. The plumber found a rag in the line, from after the closing.',
  },
  {
    ...{ system: 'attic', place: 'Attic', sought: 'The insulation made up', weight: 3, lag: [60, 600] },
    words: 'The energy advisor says that half of the attic has hardly any insulation.',
    ...{ cause: 'done_wrongly', step: 'attic-insulation', remedy: 'fee_refund', cost: [120, 300] },
    conclusion: 'One depth was read at the hatch and stands for the whole attic.',
  },
  {
    ...{ system: 'interior', place: 'Ceiling of the bedroom', sought: 'The ceiling painted', weight: 4, lag: [10, 350] },
    words: 'There is a brown ring on the bedroom ceiling that your report does not show.',
    ...{ cause: 'nothing_shown', remedy: 'declined' },
    conclusion: 'Not on any photo of the day; the roof above was dry, and the client found an overflowed tub.',
  },
  {
    ...{ system: 'exterior', place: 'Behind the garage', sought: 'The drain dug', weight: 3, lag: [30, 400] },
    words: 'Water stands at the back wall whenever it rains.',
    ...{ cause: 'not_accessible', remedy: 'declined' },
    conclusion: 'Under snow on the day, as the report says on its first page.',
  },
  {
    ...{ system: 'structure', place: 'Garage floor', sought: 'Nothing but to be heard', weight: 2, lag: [5, 120] },
    words: 'The garage floor has a crack from side to side. Nobody mentioned it.',
    ...{ cause: 'out_of_scope', remedy: 'declined' },
    conclusion: 'A shrinkage crack of a slab that carries nothing; told to the client on the phone.',
  },
  {
    ...{ system: 'interior', place: '', sought: '', weight: 6, lag: [1, 40], kind: 'question' },
    words: 'What is meant by "have it looked at before the next heating season"? How soon is that?',
    ...{ cause: 'was_reported', remedy: 'declined' },
    conclusion: 'Explained by phone: before the first cold night, by somebody who does such work.',
  },
  {
    ...{ system: 'plumbing', place: '', sought: '', weight: 4, lag: [2, 90], kind: 'question', speaker: 'agent' },
    words: 'The seller asks whether the water heater has to be replaced because of its age.',
    ...{ cause: 'was_reported', remedy: 'declined' },
    conclusion: 'Nothing has to be; the report gives its age and what is usual. Told with the consent of the client.',
  },
  {
    ...{ system: 'electrical', place: 'Panel', sought: '', weight: 5, lag: [1, 3], kind: 'near_miss', speaker: 'pair' },
    words: 'The cover slipped on its last screw. It touched nothing; the partner caught it.',
    ...{ cause: 'done_wrongly', step: 'panel-interior' },
    ...{ remedy: 'declined', conclusion: 'Held by one hand only; both hands and the partner beside it from now on.' },
  },
  {
    ...{ system: 'arrival', place: '', sought: 'An apology', weight: 3, lag: [1, 20], kind: 'conduct' },
    words: 'They were half an hour late and did not call. The seller was waiting in the car.',
    ...{ cause: 'service_or_conduct', remedy: 'fee_refund', cost: [50, 100] },
    conclusion: 'The visit before ran over. A call from the car would have done.',
  },
  {
    ...{
      system: 'interior',
      place: 'Hall',
      sought: 'The lamp replaced',
      weight: 3,
      lag: [1, 10],
      kind: 'damage_or_injury',
      speaker: 'seller',
    },
    words: 'The lamp in the hall is broken. It stood there before your ladder came in.',
    ...{ cause: 'damaged_on_visit', remedy: 'goodwill_payment', cost: [60, 180] },
    conclusion: 'Knocked over with the ladder, as both said the same day.',
  },
];

/** Those that are placed by hand: late in the two years in which a claim can be brought, a large one, sums that turned out otherwise. */
export const RARE: readonly Complaint[] = [
  {
    ...{ system: 'attic', place: 'Attic, north side', sought: 'The insulation made up', weight: 0, lag: [640, 690] },
    words: 'We had the attic insulated, and under the batts the boards are black along the whole north side.',
    ...{ cause: 'nothing_shown', remedy: 'declined', firstGuess: 2_400 },
    conclusion:
      'The boards were dry and bright in the photos of the day, nearly two years ago; a bath fan was vented into the attic since.',
  },
  {
    ...{ system: 'structure', place: 'Basement, west wall', sought: 'The wall braced', weight: 0, lag: [560, 610] },
    words: 'The engineer says that the west wall leans in by two inches and did when we bought the house.',
    ...{ cause: 'done_wrongly', step: 'foundation-walls', remedy: 'independent_contractor', cost: [6800, 6800] },
    ...{ firstGuess: 3_500, recovered: 4_300 },
    conclusion: 'The lean can be seen on a photo of the visit behind the workbench; no plumb reading was taken.',
  },
  {
    ...{ system: 'roof', place: 'Roof, valley', sought: 'A new valley', weight: 0, lag: [430, 520] },
    words: 'The valley over the porch leaks since the winter, and the roofer says that its metal was rusted through long ago.',
    ...{ cause: 'done_wrongly', step: 'chimney-outside', remedy: 'goodwill_payment', cost: [900, 1400], firstGuess: 4_000 },
    conclusion: 'Seen from the ladder on one side only; the other side stands in no photo.',
  },
  {
    ...{ system: 'heating', place: 'Furnace', sought: 'A new furnace', weight: 0, lag: [300, 420] },
    words: 'The gas company shut the furnace down: the heat exchanger is cracked, and they say that one can see it.',
    ...{ cause: 'out_of_scope', remedy: 'goodwill_payment', cost: [300, 600], firstGuess: 1_000 },
    conclusion: 'The inside of a heat exchanger is beyond a visual inspection, as the agreement says. Paid for the cold weekend.',
  },
];

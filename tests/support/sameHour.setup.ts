import { moveToMorning } from './sameHour.ts';

moveToMorning();

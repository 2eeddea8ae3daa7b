// The words of the mail that asks to close a house before a radon monitor is placed.

export type ClosedHouse = {
  name: string;
  address: string;
  /** Hours that the house is closed before, and hours that the test runs at least. */
  hours: number;
  shortestHours: number;
  /** 'Thursday, May 14, at 9:00 PM'; both. */
  closeFrom: string;
  placedAt: string;
  firm: string;
  firmPhone: string;
};

/**
 * 48 hours at least: Wisconsin Department of Health Services. Twelve hours closed before, going in and out as usual, heating and
 * cooling as usual, and no fans or fireplaces that draw air from outside: common practice, from memory.
 */
export const closedHouseMail = (m: ClosedHouse): string =>
  [
    `Dear ${m.name},`,
    `a radon monitor is placed at ${m.address} on ${m.placedAt}. It measures what the air in a closed house holds, so please keep the house closed from ${m.closeFrom} on: ${m.hours} hours before, and until we collect the monitor, which is ${m.shortestHours} hours later at the soonest.`,
    'Keep windows and outer doors shut; going in and out as usual is fine. Heating and cooling run as usual, but no fan that draws air from outside, and no fireplace unless it heats the house. Please do not move the monitor or cover it.',
    'If somebody else lives there, please pass this on to them.',
    `Questions, or was the house open after all? Please call us at ${m.firmPhone}; we then place the monitor later.`,
    m.firm,
  ].join('\n\n');

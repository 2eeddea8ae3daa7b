// Events of a callback whose words and details are opinions or money.
export const CONFIDENTIAL: readonly string[] = ['concluded', 'reserve_changed', 'cleared', 'recovered', 'paid'];

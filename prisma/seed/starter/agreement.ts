// Example of a pre-inspection agreement for Wisconsin. No attorney has reviewed it; the service says so until a person records that one has.
// It has no cap on liability: a term that disclaims or limits damages for failing the standards is understood to be barred there (Wis. Stat. 440.976, from memory).
export const AGREEMENT_TEXT = {
  title: 'Pre-inspection agreement',
  consentText: `Signing and receiving papers electronically
You may have this agreement and later papers on paper instead: tell the office, without charge.
Your consent covers this agreement, the appointment and the report for this inspection only.
You may withdraw it at any time by telling the office; what was signed before stays valid.
Tell the office when your e-mail address changes.
To read and keep these papers you need a device with an internet browser, and a way to save or print pages. By opening this page you show that you can.`,
  body: `PRE-INSPECTION AGREEMENT

Between {{firm}} ("the firm") and {{client}} ("the client").

1. The inspection
Property: {{address}}
Appointment: {{appointment}}
Services: {{services}}
Inspectors: {{pair}}
The firm inspects the readily accessible, installed systems and components named in the Wisconsin standards of practice for home inspectors, Wis. Admin. Code SPS 131.31 to 131.33, by looking and by operating normal controls. The firm sends two licensed inspectors; if one is prevented, the client is told beforehand.

2. The fee
Fee: {{fee}}
{{terms}}
The fee does not depend on what is found or on whether the sale closes.

3. The report
The client receives a written report, with a summary of defects first, by {{report_due}}. A defect is a condition that would significantly impair the health or safety of occupants, or that, if not repaired, would significantly shorten the normal life of the component. The report is for the client alone; others receive it only with the client's written consent.

4. What the inspection is not
It is no guarantee, no insurance and no code inspection. What is hidden, unsafe to reach or not accessible on the day is not inspected, and the report says so and why. Snow, soil and belongings are not moved. Environmental hazards, pests, wells, septic systems, pools and lawn sprinklers are included only where named under services.

5. Access, utilities and safety
The client arranges that the property can be entered and that water, electricity and fuel are on. What is found switched off stays off and is reported.

6. If something seems to have been missed
Please tell the firm in writing within 14 days of noticing it, and let the firm look before it is repaired, unless repair is needed to prevent danger or more damage: then photograph it first. Nothing in this section shortens a time that the law gives.

7. Time to bring a claim
A claim over a home inspection is understood to be limited to 2 years from its completion (Wis. Stat. 440.977(1)); a longer period of 6 years for contracts may apply. Ask an attorney.

8. Conflicts of interest
The firm does no repair work on houses it has inspected and pays nobody for referrals.

{{notices}}`,
} as const;

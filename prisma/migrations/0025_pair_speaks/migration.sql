-- What was damaged on the visit is said by the pair itself, not by an occupant.
ALTER TABLE callback DROP CONSTRAINT callback_known;
ALTER TABLE callback ADD CONSTRAINT callback_known CHECK (
  speaker IN ('client', 'seller', 'occupant', 'tenant', 'agent', 'later_buyer', 'attorney', 'board', 'insurer', 'pair')
  AND kind IN ('missed', 'damage_or_injury', 'conduct', 'fee', 'board_complaint', 'demand_or_suit', 'records_request', 'question', 'near_miss')
  AND state IN ('received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed', 'closed'));

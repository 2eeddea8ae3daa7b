-- What is read of claim windows comes from the sums and from the inspections touched since, one by one: these two views are read by nothing.
DROP VIEW window_sum;
DROP VIEW window_change;

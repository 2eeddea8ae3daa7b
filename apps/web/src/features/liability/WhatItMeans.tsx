// What figures about people can and cannot mean; the same words for whoever reads them.
import type { ReactNode } from 'react';

export const WhatItMeans = (): ReactNode => (
  <ul>
    <li>
      A callback found is a procedure’s failure first: look at the step, its words, its minutes and its conditions before you look at a
      person.
    </li>
    <li>
      Two inspectors always work together. A callback counts for both of them, so the figures of persons overlap and cannot be added up.
    </li>
    <li>
      Expected is what the firm’s own rates make of the houses: foundation and age of the house are allowed for, nothing else (not who
      complains, the weather, or what was hidden). The rates include one’s own jobs, so differences look a little smaller than they are.
    </li>
    <li>
      Nothing is said below five expected callbacks: chance alone would do the talking. Near-misses, questions and duplicates never count.
    </li>
    <li>Inside the limits there is no difference to speak of. Of twenty, one lies outside the 95 % limits by chance.</li>
    <li>There is no ranking and no score, and nothing here may decide pay, shifts or employment by itself.</li>
  </ul>
);

// The page behind the private link of a letter: one question with five answers, and the appeal.
import { DateTime } from 'luxon';
import { ANSWERS } from '@backsight/domain/callbacks/after';
import type { AfterPage } from '@backsight/usecases/callbacks/clientAfter';
import { html, pageOf, type Html } from './html.ts';

/** What was typed when something was refused. */
export type AfterTyped = { act: string; words: string; problem: string };

const inWords = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('LLLL d, yyyy');

const problem = (typed: AfterTyped | null): Html | null =>
  typed &&
  html`<div class="note bad" role="alert" id="problem">
    <p><strong>${typed.problem}</strong></p>
  </div>`;

function question(page: AfterPage, typed: AfterTyped | null): Html | null {
  if (!page.mayAnswer && !page.answer) return null;
  const said = page.answer ? ANSWERS[page.answer.answer as keyof typeof ANSWERS] : null;
  return html`<section aria-labelledby="question" ${said ? null : html` class="screen"`}>
    <h2 id="question">How well did we handle it?</h2>
    ${
      said
        ? html`<div class="note good" role="status">
            <p><strong>You answered: ${said}.</strong> Thank you.${page.mayAnswer ? ' You may still press another answer.' : null}</p>
          </div>`
        : null
    }
    ${
      page.mayAnswer
        ? html`<form method="post" class="answers" data-keep="answer">
            <input type="hidden" name="act" value="answer" />
            <label for="said">In your words, if you like</label>
            <p class="hint" id="said-hint">You may leave this empty.</p>
            <textarea id="said" name="words" rows="2" maxlength="1000" aria-describedby="said-hint">
${typed?.act === 'answer' ? typed.words : (page.answer?.words ?? '')}</textarea>
            ${Object.entries(ANSWERS).map(
              ([value, label]) => html`<button type="submit" class="quiet" name="answer" value="${value}">${label}</button> `,
            )}
          </form>`
        : null
    }
  </section>`;
}

function appeal(page: AfterPage, typed: AfterTyped | null): Html | null {
  if (page.appeal?.result === null)
    return html`<section>
      <h2>Your appeal</h2>
      <div class="note good" role="status">
        <p><strong>An owner of our firm looks at it again.</strong> You hear from us in writing by ${inWords(page.appeal.dueOn)}.</p>
      </div>
    </section>`;
  const decided = page.appeal ? html`<p>Your appeal was decided. You have the result in writing.</p>` : null;
  if (page.appealUntil === null) return decided;
  const again = typed?.act === 'appeal' ? typed : null;
  return html`<section aria-labelledby="appeal">
    <h2 id="appeal">You do not agree with what we decided?</h2>
    <p>Until ${inWords(page.appealUntil)} you may ask an owner of our firm to look at it again. It costs nothing.</p>
    <form method="post" data-keep="appeal" novalidate>
      <input type="hidden" name="act" value="appeal" />
      <label for="again">What should we look at again, and why?</label>
      <textarea id="again" name="words" rows="5" maxlength="4000" aria-describedby="again-wrong" ${again && html` aria-invalid="true"`}>
${again?.words ?? ''}</textarea>
      <p class="wrong" id="again-wrong">${again?.problem ?? ''}</p>
      <button type="submit">Ask an owner to look again</button>
    </form>
  </section>`;
}

/** `typed` is given when something was refused. */
export const afterPage = (page: AfterPage, typed: AfterTyped | null): string =>
  pageOf(
    `${page.firm}: number ${page.number}`,
    html`<p class="firm">${page.firm}</p>
      <h1>About your report of a problem, number ${page.number}</h1>
      <p>${page.address}</p>
      ${problem(typed)} ${question(page, typed)} ${appeal(page, typed)}
      <p><a href="/complaints">How we handle a complaint</a></p>
      <p>Questions? Call ${page.firm} at <a href="tel:${page.firmPhone}">${page.firmPhone}</a>.</p>`,
    ['/client-page/keep.js'],
  );

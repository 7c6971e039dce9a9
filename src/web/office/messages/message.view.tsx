import type { Actor } from '../../../accounts/index.js';
import { formToken, page } from '../../shell/layout.js';
import type { MessageModel } from './message.view-model.js';

export function messagePage(actor: Actor, mail: MessageModel, did: string | null): string {
  return page({
    title: mail.subject,
    actor,
    current: '/messages',
    undo: did === null ? null : { text: did },
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/messages">Messages</a>
            </p>
            <h1 safe>{mail.subject}</h1>
            <p class="lead" safe>
              {`${capital(mail.kind)}, ${mail.state}.`}
            </p>
          </div>
          <div class="acts">
            {mail.mayResend ? (
              <a class="btn" href={`/messages/${mail.id}/resend`}>
                Send this mail again
              </a>
            ) : (
              ''
            )}
          </div>
        </div>
        <section class="mail-read">
          <div>
            <h2>As the homeowner sees it</h2>
            <p class="fine">
              {mail.linksWork
                ? 'This mail lies here and reached nobody, so its links work: they open in a page of their own.'
                : 'The links belong to the homeowner and are not shown.'}
            </p>
            {mail.hasHtml ? (
              <iframe
                class="mail-frame"
                title="The mail as its homeowner sees it"
                src={`/messages/${mail.id}/html`}
                sandbox={mail.linksWork ? 'allow-popups allow-popups-to-escape-sandbox' : ''}
              ></iframe>
            ) : (
              <p class="empty">
                <b>There is nothing to show.</b>
                <span>This mail could not be written. It is tried again with the next round of reminders.</span>
              </p>
            )}
          </div>
          <div>
            <h2>What is known of it</h2>
            <dl class="facts stacked">
              {mail.facts.map(({ name, value }) => (
                <>
                  <dt safe>{name}</dt>
                  <dd safe>{value}</dd>
                </>
              ))}
            </dl>
          </div>
        </section>
        <section>
          <h2>In plain text</h2>
          <pre class="mail-text" tabindex="0" safe>
            {mail.plainText}
          </pre>
        </section>
      </>
    ),
  });
}

/** Sending again is asked for once more, because it cannot be taken back. */
export function resendPage(actor: Actor, mail: MessageModel): string {
  return page({
    title: 'Send this mail again',
    actor,
    current: '/messages',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href={`/messages/${mail.id}`}>Back to the mail</a>
            </p>
            <h1>Send this mail again?</h1>
            <p class="lead" safe>
              {`"${mail.subject}", to ${mail.toName}.`}
            </p>
          </div>
        </div>
        <p class="note act">
          If it did arrive, the homeowner may get it twice. It keeps its Message-ID, so many mail programs show it once.
        </p>
        <form class="gap" method="post" action={`/messages/${mail.id}/resend`}>
          {formToken(actor)}
          <button type="submit" class="btn first">
            Send it again
          </button>
        </form>
      </>
    ),
  });
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

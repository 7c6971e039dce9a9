/**
 * Headers by which a mail program offers to stop this mail with one press (RFC 2369, RFC 8058). RFC 8058 wants https;
 * on a machine of one's own without it the page behind the link does the same.
 */
export function listHeaders(stopUrl: string | null, replyTo: string): Record<string, string> {
  if (stopUrl === null) return {};
  const byMail = replyTo === '' ? '' : `, <mailto:${replyTo}?subject=stop>`;
  return {
    'List-Unsubscribe': `<${stopUrl}>${byMail}`,
    'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
  };
}

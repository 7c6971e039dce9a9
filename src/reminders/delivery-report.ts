import { type AddressObject, simpleParser } from 'mailparser';

/** What a mail server reports about one mail (RFC 3464). */
export interface DeliveryReport {
  /** Every address the report was sent to: one of them may be a return address of ours. */
  readonly sentTo: readonly string[];
  readonly action: 'failed' | 'delayed' | 'delivered' | 'relayed' | 'expanded';
  /** Enhanced status code (RFC 3463), e.g. "5.1.1". */
  readonly status: string;
  /** The server's words. */
  readonly diagnostic: string;
}

const LONGEST_DIAGNOSTIC = 300;
const ADDRESSED_IN = ['to', 'delivered-to', 'x-original-to', 'envelope-to', 'x-envelope-to'];
const ACTIONS = ['failed', 'delayed', 'delivered', 'relayed', 'expanded'] as const;

/**
 * Reads a delivery report, or null when the mail is none: an answer of a person or of a machine that is away. Only
 * multipart/report with report-type delivery-status counts; an empty or unreadable status counts as none.
 */
export async function readDeliveryReport(raw: Buffer): Promise<DeliveryReport | null> {
  const mail = await simpleParser(raw, { skipHtmlToText: true, skipImageLinks: true });
  const type = mail.headers.get('content-type') as { value?: string; params?: Record<string, string> } | undefined;
  if (type?.value !== 'multipart/report' || type.params?.['report-type'] !== 'delivery-status') return null;

  const text = mail.text ?? '';
  const action = ACTIONS.find((one) => one === field(text, 'Action')?.toLowerCase());
  const status = /^[245]\.\d{1,3}\.\d{1,3}/.exec(field(text, 'Status') ?? '')?.[0];
  if (!action || !status) return null;
  const diagnostic = (field(text, 'Diagnostic-Code') ?? '').replace(/^smtp;\s*/i, '');
  return { sentTo: addresses(mail.headers), action, status, diagnostic: diagnostic.slice(0, LONGEST_DIAGNOSTIC) };
}

/** A field of the machine-readable part, with its continuation lines. */
function field(text: string, name: string): string | null {
  const found = new RegExp(`^${name}:[ \\t]*(.*(?:\\r?\\n[ \\t]+.*)*)`, 'im').exec(text)?.[1];
  return found ? found.replace(/\s+/g, ' ').trim() : null;
}

function addresses(headers: ReadonlyMap<string, unknown>): string[] {
  return ADDRESSED_IN.flatMap((name) => {
    const value = headers.get(name);
    const all = Array.isArray(value) ? value : [value];
    return all.flatMap((one) => {
      if (typeof one === 'string') return [one];
      return ((one as AddressObject | undefined)?.value ?? []).flatMap(({ address }) => address ?? []);
    });
  });
}

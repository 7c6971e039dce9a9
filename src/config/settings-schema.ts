import { isIP } from 'node:net';
import { z } from 'zod';

const ADDRESS = /^[^\s@<>,;:"()]{1,64}@[A-Za-z0-9](?:[A-Za-z0-9-]*\.)*[A-Za-z0-9-]*[A-Za-z0-9]$/;
const HOST_NAME =
  /^(?=.{1,253}$)[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?(?:\.[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?)*$/;

const port = z.int().min(1).max(65535);
const hostName = z.string().refine((text) => HOST_NAME.test(text) || isIP(text) !== 0);
const credential = z.string().min(1).nullable();
const SMTP_SCHEMES: Readonly<Record<string, { secure: boolean; port: number }>> = {
  'smtp:': { secure: false, port: 587 },
  'smtps:': { secure: true, port: 465 },
};

const SmtpParts = z
  .strictObject({
    host: hostName,
    port: port.default(587),
    secure: z.boolean().optional(),
    user: credential.default(null),
    password: credential.default(null),
  })
  .refine((parts) => (parts.user === null) === (parts.password === null))
  .transform((parts) => ({ ...parts, secure: parts.secure ?? parts.port === 465 }));

const SmtpUrl = z.string().transform((text, context) => {
  const parts = smtpFromUrl(text);
  if (!parts) context.issues.push({ code: 'custom', message: 'not an SMTP address', input: text });
  return parts!;
});

/** The one schema of all settings; `SETTING_NAMES` says the same in words. */
export const SettingsSchema = z.strictObject({
  host: z.string().refine((text) => text === 'localhost' || isIP(text) !== 0),
  port,
  publicUrl: z.string().refine(isOrigin).nullable(),
  dataDirectory: z.string().min(1),
  databaseUrl: z.string().refine(isPostgresUrl).nullable(),
  smtp: z.union([SmtpUrl, SmtpParts]).nullable(),
  mailFrom: z.strictObject({
    name: z
      .string()
      .min(1)
      .max(100)
      .refine((text) => !/[\r\n\0]/.test(text)),
    address: z.string().max(254).regex(ADDRESS),
  }),
  dkim: z
    .strictObject({
      domain: hostName,
      selector: z.string().regex(/^[A-Za-z0-9](?:[A-Za-z0-9.-]{0,61}[A-Za-z0-9])?$/),
      keyFile: z.string().min(1),
    })
    .nullable(),
  bounces: z
    .strictObject({
      address: z.string().max(200).regex(ADDRESS),
      secret: z.string().min(16).max(200),
    })
    .nullable(),
  mailPace: z.strictObject({
    perCompanyPerSecond: z.number().min(0.1).max(1000).nullable(),
    perHostPerMinute: z.number().min(1).max(60_000).nullable(),
  }),
  weather: z
    .strictObject({
      address: z.string().refine(isHttpAddress),
      format: z.enum(['days', 'arrays']).default('days'),
    })
    .nullable(),
  sessions: z.strictObject({
    officeHours: z.number().min(1).max(24),
    officeIdleMinutes: z.number().min(5).max(1440),
    technicianDays: z.number().min(1).max(90),
  }),
  logLevel: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']),
  jobs: z.boolean(),
});
export type RawSettings = z.output<typeof SettingsSchema>;

function smtpFromUrl(text: string): z.output<typeof SmtpParts> | null {
  if (!URL.canParse(text)) return null;
  const url = new URL(text);
  const scheme = SMTP_SCHEMES[url.protocol];
  if (!scheme || !/^\/?$/.test(url.pathname) || url.search || url.hash) return null;
  try {
    const parts = SmtpParts.safeParse({
      host: url.hostname.replace(/^\[|\]$/g, ''),
      port: url.port === '' ? scheme.port : Number(url.port),
      secure: scheme.secure,
      user: decodeURIComponent(url.username) || null,
      password: decodeURIComponent(url.password) || null,
    });
    return parts.success ? parts.data : null;
  } catch {
    return null; // a stray per cent sign in the name or the password
  }
}

function isOrigin(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const url = new URL(text);
  const isBare = url.pathname === '/' && !url.search && !url.hash && !url.username && !url.password;
  return (url.protocol === 'http:' || url.protocol === 'https:') && isBare;
}

/** Whole, without a query, a fragment or credentials. */
function isHttpAddress(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const url = new URL(text);
  return /^https?:$/.test(url.protocol) && !url.search && !url.hash && !url.username && !url.password;
}

function isPostgresUrl(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const url = new URL(text);
  return /^postgres(ql)?:$/.test(url.protocol) && url.hostname !== '' && url.pathname.length > 1;
}

/** Injection token of `Settings`. */
export const SETTINGS = Symbol('settings');

export type LogLevel = 'fatal' | 'error' | 'warn' | 'info' | 'debug' | 'silent';

/** A mail server. */
export interface SmtpSettings {
  readonly host: string;
  readonly port: number;
  /** TLS from the first byte (usually port 465); otherwise STARTTLS. */
  readonly secure: boolean;
  readonly user: string | null;
  readonly password: string | null;
}

/** Key that signs every mail (RFC 6376): the domain that vouches for it and where its public half stands. */
export interface DkimSettings {
  readonly domain: string;
  readonly selector: string;
  /** RSA private key, PEM. */
  readonly privateKey: string;
}

/** Where mail that cannot be delivered comes back to, and the secret that tells a real report from a made-up one. */
export interface BounceSettings {
  readonly address: string;
  readonly secret: string;
}

/** How fast mail may leave; null: as fast as it goes. */
export interface MailPaceSettings {
  /** Mails of one company. [1/s] */
  readonly perCompanyPerSecond: number | null;
  /** Mails to addresses at one host. [1/min] */
  readonly perHostPerMinute: number | null;
}

/** A weather forecast by HTTP. */
export interface WeatherSettings {
  /** Without a query; the place is added. Nothing else is ever asked, and no redirect is followed. */
  readonly address: string;
  readonly format: 'days' | 'arrays';
}

/** All settings, checked. Paths are absolute. */
export interface Settings {
  readonly host: string;
  readonly port: number;
  /** Origin without a slash at the end. */
  readonly publicUrl: string;
  readonly dataDirectory: string;
  readonly database:
    | { readonly kind: 'sqlite'; readonly file: string }
    | { readonly kind: 'postgres'; readonly url: string };
  /** Null: no mail leaves. */
  readonly smtp: SmtpSettings | null;
  readonly mailFrom: { readonly name: string; readonly address: string };
  /** Null: mails are not signed here; a relay may do it. */
  readonly dkim: DkimSettings | null;
  /** Null: reports of undelivered mail are not read here. */
  readonly bounces: BounceSettings | null;
  readonly mailPace: MailPaceSettings;
  /** Null: the days ahead are the normal ones of the climate. */
  readonly weather: WeatherSettings | null;
  readonly sessions: {
    readonly officeHours: number;
    readonly officeIdleMinutes: number;
    readonly technicianDays: number;
  };
  readonly logLevel: LogLevel;
  /** Whether this process fires recurring jobs. */
  readonly jobs: boolean;
  readonly configDirectory: string;
}

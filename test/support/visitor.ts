/** An answer with its text read. */
export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
  /** Where a redirect leads, without the origin. */
  readonly location: string;
}

/** A browser without a window: keeps the session cookie, follows no redirect, sends forms as a page of ours does. */
export class Visitor {
  private token: string | null;

  constructor(
    readonly url: string,
    session: string | null = null,
  ) {
    this.token = session;
  }

  get session(): string | null {
    return this.token;
  }

  get(path: string): Promise<Answer> {
    return this.send(path, { headers: { accept: 'text/html' } });
  }

  /** Posts a form with the session's form token, as read from a page. */
  async post(path: string, fields: Readonly<Record<string, string>> = {}): Promise<Answer> {
    const _token = this.token ? await this.formToken() : '';
    return this.send(path, {
      method: 'POST',
      headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded', origin: this.url },
      body: new URLSearchParams({ _token, ...fields }).toString(),
    });
  }

  /** Posts a form that carries one file. */
  async upload(
    path: string,
    file: { name: string; text: string },
    fields: Record<string, string> = {},
  ): Promise<Answer> {
    const body = new FormData();
    for (const [name, value] of Object.entries({ _token: await this.formToken(), ...fields })) body.set(name, value);
    body.set('file', new Blob([file.text], { type: 'text/csv' }), file.name);
    return this.send(path, { method: 'POST', headers: { accept: 'text/html', origin: this.url }, body });
  }

  /** Sends JSON with the form token in its header, and reads JSON. */
  async json(method: string, path: string, body?: unknown): Promise<{ status: number; headers: Headers; body: never }> {
    const answer = await this.send(path, {
      method,
      headers: {
        accept: 'application/json',
        'content-type': 'application/json',
        ...(this.token && { 'x-form-token': await this.formToken() }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    return {
      status: answer.status,
      headers: answer.headers,
      body: (answer.text ? JSON.parse(answer.text) : null) as never,
    };
  }

  private async formToken(): Promise<string> {
    const { text } = await this.get('/settings');
    return /name="_token" value="([^"]+)"/.exec(text)?.[1] ?? '';
  }

  private async send(path: string, init: RequestInit): Promise<Answer> {
    const headers = {
      ...(init.headers as Record<string, string>),
      ...(this.token && { cookie: `tarnkeep_session=${this.token}` }),
    };
    const response = await fetch(this.url + path, { ...init, headers, redirect: 'manual' });
    const cookie = /tarnkeep_session=([^;]*)/.exec(response.headers.get('set-cookie') ?? '');
    if (cookie) this.token = cookie[1] || null;
    return {
      status: response.status,
      headers: response.headers,
      text: await response.text(),
      location: response.headers.get('location') ?? '',
    };
  }
}

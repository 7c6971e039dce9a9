import { rm } from 'node:fs/promises';
import { createServer, type Server } from 'node:net';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { CompaniesService, FirstAccountService } from '../src/accounts/index.js';
import { SettingsError } from '../src/config/index.js';
import { type RunningServer, serve } from '../src/serve.js';
import { temporaryDirectory } from './support/temporary-database.js';

describe('serve', () => {
  let directory: string;
  let port: number;
  let lines: string[];
  let open: { close(): unknown }[];

  beforeEach(async () => {
    directory = await temporaryDirectory();
    lines = [];
    open = [];
    const { server, port: free } = await listening();
    port = free;
    await new Promise((done) => server.close(done));
  });
  afterEach(async () => {
    for (const one of open) await one.close();
    await rm(directory, { recursive: true, force: true });
  });

  const start = async (environment: Record<string, string> = {}): Promise<RunningServer> => {
    const server = await serve({
      sources: {
        environment: { TARNKEEP_LOG_LEVEL: 'error', ...environment },
        configDirectory: path.resolve('config'),
        flags: { port: String(port), dataDirectory: directory },
      },
      isEmpty: true,
      print: (line) => lines.push(line),
    });
    open.push(server);
    return server;
  };

  it('says where it is ready, and asks an empty installation for its first account', async () => {
    const server = await start();
    expect(lines[0]).toMatch(new RegExp(`^Tarnkeep is ready on http://127\\.0\\.0\\.1:${port} after \\d+\\.\\d s`));
    expect(lines[1]).toMatch(/installation is empty/);
    const answer = await fetch(server.settings.publicUrl);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'self'");
    expect(answer.headers.get('x-powered-by')).toBeNull();
  });

  it('listens on this machine only', async () => {
    const server = await start();
    expect(server.app.getHttpServer().address()).toMatchObject({ address: '127.0.0.1', port });
  });

  it('names a port that is in use, before it makes anything', async () => {
    const { server, port: taken } = await listening();
    open.push(server);
    port = taken;
    await expect(start()).rejects.toThrow(
      `port: ${taken} on 127.0.0.1 is in use by another program. Stop it, or choose another port, e.g. TARNKEEP_PORT=${taken + 1}.`,
    );
    await expect(start()).rejects.toThrow(SettingsError);
  });

  it('names an address this machine does not have', async () => {
    await expect(start({ TARNKEEP_HOST: '192.0.2.1' })).rejects.toThrow(
      /^host: 192\.0\.2\.1 is not an address of this machine/,
    );
  });

  it('ends within ten seconds, also while a browser keeps its connection, and finds its data again', async () => {
    const first = await start();
    const account = {
      companyName: 'Mill Pond Services',
      postalAddress: '1 Weir Road',
      timeZone: 'Europe/London',
      units: 'metric',
      name: 'Robin Hale',
      email: 'robin@example.com',
      password: 'four koi under a lily',
    } as const;
    await first.app.get(FirstAccountService, { strict: false }).create(account);
    await fetch(first.settings.publicUrl);
    const startedMs = performance.now();
    await first.close();
    open.pop();
    expect(performance.now() - startedMs).toBeLessThan(9_500);
    await expect(fetch(first.settings.publicUrl)).rejects.toThrow();

    lines = [];
    const second = await start();
    expect(lines).toHaveLength(1);
    const companies = await second.app.get(CompaniesService, { strict: false }).all();
    expect(companies.map((company) => company.name)).toEqual(['Mill Pond Services']);
  });
});

async function listening(): Promise<{ server: Server; port: number }> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return { server, port: (server.address() as { port: number }).port };
}

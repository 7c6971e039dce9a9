import { describe, expect, it } from '@jest/globals';
import { newToken } from '../../src/platform/ids.js';
import { AppLogger, type LoggerLevel, masked, withRequestId } from '../../src/platform/logger.js';

function logger(level: LoggerLevel = 'debug') {
  const lines: string[] = [];
  const log = new AppLogger(level, { write: (line: string) => lines.push(line) });
  return { log, lines, last: () => JSON.parse(lines.at(-1)!) as Record<string, unknown> };
}

describe('AppLogger', () => {
  it('writes one JSON line with level, time, context and message', () => {
    const { log, lines, last } = logger();
    log.warn('the mail server is slow', 'mail');
    expect(lines).toHaveLength(1);
    expect(last()).toMatchObject({ level: 40, context: 'mail', msg: 'the mail server is slow' });
    expect(last().time).toMatch(/^\d{4}-\d\d-\d\dT/);
  });

  it('carries the id of the request through everything it awaits', async () => {
    const { log, last } = logger();
    await withRequestId('r-1', async () => {
      await new Promise((go) => setTimeout(go, 1));
      log.log('inside');
    });
    expect(last()).toMatchObject({ requestId: 'r-1' });
    log.log('outside');
    expect(last().requestId).toBeUndefined();
  });

  it('shows six characters of a token and none of a name in a mail address, in messages, details and errors', () => {
    const { log, lines } = logger();
    const token = newToken();
    log.log(`GET /l/task-done/${token} by ada.berg@example.com`);
    log.error(new Error(`no answer for ada.berg@example.com`, { cause: new Error(token) }), 'mail');
    log.error({ path: `/l/${token}`, to: ['ada.berg@example.com'], error: new Error(token) });
    const all = lines.join('');
    expect(all).not.toContain(token);
    expect(all).not.toContain(token.slice(0, 7));
    expect(all).toContain(`${token.slice(0, 6)}…`);
    expect(all).not.toContain('ada.berg');
    expect(all).toContain('…@example.com');
  });

  it('leaves ids as they are', () => {
    expect(masked('pond 0193a3f0-1c2d-7e3f-8a4b-5c6d7e8f9a0b')).toBe('pond 0193a3f0-1c2d-7e3f-8a4b-5c6d7e8f9a0b');
    expect(masked('a'.repeat(64))).toBe('a'.repeat(64));
  });

  it('lets no value forge a line', () => {
    const { log, lines } = logger();
    log.log('name: x\n{"level":60,"msg":"forged"}');
    expect(lines).toHaveLength(1);
    expect(lines[0]!.trim().split('\n')).toHaveLength(1);
  });

  it('keeps what the framework says of its own wiring for those who look for a fault', () => {
    const quiet = logger('info');
    quiet.log.log('AppModule dependencies initialized', 'InstanceLoader');
    expect(quiet.lines).toEqual([]);
    const curious = logger('debug');
    curious.log.log('AppModule dependencies initialized', 'InstanceLoader');
    expect(curious.last()).toMatchObject({ level: 20 });
  });

  it('writes nothing below its level', () => {
    const { log, lines } = logger('error');
    log.warn('w');
    log.log('l');
    log.error('e');
    log.fatal('f');
    expect(lines).toHaveLength(2);
    const silent = logger('silent');
    silent.log.fatal('f');
    expect(silent.lines).toEqual([]);
  });
});

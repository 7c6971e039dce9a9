import type { AddressInfo } from 'node:net';
import { connect, createServer, type Socket } from 'node:net';

/** The air between a phone and the program: passes everything on until it is cut. Close it. */
export async function signalTo(url: string) {
  const { port, hostname } = new URL(url);
  const open = new Set<Socket>();
  let isCut = false;
  const air = createServer((phone) => {
    if (isCut) {
      phone.destroy();
      return;
    }
    const program = connect(Number(port), hostname);
    for (const [from, to] of [
      [phone, program],
      [program, phone],
    ] as const) {
      open.add(from);
      from.pipe(to);
      from.on('error', () => to.destroy());
      from.on('close', () => {
        open.delete(from);
        to.destroy();
      });
    }
  });
  await new Promise<void>((resolve) => air.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(air.address() as AddressInfo).port}`,
    /** What is under way is torn off, and nothing new gets through. */
    cut(): void {
      isCut = true;
      for (const socket of open) socket.destroy();
    },
    restore(): void {
      isCut = false;
    },
    async close(): Promise<void> {
      this.cut();
      await new Promise((resolve) => air.close(resolve));
    },
  };
}
export type Signal = Awaited<ReturnType<typeof signalTo>>;

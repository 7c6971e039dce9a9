/** A process of its own that takes mail on loopback and throws it away. It says its port, then how much it took when asked. */
import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

let taken = 0;
const server = new SMTPServer({
  disabledCommands: ['AUTH', 'STARTTLS'],
  disableReverseLookup: true,
  logger: false,
  onData(stream, _session, done) {
    stream.resume();
    stream.on('end', () => {
      taken += 1;
      done();
    });
  },
});
server.on('error', () => undefined);
server.listen(0, '127.0.0.1', () => process.send?.({ port: (server.server.address() as AddressInfo).port }));
process.on('message', () => process.send?.({ taken }));

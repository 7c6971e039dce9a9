import { createPrivateKey, type KeyObject } from 'node:crypto';
import { readFileSync } from 'node:fs';

/** RFC 8301 section 3.2: signers use at least 1024 bits, and should use 2048. */
const FEWEST_BITS = 1024;

/** Reads the key that signs mail, or answers in one sentence why it cannot be used; the key itself is never shown. */
export function readDkimKey(file: string): { readonly privateKey: string } | { readonly fault: string } {
  const advice =
    'Write the path of an RSA private key in PEM form, in config/defaults.yaml or in TARNKEEP_DKIM_KEY_FILE.';
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    return { fault: `dkim.keyFile: ${file} cannot be read (${(error as NodeJS.ErrnoException).code}). ${advice}` };
  }
  let key: KeyObject;
  try {
    key = createPrivateKey(text);
  } catch {
    return { fault: `dkim.keyFile: ${file} holds no private key. ${advice}` };
  }
  const bits = key.asymmetricKeyDetails?.modulusLength ?? 0;
  if (key.asymmetricKeyType !== 'rsa' || bits < FEWEST_BITS) {
    return { fault: `dkim.keyFile: ${file} holds a key that is not RSA of at least ${FEWEST_BITS} bits. ${advice}` };
  }
  return { privateKey: text };
}

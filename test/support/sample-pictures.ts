import { deflateSync } from 'node:zlib';
import sharp from 'sharp';

/** A photo as a phone sends it. */
export function aJpeg(
  own: { readonly width?: number; readonly height?: number; readonly red?: number } = {},
): Promise<Buffer> {
  const { width = 640, height = 480, red = 40 } = own;
  const background = { r: red, g: 110, b: 120 };
  return sharp({ create: { width, height, channels: 3, background } })
    .jpeg()
    .toBuffer();
}

/** A photo with a place, a device and a turn in its metadata, 640 wide and 480 high before it is turned. */
export function aLocatedJpeg(): Promise<Buffer> {
  return sharp({ create: { width: 640, height: 480, channels: 3, background: '#357' } })
    .withExif({
      IFD0: { Make: 'Telltale', Model: 'Canary-9', Copyright: 'canary owner' },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '43/1 4/1 12/1', GPSLongitudeRef: 'W', GPSLongitude: '89/1 24/1 0/1' },
    })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
}

/** A PNG of one bit a point that is small as a file and huge as a picture. */
export function aBomb(width: number, height: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([1, 0, 0, 0, 0], 8);
  const rows = deflateSync(Buffer.alloc(Math.min(height, 4000) * (Math.ceil(width / 8) + 1)));
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', rows),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** A PNG of one point that carries a text of so many bytes, deflated to next to nothing. */
export function aTextBomb(textBytes: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(1, 0);
  head.writeUInt32BE(1, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const text = Buffer.concat([Buffer.from('Comment\0\0'), deflateSync(Buffer.alloc(textBytes, 65))]);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('zTXt', text),
    chunk('IDAT', deflateSync(Buffer.from([0, 10, 20, 30]))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** The first bytes of a HEIC file. */
export function aHeic(): Buffer {
  return Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic\0\0\0\0mif1heic'), Buffer.alloc(200)]);
}

export const SVG_WITH_SCRIPT = Buffer.from(
  '<?xml version="1.0"?>\n<!-- a pond --><svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
);

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type), data]);
  const framed = Buffer.alloc(named.length + 8);
  framed.writeUInt32BE(data.length, 0);
  named.copy(framed, 4);
  framed.writeUInt32BE(crc32(named), named.length + 4);
  return framed;
}

/** CRC of PNG chunks (ISO 3309, polynomial 0xEDB88320). */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

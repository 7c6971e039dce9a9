/** Longest side of a photo as it is kept and sent. [px] */
const LONGEST_SIDE_PX = 2048;
const JPEG_QUALITY = 0.85;
/** Beyond this a phone may run out of memory while making it small. */
const LARGEST_FILE_BYTES = 50 * 1024 * 1024;

/** A photo that cannot be taken, with a sentence for the person. */
export class PhotoRefused extends Error {}

/**
 * Makes a photo small: longest side 2048 px, JPEG. What the camera wrote about place and time is not carried over.
 * @throws PhotoRefused for what the browser cannot read as a picture, and for files over 50 MB.
 */
export async function smallPhoto(file: Blob): Promise<ArrayBuffer> {
  if (file.size > LARGEST_FILE_BYTES) {
    throw new PhotoRefused(
      `This photo has ${Math.round(file.size / 1024 / 1024)} MB; at most 50 MB can be made small here.`,
    );
  }
  if (file.type === 'image/svg+xml') throw new PhotoRefused('A drawing is not a photo. Take it with the camera.');
  const picture = await createImageBitmap(file).catch(() => {
    throw new PhotoRefused(
      'This phone cannot read that picture. Set the camera to the most compatible format (JPEG) and take it again.',
    );
  });
  const { width, height } = fitted(picture.width, picture.height);
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const drawing = canvas.getContext('2d');
  drawing?.drawImage(picture, 0, 0, width, height);
  picture.close();
  const jpeg = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', JPEG_QUALITY));
  if (!drawing || !jpeg)
    throw new PhotoRefused('The photo could not be made small: too little memory. Close other programs.');
  return jpeg.arrayBuffer();
}

/** A size with the same proportions whose longest side is at most 2048. */
export function fitted(widthPx: number, heightPx: number): { width: number; height: number } {
  const share = Math.min(1, LONGEST_SIDE_PX / Math.max(widthPx, heightPx));
  return { width: Math.max(1, Math.round(widthPx * share)), height: Math.max(1, Math.round(heightPx * share)) };
}

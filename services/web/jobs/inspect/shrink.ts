/** Pictures made small enough to be kept and sent. */

/** Of the service: bytes of one picture. */
const MOST_bytes = 1024 * 1024;

/** Longest side, points: a gnawed root is still to be seen, and the file takes some 300 kB. */
const SIDE = 1600;

/** Tried one after the other until the file is small enough. */
const QUALITIES = [0.82, 0.65, 0.45, 0.3] as const;

/** As JPEG, turned as the camera was held. Rejects for what is no picture. */
export async function shrunk(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  for (const quality of QUALITIES) {
    const blob = await asJpeg(canvas, quality);
    if (blob.size <= MOST_bytes) return blob;
  }
  throw new Error('no quality makes the picture small enough');
}

const asJpeg = (canvas: HTMLCanvasElement, quality: number): Promise<Blob> =>
  new Promise((resolve, reject) => {
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error('the picture could not be written'))),
      'image/jpeg',
      quality,
    );
  });

// The camera of the tablet, looked through for QR codes: by the browser's own reader, or by one that is
// fetched for it. No picture leaves the tablet or is kept.

const kPauseMs = 150; // between two looks
const kSideMax = 800; // pixels of a picture's longer side: enough for a label at arm's length

const kStates = { NotAllowedError: 'refused', SecurityError: 'refused', NotFoundError: 'noCamera',
  OverconstrainedError: 'noCamera' };

/** A function of a canvas to what its code says, or ''. */
async function reader() {
  const formats = await window.BarcodeDetector?.getSupportedFormats() ?? [];
  if (formats.includes('qr_code')) {
    const detector = new window.BarcodeDetector({ formats: ['qr_code'] });
    return async (canvas) => (await detector.detect(canvas))[0]?.rawValue ?? '';
  }
  const { readCode } = await import('./read-code.js');
  return (canvas) =>
    readCode(canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height));
}

/** The picture of the moment on the canvas; false while there is none. */
function taken(video, canvas) {
  const { videoWidth: width, videoHeight: height } = video;
  if (!width) return false;
  const scale = Math.min(1, kSideMax / Math.max(width, height));
  Object.assign(canvas, { width: Math.round(width * scale), height: Math.round(height * scale) });
  canvas.getContext('2d', { willReadFrequently: true })
    .drawImage(video, 0, 0, canvas.width, canvas.height);
  return true;
}

/** Looks again and again until `isOver`. */
async function look(video, read, onText, isOver) {
  const canvas = document.createElement('canvas');
  while (!isOver()) {
    if (taken(video, canvas)) {
      const text = await read(canvas);
      if (!isOver()) onText(text);
    }
    await new Promise((resolve) => { setTimeout(resolve, kPauseMs); });
  }
}

/** Shows the camera in `video` and calls back with what each look reads, '' for nothing. {stop, state}:
 *  state is 'watching' or why it is not: insecure, refused, noCamera, failed. */
export async function startCamera(video, onText) {
  let over = false;
  let stream = null;
  const stop = () => {
    over = true;
    stream?.getTracks().forEach((track) => track.stop());
  };
  if (!navigator.mediaDevices?.getUserMedia) {
    return { stop, state: window.isSecureContext ? 'noCamera' : 'insecure' };
  }
  try {
    const wanted = { facingMode: 'environment', width: { ideal: 1280 }, height: { ideal: 720 } };
    stream = await navigator.mediaDevices.getUserMedia({ video: wanted, audio: false });
    video.srcObject = stream;
    look(video, await reader(), onText, () => over)
      .catch((error) => console.warn('no code can be read', error));
    return { stop, state: 'watching' };
  } catch (error) {
    stop();
    return { stop, state: kStates[error.name] ?? 'failed' };
  }
}

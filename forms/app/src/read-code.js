// Reads QR codes from pictures, for browsers that have no reader of their own; fetched with the first
// use of the camera.
/*! jsQR, licensed under the Apache License, Version 2.0 */
import readQr from 'jsqr';

/** What the code in a picture says, as its ImageData has it; '' where none is read. Ours are dark on
 *  light, so that no other way round is tried. */
export const readCode = ({ data, width, height }) =>
  readQr(data, width, height, { inversionAttempts: 'dontInvert' })?.data ?? '';

// What a camera sees of a label: a film of one picture with a QR code, as Chromium plays it in the
// place of a camera.
import { writeFileSync } from 'node:fs';
import qrcode from 'qrcode-generator';

const kWidth = 640;
const kHeight = 480;
const kFrames = 10;
const kPaper = 235; // luma of white and black in video
const kInk = 16;
const kQuiet = 4;

/** Luma of the whole picture: the code in its middle, a little dim and uneven. */
function lumaOf(text) {
  const code = qrcode(0, 'M');
  code.addData(text);
  code.make();
  const count = code.getModuleCount();
  const module = Math.floor((kHeight * 0.7) / (count + 2 * kQuiet));
  const left = Math.floor((kWidth - count * module) / 2);
  const top = Math.floor((kHeight - count * module) / 2);
  const luma = Buffer.alloc(kWidth * kHeight);
  for (let y = 0; y < kHeight; y += 1) {
    for (let x = 0; x < kWidth; x += 1) {
      const [row, column] = [Math.floor((y - top) / module), Math.floor((x - left) / module)];
      const inside = row >= 0 && column >= 0 && row < count && column < count;
      const shade = Math.floor((x + y) / 40); // light from one side
      luma[y * kWidth + x] = inside && code.isDark(row, column) ? kInk + shade : kPaper - shade;
    }
  }
  return luma;
}

/** Writes the film of a code, in YUV4MPEG2; without text of an empty wall. */
export function writeFilm(path, text) {
  const luma = text === null ? Buffer.alloc(kWidth * kHeight, kPaper) : lumaOf(text);
  const grey = Buffer.alloc((kWidth * kHeight) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, grey]);
  const head = Buffer.from(`YUV4MPEG2 W${kWidth} H${kHeight} F10:1 Ip A1:1 C420jpeg\n`);
  writeFileSync(path, Buffer.concat([head, ...Array(kFrames).fill(frame)]));
}

// The day on which a JPEG was taken, from its EXIF block (DateTimeOriginal, tag 0x9003, of the Exif 2.3 standard).

const HEAD = 256 * 1024;

/** yyyy-MM-dd, or null when the file does not tell. */
export async function dayTaken(file) {
  try {
    return find(new DataView(await file.slice(0, HEAD).arrayBuffer()));
  } catch {
    return null;
  }
}

function find(view) {
  if (view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; at + 4 < view.byteLength;) {
    const marker = view.getUint16(at);
    if (marker < 0xffc0 || marker === 0xffda) return null;
    if (marker === 0xffe1 && view.getUint32(at + 4) === 0x45786966) return inExif(view, at + 10);
    at += 2 + view.getUint16(at + 2);
  }
  return null;
}

function inExif(view, start) {
  const little = view.getUint16(start) === 0x4949;
  const pointer = value(view, start, start + view.getUint32(start + 4, little), 0x8769, little);
  if (pointer === null) return null;
  const at = value(view, start, start + pointer, 0x9003, little);
  if (at === null) return null;
  let text = "";
  for (let i = 0; i < 10; i++) text += String.fromCharCode(view.getUint8(start + at + i));
  return /^\d{4}:\d{2}:\d{2}$/.test(text) && text > "1990" ? text.replaceAll(":", "-") : null;
}

function value(view, start, folder, tag, little) {
  const entries = view.getUint16(folder, little);
  for (let i = 0; i < entries; i++) {
    const at = folder + 2 + 12 * i;
    if (view.getUint16(at, little) === tag) return view.getUint32(at + 8, little);
  }
  return null;
}

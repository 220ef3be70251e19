// From what was dropped or chosen to photos with the folder in which they lay. Folder names tell plants.

const PHOTO = /\.(jpe?g|png|heic|heif)$/i;
const SILENT = /^(\.|thumbs\.db$|desktop\.ini$)/i;

/** Splits files into photos and others; each photo is {file, folder}. Hidden files and sidecars are passed over in silence. */
export function sort(files) {
  const photos = [];
  const others = [];
  for (const { file, folder } of files) {
    if (SILENT.test(file.name)) continue;
    if (PHOTO.test(file.name) || /^image\/(jpeg|png|heic|heif)$/.test(file.type)) photos.push({ file, folder });
    else others.push(file.name);
  }
  photos.sort((a, b) => `${a.folder}/${a.file.name}`.localeCompare(`${b.folder}/${b.file.name}`, "en", { numeric: true }));
  return { photos, others };
}

/** Files of a file field; a folder field gives their paths. */
export function fromField(list) {
  return Array.from(list, file => ({ file, folder: (file.webkitRelativePath ?? "").split("/").slice(0, -1).join("/") }));
}

/** Files of a drop, folders gone through. */
export async function fromDrop(transfer) {
  // Entries must be taken before the first wait: the list is empty afterwards.
  const entries = Array.from(transfer.items ?? [], item => item.webkitGetAsEntry?.()).filter(Boolean);
  if (entries.length === 0) return fromField(transfer.files);
  const found = [];
  for (const entry of entries) await into(entry, "", found);
  return found;
}

async function into(entry, folder, found) {
  if (entry.isFile) {
    found.push({ file: await new Promise((resolve, reject) => entry.file(resolve, reject)), folder });
  } else if (entry.isDirectory) {
    const reader = entry.createReader();
    const path = folder ? `${folder}/${entry.name}` : entry.name;
    // A reader hands out about a hundred at a time.
    for (;;) {
      const part = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
      if (part.length === 0) break;
      for (const inner of part) await into(inner, path, found);
    }
  }
}

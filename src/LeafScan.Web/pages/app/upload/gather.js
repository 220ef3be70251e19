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
  const folders = plantFolders(photos.map(photo => photo.folder));
  photos.forEach((photo, i) => { photo.folder = folders[i]; });
  photos.sort((a, b) => `${a.folder}/${a.file.name}`.localeCompare(`${b.folder}/${b.file.name}`, "en", { numeric: true }));
  return { photos, others };
}

const LEAF = /^(new-growth|old-growth|tagged-.*)$/i;
const DATED = /\d{4}[-_.]?\d{2}[-_.]?\d{2}/;

/**
 * What of each folder path tells the plant. The folder that was dropped is the walk's when there are folders in it, and the plant's when
 * there are none; folders with a date are walks. Folders that tell of the leaf stay behind the plant's.
 */
export function plantFolders(paths) {
  const parts = paths.map(path => {
    const all = path.split("/").filter(Boolean);
    return all.slice(all.findLastIndex(part => DATED.test(part)) + 1);
  });
  const known = parts.filter(one => one.length > 0);
  let common = known[0]?.length ?? 0;
  for (const one of known) {
    let same = 0;
    while (same < common && one[same] === known[0][same]) same++;
    common = same;
  }

  const hasPlant = one => one.slice(common).some(part => !LEAF.test(part));
  if (known.some(hasPlant)) return parts.map(one => one.slice(common).join("/"));
  // All lie in one plant's folder: the innermost that does not tell of the leaf.
  return parts.map(one => one.slice(Math.max(0, one.findLastIndex(part => !LEAF.test(part)))).join("/"));
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

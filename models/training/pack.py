"""Builds the data folder that paint.py and train.py read, from the shared photos.

    python3 models/training/pack.py --shared ../shared --out DATA

What goes in: the fifteen leaf cut-outs with their outlines; further leaves of the chilli, bean and
citrus photos, cut out here with GrabCut from hand-drawn rough outlines (hints.json); half of the
soybean close-ups as leaf texture; the implants, which are only ever scored, never trained on.
Tomato and strawberry photos (share-alike) are never read.
"""
import argparse
import json
import re
import shutil
from pathlib import Path

import cv2
import numpy as np

CREDITS = {
    "cutout": "Chilli leaf disease classification dataset, Mendeley Data tf9dtfz9m6, CC BY 4.0",
    "chilli": "Chilli leaf disease classification dataset, Mendeley Data tf9dtfz9m6, CC BY 4.0",
    "bean": "Makerere AI Lab, Bean disease dataset (iBean), MIT",
    "citrus": "Rauf et al. 2019, citrus fruits and leaves, Mendeley Data 3f83gxmv57, CC BY 4.0",
    "macro": "ASRDNet soybean rust close-ups (Prograf-UFF, photos by Embrapa), MIT",
}

# Shots that show one leaf more than once, or may: kept on one side of every split.
SAME_LEAF = {"3036": "3035", "3041": "3042"}


def cut_out(image, rough, rounds=6):
    """Refines a rough outline (0..1 points or a 0/255 mask) with GrabCut on a copy of 700 px."""
    height, width = image.shape[:2]
    scale = min(1.0, 700 / max(height, width))
    small = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    h, w = small.shape[:2]
    if isinstance(rough, np.ndarray):
        inside = (cv2.resize(rough, (w, h)) > 127).astype(np.uint8)
    else:
        inside = np.zeros((h, w), np.uint8)
        cv2.fillPoly(inside, [np.int32(np.array(rough) * [w, h])], 1)
    size = np.sqrt(inside.sum())
    shrink = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (2 * int(size * 0.06) + 1,) * 2)
    grow = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (2 * int(size * 0.07) + 1,) * 2)
    state = np.full((h, w), cv2.GC_BGD, np.uint8)
    state[cv2.dilate(inside, grow) > 0] = cv2.GC_PR_BGD
    state[inside > 0] = cv2.GC_PR_FGD
    state[cv2.erode(inside, shrink, borderValue=1) > 0] = cv2.GC_FGD
    cv2.grabCut(small, state, None, np.zeros((1, 65)), np.zeros((1, 65)), rounds, cv2.GC_INIT_WITH_MASK)
    leaf = np.isin(state, (cv2.GC_FGD, cv2.GC_PR_FGD)).astype(np.uint8)
    leaf = cv2.morphologyEx(leaf, cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(leaf)
    leaf = (labels == 1 + stats[1:, cv2.CC_STAT_AREA].argmax()).astype(np.uint8)
    outline = cv2.findContours(leaf, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)[-2]
    cv2.drawContours(leaf, outline, -1, 1, -1)
    soft = cv2.GaussianBlur(leaf.astype(np.float32), (0, 0), 1.5)
    soft = cv2.resize(soft, (width, height), interpolation=cv2.INTER_CUBIC)
    return ((soft > 0.5) * 255).astype(np.uint8)


def sheet_leaf(image):
    """First guess of a leaf on a light sheet: whatever is far from the border's colour."""
    lab = cv2.cvtColor(cv2.GaussianBlur(image, (0, 0), 1.5), cv2.COLOR_BGR2LAB).astype(np.float32)
    border = np.concatenate([lab[:6].reshape(-1, 3), lab[-6:].reshape(-1, 3), lab[:, :6].reshape(-1, 3), lab[:, -6:].reshape(-1, 3)])
    far = np.abs(lab - np.median(border, 0)) @ np.float32([0.6, 1, 1.5])
    far = cv2.normalize(far, None, 0, 255, cv2.NORM_MINMAX).astype(np.uint8)
    _, mask = cv2.threshold(far, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    _, labels, stats, _ = cv2.connectedComponentsWithStats(mask)
    return ((labels == 1 + stats[1:, cv2.CC_STAT_AREA].argmax()) * 255).astype(np.uint8)


def limit(image, longest, interpolation=cv2.INTER_AREA):
    scale = min(1.0, longest / max(image.shape[:2]))
    return image if scale == 1 else cv2.resize(image, None, fx=scale, fy=scale, interpolation=interpolation)


def group_of(original):
    number = re.match(r"(?:IMG_)?(\d+)", original).group(1)
    return "chilli-" + SAME_LEAF.get(number, number)


def pack(shared, out):
    here = Path(__file__).resolve().parent
    leaves = out / "leaves"
    leaves.mkdir(parents=True, exist_ok=True)
    entries = []

    def store(name, kind, group, sound, image, mask):
        cv2.imwrite(str(leaves / f"{name}.jpg"), image, [cv2.IMWRITE_JPEG_QUALITY, 95])
        cv2.imwrite(str(leaves / f"{name}.png"), mask)
        entries.append({"name": name, "kind": kind, "group": group, "sound": sound, "credit": CREDITS[kind]})

    for photo in sorted((shared / "leaf-cutouts").glob("*.jpg")):
        shutil.copy(photo, leaves / photo.name)
        shutil.copy(photo.with_suffix("").with_suffix(".mask.png"), leaves / f"{photo.stem}.png")
        entries.append({"name": photo.stem, "kind": "cutout", "group": group_of(photo.stem), "sound": True, "credit": CREDITS["cutout"]})

    originals = {}
    for line in (shared / "photos" / "manifest.csv").read_text(encoding="utf-8").splitlines()[1:]:
        cells = line.split(",")
        originals[cells[0]] = cells[2]
    for file, hint in json.loads((here / "hints.json").read_text()).items():
        image = cv2.imread(str(shared / "photos" / file))
        kind = "chilli" if file.startswith("chilli") else "bean"
        mask = cut_out(image, hint["outline"])
        image, mask = limit(image, 1800), limit(mask, 1800, cv2.INTER_NEAREST)
        stem = Path(file).stem
        store(f"{kind}-{stem}", kind, group_of(originals[file]) if kind == "chilli" else f"bean-{stem}", hint["sound"], image, mask)
    for photo in sorted((shared / "photos" / "citrus-white-sheet").glob("*.png")):
        image = cv2.imread(str(photo))
        store(f"citrus-{photo.stem}", "citrus", f"citrus-{photo.stem}", photo.stem.startswith("healthy"), image, cut_out(image, sheet_leaf(image), 3))
    # Close-ups without an outline: the odd-numbered half is texture for training, the even half stays kept apart for scoring.
    # The stored "mask" is 255 on the leaf and 128 where the experts marked a lesion.
    for photo in sorted((shared / "photos" / "soybean-rust-macro").glob("rust-0*[13579].jpg")):
        image = cv2.imread(str(photo))
        lesion = cv2.imread(str(photo.with_suffix("").with_suffix(".mask.png")) if photo.with_suffix(".mask.png").exists() else str(photo)[:-4] + ".mask.png", 0)
        mask = np.where(lesion > 127, 128, 255).astype(np.uint8)
        store(f"macro-{photo.stem}", "macro", f"macro-{photo.stem}", False, image, mask)

    (out / "leaves.json").write_text(json.dumps(entries, indent=1))
    implants = out / "implants"
    implants.mkdir(exist_ok=True)
    for file in (shared / "implants").glob("case-*"):
        shutil.copy(file, implants / file.name)
    return entries


def contact_sheet(out, path, columns=10, cell=220):
    tiles = []
    for entry in json.loads((out / "leaves.json").read_text()):
        image = cv2.imread(str(out / "leaves" / f"{entry['name']}.jpg"))
        mask = cv2.imread(str(out / "leaves" / f"{entry['name']}.png"), 0)
        scale = cell / max(image.shape[:2])
        image = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        mask = cv2.resize(mask, image.shape[1::-1], interpolation=cv2.INTER_NEAREST)
        cv2.drawContours(image, cv2.findContours((mask > 200).astype(np.uint8), cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)[-2], -1, (0, 0, 255), 1)
        tile = np.zeros((cell, cell, 3), np.uint8)
        tile[: image.shape[0], : image.shape[1]] = image
        cv2.putText(tile, entry["name"], (2, cell - 4), 0, 0.4, (255, 255, 255), 1)
        tiles.append(tile)
    while len(tiles) % columns:
        tiles.append(np.zeros((cell, cell, 3), np.uint8))
    cv2.imwrite(str(path), np.vstack([np.hstack(tiles[k : k + columns]) for k in range(0, len(tiles), columns)]))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--shared", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--sheet", type=Path, help="also write a contact sheet to check the outlines by eye")
    options = parser.parse_args()
    print(len(pack(options.shared, options.out)), "leaves packed")
    if options.sheet:
        contact_sheet(options.out, options.sheet)

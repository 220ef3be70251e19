"""Writes whole-leaf painted scenes with their truth, for the speck judge and for looking at.

    python3 models/training/write_scenes.py --data DATA --out FOLDER --scenes 150 --seed 1

Each scene is NAME.jpg, NAME.truth.png (0 background, 1 sound, 2 speck, 3 yellowed, 4 browned, 5 chewed away,
6 unassessed) and NAME.truth.json (shares of the whole leaf, specks as x, y, diameter, strength, and the leaf it was
painted on): the format that `leafscan-training` reads. About a third carries no speck at all; every third gets clouds
of white glints as large as small specks.
"""
import argparse
import json
import time
from pathlib import Path

import cv2
import numpy as np

import paint

CHEWED_CODE, UNASSESSED_CODE = 5, 6


class Painted(paint.LeafPhotos):
    """Whole leaves only: a close-up has no outline."""

    def __init__(self, folder):
        super().__init__(folder)
        self.macro = []
        self.groups = {e["name"]: e["group"] for e in self.entries}


def glint_clouds(rng, leaf):
    """White points of light where gloss or hairs gather, as large as small specks: only their colour tells them apart."""
    count = int(np.exp(rng.uniform(np.log(40), np.log(1500))))
    white = np.float32([1, 1, 1]) * rng.uniform(0.7, 1.1) * np.float32([1, 1, rng.uniform(0.94, 1.06)])
    alpha = np.zeros(leaf.mask.shape, np.float32)
    size, hard = rng.uniform(1.6, 5.5), rng.uniform(0.3, 1.0)
    for x, y in paint.speck_places(rng, leaf, count):
        radius = size / 2 * rng.uniform(0.7, 1.3)
        reach = int(radius * 2.5) + 2
        x0, x1, y0, y1 = max(0, int(x) - reach), min(leaf.width, int(x) + reach + 1), max(0, int(y) - reach), min(leaf.height, int(y) + reach + 1)
        far = np.hypot(np.arange(x0, x1) - x, (np.arange(y0, y1) - y)[:, None]) / radius
        spot = rng.uniform(0.25, 1.0) / (1 + np.exp(np.clip((far - 1) * (4 / hard), -30, 30)))
        window = (slice(y0, y1), slice(x0, x1))
        np.maximum(alpha[window], spot.astype(np.float32), out=alpha[window])
    paint.mix(leaf.light, alpha * leaf.mask, white)


def sizes(rng, leaf, smallest):
    """As paint.speck_settings, with specks that a photo taken to measure would show: 3.5 pixels and more."""
    diameter = float(np.exp(rng.uniform(np.log(max(3.5, smallest)), np.log(14.0))))
    cover = float(np.exp(rng.uniform(np.log(0.0008), np.log(0.35))))
    count = int(np.clip(cover * float(leaf.mask.sum()) / (0.9 * diameter * diameter), 3, 3000))
    return count, diameter, rng.uniform(0.25, 0.9), rng.uniform(0.03, 0.12)


def scene(leaves, seed):
    """A painted scene with room about the leaf."""
    rng = np.random.default_rng(seed + 1_000_003)
    glinting = rng.random() < 0.35
    return paint.tissue_scene(leaves, seed, (lambda leaf: glint_clouds(rng, leaf)) if glinting else None, sizes)


def write(made, group, folder, name, longest):
    rgb, label, whole = made["rgb"], made["label"], made["whole"]
    # What nobody can say, glare or a speck too faint to see, is left open.
    label = np.where((label == paint.UNASSESSED) | (label == paint.IGNORE), UNASSESSED_CODE, label).astype(np.uint8)
    label[(whole > 0) & (label == paint.BACKGROUND)] = CHEWED_CODE
    specks = made["specks"]
    scale = min(1.0, longest / max(label.shape))
    if scale < 1:
        size = (round(label.shape[1] * scale), round(label.shape[0] * scale))
        rgb = cv2.resize(rgb, size, interpolation=cv2.INTER_AREA)
        label = cv2.resize(label, size, interpolation=cv2.INTER_NEAREST)
    area = max(1, int((label > 0).sum()))
    share = lambda code: float((label == code).sum()) / area
    about = {
        "mode": "painted",
        "leaf": made["leaf"],
        "group": group,
        "leafAreaPx": area,
        "shares": {"stippled": share(2), "yellowed": share(3), "browned": share(4), "chewed": share(5)},
        "speckCount": len(specks),
        "specks": [[round((x + 0.5) * scale - 0.5, 2), round((y + 0.5) * scale - 0.5, 2), round(d * scale, 2), round(k, 3)] for x, y, d, k in specks],
    }
    cv2.imwrite(str(folder / f"{name}.jpg"), rgb[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, 95])
    cv2.imwrite(str(folder / f"{name}.truth.png"), label)
    (folder / f"{name}.truth.json").write_text(json.dumps(about, default=float))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", type=Path, required=True, help="the folder that pack.py wrote")
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--scenes", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--longest", type=int, default=1300, help="longest side of a scene in pixels; larger ones are shrunk")
    options = parser.parse_args()
    cv2.setNumThreads(1)
    options.out.mkdir(parents=True, exist_ok=True)
    leaves = Painted(options.data)
    start = time.time()
    for k in range(options.scenes):
        seed = options.seed * 100_000 + k
        made = scene(leaves, seed)
        write(made, leaves.groups[made["leaf"]], options.out, f"painted-{seed:08d}", options.longest)
    print(f"Wrote {options.scenes} scenes to {options.out} in {time.time() - start:.0f} s.")


if __name__ == "__main__":
    main()

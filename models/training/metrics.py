"""Runs the two networks on a photo the way the program does, and scores the answer against exact truth. numpy and OpenCV only."""
import json
from pathlib import Path

import cv2
import numpy as np

OUTLINE_LONG = 512        # long side of the small copy the outline network sees
LEAF_LONGEST = 2000       # a leaf's box is made no longer than this
LEAF_SHORTEST = 360       # a smaller leaf is enlarged to 480, at most two times
CLASS_NAMES = ("background", "sound", "speck", "yellowed", "browned", "unassessed")


def pad32(image):
    """Repeats the last row and column until both sides are multiples of 32."""
    h, w = image.shape[:2]
    return cv2.copyMakeBorder(image, 0, -h % 32, 0, -w % 32, cv2.BORDER_REPLICATE)


def planes(image):
    """Height x width x channels, 0..255, to 1 x channels x height x width, 0..1."""
    image = image if image.ndim == 3 else image[..., None]
    return np.ascontiguousarray(image.transpose(2, 0, 1)[None].astype(np.float32) / 255)


def find_leaf(rgb, outline):
    """Leaf probability at full size. `outline` maps a 1 x 3 x h x w array to the leaf probability (h x w)."""
    height, width = rgb.shape[:2]
    scale = OUTLINE_LONG / max(height, width)
    small = cv2.resize(rgb, (max(1, round(width * scale)), max(1, round(height * scale))), interpolation=cv2.INTER_AREA if scale < 1 else cv2.INTER_LINEAR)
    answer = outline(planes(pad32(small)))[: small.shape[0], : small.shape[1]]
    return cv2.resize(np.float32(answer), (width, height), interpolation=cv2.INTER_LINEAR)


def working_scale(long):
    if long > LEAF_LONGEST:
        return LEAF_LONGEST / long
    return min(2.0, 480 / long) if long < LEAF_SHORTEST else 1.0


def measure(rgb, outline, tissue, threshold=0.35):
    """Mask (0 background, 1 sound, 2 speck, 3 yellowed, 4 browned, 6 unassessed) at full size, and specks as rows x, y, diameter, score."""
    height, width = rgb.shape[:2]
    chance = find_leaf(rgb, outline)
    count, parts, stats, _ = cv2.connectedComponentsWithStats((chance > 0.5).astype(np.uint8))
    mask, none = np.zeros((height, width), np.uint8), np.zeros((0, 4))
    if count < 2:
        return mask, none, chance
    main = 1 + stats[1:, cv2.CC_STAT_AREA].argmax()
    x, y, w, h = stats[main, :4]
    pad = int(0.08 * max(w, h)) + 4
    x0, y0, x1, y1 = max(0, x - pad), max(0, y - pad), min(width, x + w + pad), min(height, y + h + pad)
    scale = working_scale(max(w, h))
    size = (max(8, round((x1 - x0) * scale)), max(8, round((y1 - y0) * scale)))
    way = cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC
    piece = rgb[y0:y1, x0:x1] if scale == 1 else cv2.resize(rgb[y0:y1, x0:x1], size, interpolation=way)
    # Other leaves' probability is taken out, so that the tissue network keeps to this one.
    prior = np.where((parts == main) | (parts == 0), chance, 0)[y0:y1, x0:x1].astype(np.float32)
    prior = cv2.resize(prior, piece.shape[1::-1], interpolation=cv2.INTER_LINEAR)
    picture = np.dstack([piece, np.clip(prior * 255, 0, 255).astype(np.uint8)])
    classes, centres, diameters = tissue(planes(pad32(picture)))
    ph, pw = piece.shape[:2]
    label = classes[:, :ph, :pw].argmax(0).astype(np.uint8)
    centres, diameters = centres[:ph, :pw], diameters[:ph, :pw]
    there = (label > 0).astype(np.uint8)
    count, parts, stats, _ = cv2.connectedComponentsWithStats(there)
    if count > 1:  # crumbs that do not belong to the leaf
        keep = np.zeros(count, bool)
        keep[1 + stats[1:, cv2.CC_STAT_AREA].argmax()] = True
        overlap = np.bincount(parts[prior > 0.5], minlength=count)
        keep[1:] |= (overlap[1:] > 0.6 * stats[1:, cv2.CC_STAT_AREA]) & (stats[1:, cv2.CC_STAT_AREA] > 0.01 * there.sum())
        label[~keep[parts]] = 0
    peak = (centres == cv2.dilate(centres, np.ones((3, 3), np.uint8))) & (centres > threshold) & (label > 0)
    py, px = np.nonzero(peak)
    if len(px) > 12000:  # an untrained network sees specks everywhere
        best = np.argpartition(-centres[py, px], 12000)[:12000]
        py, px = py[best], px[best]
    specks = np.stack([px / scale + x0, py / scale + y0, diameters[py, px] / scale, centres[py, px]], 1) if len(px) else none
    label = np.where(label == 5, 6, label).astype(np.uint8)
    mask[y0:y1, x0:x1] = label if scale == 1 else cv2.resize(label, (x1 - x0, y1 - y0), interpolation=cv2.INTER_NEAREST)
    return mask, specks, chance


def match(found, truth):
    """One-to-one, best score first, nearest truth within max(3, diameter / 2) pixels. Number of matches."""
    if len(found) == 0 or len(truth) == 0:
        return 0
    cell = 24.0
    grid = {}
    for k, t in enumerate(truth):
        grid.setdefault((int(t[0] // cell), int(t[1] // cell)), []).append(k)
    taken = np.zeros(len(truth), bool)
    hits = 0
    for f in found[np.argsort(-found[:, 3])]:
        gx, gy = int(f[0] // cell), int(f[1] // cell)
        best, which = 1e9, -1
        for dx in (-1, 0, 1):
            for dy in (-1, 0, 1):
                for k in grid.get((gx + dx, gy + dy), ()):
                    if not taken[k]:
                        distance = np.hypot(f[0] - truth[k][0], f[1] - truth[k][1])
                        if distance <= max(3.0, truth[k][2] / 2) and distance < best:
                            best, which = distance, k
        if which >= 0:
            taken[which] = True
            hits += 1
    return hits


def concordance(a, b):
    """Lin's concordance correlation coefficient (Biometrics 45, 1989: 255-268)."""
    a, b = np.asarray(a, float), np.asarray(b, float)
    if len(a) < 2:
        return float("nan")
    bottom = a.var() + b.var() + (a.mean() - b.mean()) ** 2
    return float(2 * np.mean((a - a.mean()) * (b - b.mean())) / bottom) if bottom > 0 else 1.0


def shares(mask, chewed):
    total = max(1, int((mask > 0).sum()) + chewed)
    return {name: float((mask == code).sum() / total) for name, code in (("stippled", 2), ("yellowed", 3), ("browned", 4), ("unassessed", 6))}


def score_case(folder, name, outline, tissue, thresholds):
    rgb = cv2.cvtColor(cv2.imread(str(folder / f"{name}.jpg")), cv2.COLOR_BGR2RGB)
    truth = cv2.imread(str(folder / f"{name}.truth.png"), 0)
    about = json.loads((folder / f"{name}.truth.json").read_text())
    mask, specks, _ = measure(rgb, outline, tissue, min(thresholds))
    there, true_there = mask > 0, (truth > 0) & (truth != 5)
    chewed = int((truth == 5).sum())
    row = {
        "case": name, "leaf": Path(about["leaf"]).stem, "mode": about["mode"],
        "outlineIoU": float((there & true_there).sum() / max(1, (there | true_there).sum())),
        "found": shares(mask, chewed), "true": {k: about["shares"][k] for k in ("stippled", "yellowed", "browned")},
        "trueCount": about["speckCount"], "specks": {},
    }
    for t in thresholds:
        kept = specks[specks[:, 3] >= t]
        row["specks"][f"{t:.2f}"] = [match(kept, about["specks"]), len(kept), len(about["specks"])]
    overlap = {}
    for label, code in (("stippled", 2), ("yellowed", 3), ("browned", 4)):
        union = ((mask == code) | (truth == code)).sum()
        overlap[label] = float(((mask == code) & (truth == code)).sum() / union) if (truth == code).any() else None
    row["areaIoU"] = overlap
    return row, rgb, mask, truth, specks


def score_clean(folder, name, outline, tissue):
    rgb = cv2.cvtColor(cv2.imread(str(folder / f"{name}.base.jpg")), cv2.COLOR_BGR2RGB)
    mask, specks, _ = measure(rgb, outline, tissue)
    return {"case": name, "leaf": Path(json.loads((folder / f"{name}.truth.json").read_text())["leaf"]).stem, **shares(mask, 0), "speckCount": len(specks)}


def f1_of(rows, threshold):
    hits, found, true = np.sum([r["specks"][threshold] for r in rows], 0)
    return float(2 * hits / max(1, found + true))


def summary(rows, threshold):
    if not rows:
        return {}
    iou = np.array([r["outlineIoU"] for r in rows])
    field = [r["outlineIoU"] for r in rows if r["mode"] == "field"]
    per_leaf = [2 * r["specks"][threshold][0] / (r["specks"][threshold][1] + r["specks"][threshold][2]) for r in rows if r["trueCount"] >= 10]
    out = {
        "cases": len(rows), "speckThreshold": float(threshold),
        "outlineIoUMedian": float(np.median(iou)), "outlineIoU10th": float(np.percentile(iou, 10)), "outlineIoUWorstField": float(min(field)) if field else None,
        "speckF1Pooled": f1_of(rows, threshold), "speckF1Median": float(np.median(per_leaf)) if per_leaf else None,
        "countCCC": concordance([r["specks"][threshold][1] for r in rows], [r["trueCount"] for r in rows]),
    }
    for k in ("stippled", "yellowed", "browned"):
        found, true = [r["found"][k] for r in rows], [r["true"][k] for r in rows]
        out[f"{k}CCC"] = concordance(found, true)
        out[f"{k}MAE"] = float(np.mean(np.abs(np.subtract(found, true))))
    damage = [[sum(r[s][k] for k in ("stippled", "yellowed", "browned")) for r in rows] for s in ("found", "true")]
    out["damageCCC"], out["damageMAE"] = concordance(*damage), float(np.mean(np.abs(np.subtract(*damage))))
    return out


COLOURS = np.array([[0, 0, 0], [60, 140, 40], [255, 255, 255], [240, 220, 0], [130, 60, 20], [80, 80, 80], [255, 0, 255]], np.uint8)


def picture_of(rgb, mask, truth, specks, side=420):
    """Photo, found, true: side by side at a cut of native pixels around the busiest place, over the whole leaf made small."""
    wrong = ((mask != truth) & (truth != 5)).astype(np.float32)
    busy = cv2.GaussianBlur(cv2.resize(wrong, None, fx=0.125, fy=0.125, interpolation=cv2.INTER_AREA), (0, 0), side / 48)
    _, _, _, (x, y) = cv2.minMaxLoc(busy)
    x, y = x * 8, y * 8
    h, w = truth.shape
    x0, y0 = int(np.clip(x - side // 2, 0, max(0, w - side))), int(np.clip(y - side // 2, 0, max(0, h - side)))

    def fit(image):
        cell = np.zeros((side, side, 3), np.uint8)
        image = image[:side, :side]
        cell[: image.shape[0], : image.shape[1]] = image
        return cell

    def small(image):
        s = side / max(image.shape[:2])
        return fit(cv2.resize(image, (max(1, int(image.shape[1] * s)), max(1, int(image.shape[0] * s))), interpolation=cv2.INTER_AREA))

    cut = (slice(y0, y0 + side), slice(x0, x0 + side))
    near = fit(rgb[cut]).copy()
    for sx, sy, d, _ in specks:
        cv2.circle(near, (int(round(sx - x0)), int(round(sy - y0))), max(2, int(d / 2)), (255, 0, 0), 1)
    top = np.hstack([fit(rgb[cut]), near, fit(COLOURS[mask[cut]]), fit(COLOURS[truth[cut]])])
    bottom = np.hstack([small(rgb), small(rgb), small(COLOURS[mask]), small(COLOURS[truth])])
    return np.vstack([top, bottom])

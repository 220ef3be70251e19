"""Paints damage with known truth onto real sound leaves, sets them before other backgrounds and shoots them again.

Truth follows the implants' convention: a speck is what lies inside the half-height contour of its own profile,
whatever its strength; a patch or spot likewise; glints, hairs, dust, shadow and the leaf's own marks are sound.
Codes: 0 background (also what was chewed away), 1 sound, 2 speck, 3 yellowed, 4 browned, 5 unassessed (glare),
255 not to be learned from. All mixing is done in linear light.
"""
import json
from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np

BACKGROUND, SOUND, SPECK, YELLOWED, BROWNED, UNASSESSED, IGNORE = 0, 1, 2, 3, 4, 5, 255
FAINTEST = 0.03  # rise of the cube root of linear light, length over the three channels, below which nobody sees a speck
TO_LINEAR = np.array([c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in np.arange(256) / 255.0], np.float32)
_FINE = np.arange(4097) / 4096.0
TO_SRGB = (255 * np.where(_FINE <= 0.0031308, 12.92 * _FINE, 1.055 * _FINE ** (1 / 2.4) - 0.055)).astype(np.float32)


def linear(image):
    return TO_LINEAR[image]


def srgb(light):
    """Linear 0..1 to sRGB 0..255, still float, so that noise and rounding come later."""
    return TO_SRGB[(np.clip(light, 0, 1) * 4096).astype(np.int32)]


class LeafPhotos:
    """The leaves of the data folder, read when first needed. `without` names groups that must not be seen."""

    def __init__(self, folder, without=()):
        self.folder = Path(folder)
        entries = json.loads((self.folder / "leaves.json").read_text())
        self.entries = [e for e in entries if e["group"] not in set(without)]
        self.sound = [e for e in self.entries if e["sound"]]
        self.outlined = [e for e in self.entries if e["kind"] != "macro"]
        self.macro = [e for e in self.entries if e["kind"] == "macro"]

    @lru_cache(maxsize=96)
    def read(self, name):
        image = cv2.cvtColor(cv2.imread(str(self.folder / "leaves" / f"{name}.jpg")), cv2.COLOR_BGR2RGB)
        return image, cv2.imread(str(self.folder / "leaves" / f"{name}.png"), 0)


def noise_field(rng, height, width, size):
    """Smooth noise with mean 0 and standard deviation 1; `size` is the typical width of a bump in pixels."""
    h, w = max(2, int(height / size) + 3), max(2, int(width / size) + 3)
    field = cv2.resize(rng.standard_normal((h, w)).astype(np.float32), (width, height), interpolation=cv2.INTER_CUBIC)
    return field / (field.std() + 1e-6)


def step(x, width):
    """Smooth rise from 0 to 1 around x = 0; one half at 0."""
    return 1.0 / (1.0 + np.exp(-np.clip(4.0 * x / max(width, 1e-3), -30, 30)))


def mix(light, alpha, target):
    light += alpha[..., None] * (target - light)


class Leaf:
    """One leaf being painted: linear light, the leaf's mask (0/1) and the labels."""

    def __init__(self, light, mask):
        self.light, self.mask = light, mask
        self.label = mask.astype(np.uint8).copy()
        self.height, self.width = mask.shape
        self.specks = []  # x, y, diameter, strength
        inside = np.argwhere(mask > 0)
        self.inside = inside
        self.long = float(max(np.ptp(inside[:, 0]), np.ptp(inside[:, 1]), 8))
        centre = inside[:: max(1, len(inside) // 4000)].astype(np.float32)
        self.centre = centre.mean(0)
        _, _, axes = np.linalg.svd(centre - self.centre, full_matrices=False)
        self.axis = axes[0]
        self._distance = None
        self._vein = None

    @property
    def distance(self):
        if self._distance is None:
            self._distance = cv2.distanceTransform(np.pad(self.mask, 1), cv2.DIST_L2, 3)[1:-1, 1:-1]
        return self._distance

    @property
    def vein(self):
        """0..1, bright ridges of the leaf at about the width of its main veins."""
        if self._vein is None:
            grey = self.light[..., 1] / (cv2.GaussianBlur(self.light[..., 1], (0, 0), self.long / 25) + 0.02)
            thin = cv2.GaussianBlur(grey, (0, 0), self.long / 220) - cv2.GaussianBlur(grey, (0, 0), self.long / 60)
            scale = np.percentile(thin[self.mask > 0][::7], 95) + 1e-4
            self._vein = np.clip(thin / scale, 0, 1).astype(np.float32)
        return self._vein

    def point(self, rng):
        y, x = self.inside[rng.integers(len(self.inside))]
        return float(x) + rng.uniform(-0.5, 0.5), float(y) + rng.uniform(-0.5, 0.5)

    def brightness(self, blur):
        green = self.light[..., 1] * 0.75 + self.light[..., 0] * 0.25
        return cv2.GaussianBlur(green, (0, 0), blur) if blur > 0 else green


# --- damage -----------------------------------------------------------------------------------------------------

def blob(rng, leaf, x, y, radius, roughness=0.25, stretch=1.6):
    """Signed 'inside-ness' of an irregular patch in units of its radius: positive inside, 0 at the rim; with its window."""
    reach = int(radius * 2.0 * stretch) + 3
    x0, x1 = max(0, int(x) - reach), min(leaf.width, int(x) + reach + 1)
    y0, y1 = max(0, int(y) - reach), min(leaf.height, int(y) + reach + 1)
    if x1 - x0 < 3 or y1 - y0 < 3:
        return None, None
    gy, gx = np.mgrid[y0:y1, x0:x1].astype(np.float32)
    angle, ratio = rng.uniform(0, np.pi), np.sqrt(rng.uniform(1, stretch))
    u = ((gx - x) * np.cos(angle) + (gy - y) * np.sin(angle)) / ratio
    v = (-(gx - x) * np.sin(angle) + (gy - y) * np.cos(angle)) * ratio
    field = 1.0 - np.sqrt(u * u + v * v) / radius
    field += roughness * noise_field(rng, y1 - y0, x1 - x0, max(2.0, radius * rng.uniform(0.35, 1.0))) * np.clip(1.2 - np.abs(field), 0, 1)
    return field.astype(np.float32), (slice(y0, y1), slice(x0, x1))


def yellow_target(rng, leaf, blur):
    gain = rng.uniform(0.95, 1.4)
    tint = np.float32([1.0, rng.uniform(0.84, 1.03), rng.uniform(0.18, 0.5)])
    if rng.random() < 0.12:  # bronzing
        gain, tint = rng.uniform(0.6, 0.95), np.float32([1.0, rng.uniform(0.62, 0.8), rng.uniform(0.25, 0.5)])
    return np.clip(leaf.brightness(blur)[..., None] * gain * tint, 0, 1)


def paint_yellow(rng, leaf):
    """Diffuse patches, margins, tips, halves, and yellowing between the veins."""
    target = yellow_target(rng, leaf, rng.choice([0.0, 1.0, leaf.long / 150]))
    strength = rng.uniform(0.35, 0.95)
    way = rng.random()
    alpha = np.zeros(leaf.mask.shape, np.float32)
    if way < 0.5:
        for _ in range(rng.integers(1, 7)):
            x, y = leaf.point(rng)
            field, window = blob(rng, leaf, x, y, leaf.long * np.exp(rng.uniform(np.log(0.02), np.log(0.2))), rng.uniform(0.05, 0.5), 3.0)
            if field is not None:
                np.maximum(alpha[window], step(field, rng.uniform(0.06, 0.7)), out=alpha[window])
    elif way < 0.62:  # one end or one side
        direction = rng.uniform(0, 2 * np.pi) if rng.random() < 0.5 else np.arctan2(leaf.axis[0], leaf.axis[1]) + rng.choice([0, np.pi])
        gy, gx = np.mgrid[0 : leaf.height, 0 : leaf.width].astype(np.float32)
        along = ((gx - leaf.centre[1]) * np.cos(direction) + (gy - leaf.centre[0]) * np.sin(direction)) / leaf.long
        alpha = step(along - rng.uniform(0.0, 0.38) + 0.05 * noise_field(rng, leaf.height, leaf.width, leaf.long / 6), rng.uniform(0.02, 0.25))
    elif way < 0.72:  # along the margin
        width = leaf.long * rng.uniform(0.01, 0.07)
        alpha = step((width * (1 + 0.5 * noise_field(rng, leaf.height, leaf.width, leaf.long / 5)) - leaf.distance) / leaf.long, rng.uniform(0.008, 0.05))
    else:  # everywhere or in large patches, often sparing the veins
        spread = noise_field(rng, leaf.height, leaf.width, leaf.long / rng.uniform(2, 9))
        alpha = step(spread - rng.uniform(-1.6, 1.2), rng.uniform(0.2, 1.2))
    if rng.random() < 0.3:
        alpha = alpha * (1 - step(leaf.vein - rng.uniform(0.3, 0.6), 0.4))
    alpha = alpha.astype(np.float32)
    mix(leaf.light, alpha * (strength * leaf.mask), target)
    leaf.label[(alpha > 0.5) & (leaf.mask > 0)] = YELLOWED


def paint_brown(rng, leaf):
    """Dead tissue: round or angular spots with rims, halos or pale centres; burnt tips and margins."""
    way = rng.random()
    base = np.float32([rng.uniform(0.1, 0.4), 0, 0])
    base[1] = base[0] * rng.uniform(0.22, 0.62)
    base[2] = base[0] * rng.uniform(0.1, 0.4)
    strength, texture = rng.uniform(0.6, 0.98), rng.uniform(0.0, 0.5)
    if way < 0.75:
        middle = leaf.long * np.exp(rng.uniform(np.log(0.006), np.log(0.04)))
        rim, halo, pale = rng.random() < 0.35, rng.random() < 0.25, rng.random() < 0.15
        for _ in range(rng.integers(1, 14)):
            x, y = leaf.point(rng)
            radius = float(np.clip(middle * np.exp(rng.normal(0, 0.35)), 3.5, leaf.long * 0.12))
            field, window = blob(rng, leaf, x, y, radius, rng.uniform(0.05, 0.35))
            if field is None:
                continue
            on = leaf.mask[window]
            light = leaf.light[window]
            if halo:
                around = step(field + rng.uniform(0.2, 0.7), 0.3) * on
                glow = np.clip(light[..., 1:2] * np.float32([1.15, 1.05, 0.35]), 0, 1)
                mix(light, around * rng.uniform(0.4, 0.9), glow)
                leaf.label[window][(around > 0.5)] = YELLOWED
            alpha = step(field, rng.uniform(0.05, 0.4)) * on
            colour = base * (1 + texture * (light[..., 1:2] / (light[..., 1].mean() + 1e-3) - 1)) * rng.uniform(0.8, 1.2)
            if pale:
                colour = colour + step(field - 0.45, 0.2)[..., None] * np.float32([0.5, 0.45, 0.36]) * rng.uniform(0.4, 1)
            if rim:
                colour = colour * (1 - 0.6 * np.exp(-((field - 0.15) / 0.14) ** 2))[..., None]
            mix(light, alpha * strength, np.clip(colour, 0, 1))
            leaf.label[window][alpha > 0.5] = BROWNED
    else:
        width = leaf.long * rng.uniform(0.008, 0.06)
        gy, gx = np.mgrid[0 : leaf.height, 0 : leaf.width].astype(np.float32)
        angle = rng.uniform(0, 2 * np.pi) if rng.random() < 0.5 else np.arctan2(leaf.axis[0], leaf.axis[1]) + rng.choice([0, np.pi])
        along = ((gx - leaf.centre[1]) * np.cos(angle) + (gy - leaf.centre[0]) * np.sin(angle)) / leaf.long
        wobble = noise_field(rng, leaf.height, leaf.width, leaf.long / 8)
        rough = width * (1 + 0.4 * wobble) * step(along - rng.uniform(-0.1, 0.4), 0.1)
        if rng.random() < 0.4:
            rough = rough + leaf.long * np.clip(along - rng.uniform(0.3, 0.46) + 0.02 * wobble, 0, 1) * 4
        alpha = step((rough - leaf.distance - 1) / leaf.long, rng.uniform(0.004, 0.02)).astype(np.float32)
        colour = base * (1 + texture * (leaf.light[..., 1:2] / (leaf.light[..., 1].mean() + 1e-3) - 1))
        if rng.random() < 0.4:
            around = step((rough + width - leaf.distance - 1) / leaf.long, 0.03) * leaf.mask * step(rough / leaf.long - 0.004, 0.004)
            mix(leaf.light, (around * 0.6).astype(np.float32), np.clip(leaf.light[..., 1:2] * np.float32([1.15, 1.05, 0.4]), 0, 1))
            leaf.label[around > 0.5] = YELLOWED
        mix(leaf.light, alpha * (strength * leaf.mask), np.clip(colour, 0, 1))
        leaf.label[(alpha > 0.5) & (leaf.mask > 0)] = BROWNED


def speck_places(rng, leaf, count):
    """Where mites fed: in colonies, along the midrib and veins, and scattered."""
    scattered = rng.choice([0.0, 0.2, 0.5, 1.0], p=[0.2, 0.3, 0.3, 0.2])
    places = []
    colonies = []
    for _ in range(rng.integers(1, 9)):
        x, y = leaf.point(rng)
        along = np.arctan2(leaf.axis[0], leaf.axis[1]) + rng.normal(0, 0.5)
        long = leaf.long * np.exp(rng.uniform(np.log(0.02), np.log(0.3)))
        colonies.append((x, y, along, long, long * rng.uniform(0.25, 1.0), rng.exponential()))
    weights = np.array([c[5] for c in colonies])
    weights /= weights.sum()
    veins = None
    if rng.random() < 0.3:
        veins = np.argwhere((leaf.vein > 0.4) & (leaf.mask > 0))
        if len(veins) < 50:
            veins = None
    tries = 0
    while len(places) < count and tries < 6 * count + 100:
        tries += 1
        if rng.random() < scattered:
            places.append(leaf.point(rng))
            continue
        if veins is not None and rng.random() < 0.6:
            y, x = veins[rng.integers(len(veins))] + rng.normal(0, leaf.long / 60, 2)
        else:
            cx, cy, along, long, wide, _ = colonies[rng.choice(len(colonies), p=weights)]
            a, b = rng.normal(0, long), rng.normal(0, wide)
            x, y = cx + a * np.cos(along) - b * np.sin(along), cy + a * np.sin(along) + b * np.cos(along)
        if 0 <= x < leaf.width and 0 <= y < leaf.height and leaf.mask[int(y), int(x)]:
            places.append((x, y))
    return places


def paint_specks(rng, leaf, count, diameter, strength, light_spread):
    """Pale feeding marks: soft, slightly irregular discs; yellowish, sometimes silvery. Those too faint to stand out from
    the leaf's own fine texture are not to be learned from, in neither direction."""
    before = np.cbrt(leaf.light)
    drawn = []
    gain = rng.uniform(1.05, 1.75)
    blue = rng.uniform(0.3, 0.72) if rng.random() < 0.85 else rng.uniform(0.6, 0.85)
    tint = np.float32([1.0, rng.uniform(0.9, 1.02), blue])
    target = np.clip(leaf.brightness(rng.choice([0.0, 0.0, 1.5, 6.0]))[..., None] * gain * tint + rng.uniform(0, 0.03), 0, 1)
    # What tells the palest speck from a glint: blue rises less than red, for the light still comes from leaf tissue.
    target[..., 2] = np.minimum(target[..., 2], leaf.light[..., 2] + 0.75 * np.maximum(target[..., 0] - leaf.light[..., 0], 0))
    alpha = np.zeros(leaf.mask.shape, np.float32)
    inside = np.zeros(leaf.mask.shape, bool)
    hard = rng.uniform(0.25, 0.9)
    spread, irregular = rng.uniform(0.12, 0.38), rng.uniform(0, 0.22)
    touching = rng.random() < 0.5
    spare_brown = rng.random() < 0.6
    for x, y in speck_places(rng, leaf, count):
        if spare_brown and leaf.label[int(y), int(x)] == BROWNED:
            continue
        d = float(np.clip(diameter * np.exp(rng.normal(0, spread)), max(1.5, diameter * 0.4), diameter * 2.6))
        k = float(np.clip(strength + rng.normal(0, light_spread), 0.12, 0.97))
        reach = int(d * 1.25) + 2
        x0, x1 = max(0, int(x) - reach), min(leaf.width, int(x) + reach + 1)
        y0, y1 = max(0, int(y) - reach), min(leaf.height, int(y) + reach + 1)
        gx = np.arange(x0, x1, dtype=np.float32) - np.float32(x)
        gy = np.arange(y0, y1, dtype=np.float32)[:, None] - np.float32(y)
        angle, ratio = rng.uniform(0, np.pi), np.exp(abs(rng.normal(0, 0.14)))
        c, s = np.cos(angle), np.sin(angle)
        u, v = (gx * c + gy * s) * (1 / ratio), (gy * c - gx * s) * ratio
        r = np.sqrt(u * u + v * v) / np.float32(d / 2)
        if irregular > 0.05 and d > 4:
            r = r * (1 + irregular * np.cos(2 * np.arctan2(v, u) + angle * 3) * np.sin(3 * np.arctan2(u, v) + c))
        a = 1.0 / (1.0 + np.exp(np.clip((r - 1) * (4 / hard), -30, 30)))
        window = (slice(y0, y1), slice(x0, x1))
        if touching:
            alpha[window] = 1 - (1 - alpha[window]) * (1 - k * a)
        else:
            np.maximum(alpha[window], k * a, out=alpha[window])
        inside[window] |= r < 1
        drawn.append((x, y, d, k))
    mix(leaf.light, alpha * leaf.mask, target)
    leaf.label[inside & (leaf.mask > 0)] = SPECK
    fine = cv2.GaussianBlur(before, (0, 0), max(0.5, diameter / 4)) - cv2.GaussianBlur(before, (0, 0), diameter)
    texture = 1.4826 * np.median(np.linalg.norm(fine[leaf.mask > 0][::7], axis=1))
    least = max(FAINTEST, 1.8 * texture)
    # Softened as any lens softens it: what is small must be strong to be seen.
    rise = np.linalg.norm(cv2.GaussianBlur(np.cbrt(leaf.light) - before, (0, 0), 0.9), axis=2)
    for x, y, d, k in drawn:
        cx, cy = min(leaf.width - 1, int(round(x))), min(leaf.height - 1, int(round(y)))
        if rise[cy, cx] >= least:
            leaf.specks.append((x, y, d, k))
        else:
            reach = int(d / 2) + 1
            window = (slice(max(0, cy - reach), cy + reach + 1), slice(max(0, cx - reach), cx + reach + 1))
            faint = (rise[window] < least) & (leaf.label[window] == SPECK)
            leaf.label[window][faint] = IGNORE


def chew(rng, leaf, background):
    """Bites at the margin and holes: the background shows. Sometimes the wound has a thin dry edge."""
    gone = np.zeros(leaf.mask.shape, np.float32)
    scale = leaf.long * np.exp(rng.uniform(np.log(0.012), np.log(0.07)))
    edge = np.argwhere((leaf.distance > 0) & (leaf.distance < 2.5))
    for _ in range(rng.integers(0, 6)):
        if len(edge) == 0:
            break
        y, x = edge[rng.integers(len(edge))] + rng.normal(0, scale * 0.3, 2)
        for _ in range(rng.integers(1, 4)):
            field, window = blob(rng, leaf, x, y, scale * np.exp(rng.normal(0, 0.4)), rng.uniform(0, 0.15), 1.4)
            if field is not None:
                np.maximum(gone[window], step(field, 0.08), out=gone[window])
            x, y = x + rng.normal(0, scale), y + rng.normal(0, scale)
    for _ in range(rng.integers(0, 6)):
        x, y = leaf.point(rng)
        for _ in range(rng.integers(1, 3)):
            field, window = blob(rng, leaf, x, y, max(2.5, 0.7 * scale * np.exp(rng.normal(0, 0.5))), rng.uniform(0, 0.25), 1.5)
            if field is not None:
                np.maximum(gone[window], step(field, 0.08), out=gone[window])
            x, y = x + rng.normal(0, scale * 0.6), y + rng.normal(0, scale * 0.6)
    if rng.random() < 0.25:
        rim = cv2.GaussianBlur(gone, (0, 0), leaf.long / rng.uniform(150, 400)) * leaf.mask * (gone < 0.5)
        mix(leaf.light, np.clip(rim * 1.5, 0, 0.8), np.float32([0.25, 0.17, 0.07]) * rng.uniform(0.5, 1.6))
    gone *= leaf.mask
    mix(leaf.light, gone, background)
    hidden = (gone > 0.5) & (leaf.mask > 0)
    leaf.label[hidden] = BACKGROUND
    leaf.specks = [s for s in leaf.specks if not hidden[min(max(int(s[1]), 0), leaf.height - 1), min(max(int(s[0]), 0), leaf.width - 1)]]
    return hidden


# --- look-alikes that stay sound ----------------------------------------------------------------------------------

def add_dots(rng, leaf, count, size, low, high, tint, soft=0.0):
    """Tiny dots drawn at two-times scale so that they can be one pixel wide and lie between pixels; `soft` blurs them."""
    up = 2
    canvas = np.zeros((leaf.height * up, leaf.width * up), np.float32)
    chosen = leaf.inside[rng.integers(0, len(leaf.inside), count)]
    for y, x in chosen:
        value = float(rng.uniform(low, high))
        cv2.circle(canvas, (int(x * up + rng.integers(0, 2)), int(y * up + rng.integers(0, 2))), max(1, int(round(size * up / 2 * rng.uniform(0.6, 1.3)))), value, -1)
    alpha = cv2.resize(canvas, (leaf.width, leaf.height), interpolation=cv2.INTER_AREA)
    if soft > 0.3:
        alpha = cv2.GaussianBlur(alpha, (0, 0), soft)
    mix(leaf.light, alpha * leaf.mask, tint)


def add_natural_marks(rng, leaf):
    """Pale dots that belong to the leaf: weak, alike, all over it."""
    diameter = float(np.exp(rng.uniform(np.log(2.5), np.log(9))))
    cover = np.exp(rng.uniform(np.log(0.01), np.log(0.15)))
    count = int(np.clip(cover * leaf.mask.sum() / (0.785 * diameter * diameter), 20, 4000))
    strength = rng.uniform(0.04, 0.15)
    tint = np.float32([1.0, rng.uniform(0.9, 1.05), rng.uniform(0.3, 0.9)])
    target = np.clip(leaf.brightness(1.5)[..., None] * rng.uniform(1.05, 1.7) * tint, 0, 1)
    add_dots(rng, leaf, count, diameter, strength * 0.6, strength * 1.3, target, soft=diameter / 5)


def other_texture(rng, library, leaf):
    """The leaf's own fine texture made stronger or weaker, or another leaf's laid over it: leaves differ most in this."""
    sigma = leaf.long / rng.uniform(25, 120)

    def ratio_of(light, mask):
        weight = mask.astype(np.float32)
        low = cv2.GaussianBlur(light * weight[..., None], (0, 0), sigma) / (cv2.GaussianBlur(weight, (0, 0), sigma)[..., None] + 1e-3)
        return low, np.clip((light + 0.004) / (low + 0.004), 0.2, 5)

    if rng.random() < 0.6:
        low, ratio = ratio_of(leaf.light, leaf.mask)
        changed = (low + 0.004) * ratio ** np.float32(np.exp(rng.normal(0, 0.4))) - 0.004
        leaf.light += leaf.mask[..., None] * (np.clip(changed, 0, 1.2) - leaf.light)
    if rng.random() < 0.25:
        entry = library.sound[rng.integers(len(library.sound))]
        image, mask = library.read(entry["name"])
        deep = cv2.distanceTransform((mask > 127).astype(np.uint8), cv2.DIST_L2, 3)
        y, x = np.unravel_index(deep.argmax(), deep.shape)
        half = int(deep[y, x] * 0.68)
        if half < 24:
            return
        piece = image[y - half : y + half, x - half : x + half]
        native = max(cv2.boundingRect((mask > 127).astype(np.uint8))[2:])
        scale = float(np.clip(leaf.long / native * np.exp(rng.normal(0, 0.3)), 0.1, 2.5))
        piece = cv2.resize(piece, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC)
        light = linear(piece)
        _, ratio = ratio_of(light, np.ones(light.shape[:2], np.float32))
        ratio = np.rot90(ratio, rng.integers(4))
        h, w = ratio.shape[:2]
        if min(h, w) < 8:
            return
        tall, wide = -(-leaf.height // h), -(-leaf.width // w)
        both = np.vstack([np.hstack([ratio, ratio[:, ::-1]]), np.hstack([ratio[::-1], ratio[::-1, ::-1]])])
        both = np.tile(both, (tall // 2 + 1, wide // 2 + 1, 1))[: leaf.height, : leaf.width]
        changed = leaf.light * both ** np.float32(rng.uniform(0.4, 1.1))
        leaf.light += leaf.mask[..., None] * (np.clip(changed, 0, 1.2) - leaf.light)


def add_lookalikes(rng, leaf):
    if rng.random() < 0.2:
        add_natural_marks(rng, leaf)
    if rng.random() < 0.6:  # glints: the lamp's own white, from pin points to soft dots as wide as specks
        white = np.float32([1, 1, 1]) * rng.uniform(0.6, 1.1) * np.float32([1, 1, rng.uniform(0.93, 1.08)])
        size = float(np.exp(rng.uniform(np.log(0.8), np.log(7.0))))
        most = 2500 * min(1.0, (3.0 / size) ** 1.5)
        least = 20 if rng.random() < 0.6 else min(300, most / 2)  # on glossy leaves they are everywhere
        weakest = rng.uniform(0.05, 0.6)
        add_dots(rng, leaf, int(np.exp(rng.uniform(np.log(least), np.log(most)))), size, weakest, rng.uniform(weakest + 0.1, 1.0), white, soft=size * rng.uniform(0.0, 0.35))
    if rng.random() < 0.2:  # hairs
        canvas = np.zeros(leaf.mask.shape, np.float32)
        lean = rng.uniform(0, np.pi)
        for _ in range(rng.integers(20, 400)):
            x, y = leaf.point(rng)
            a, reach = lean + rng.normal(0, 0.5), leaf.long * rng.uniform(0.004, 0.025)
            cv2.line(canvas, (int(x), int(y)), (int(x + reach * np.cos(a)), int(y + reach * np.sin(a))), float(rng.uniform(0.2, 0.8)), 1, cv2.LINE_AA)
        mix(leaf.light, canvas * leaf.mask * rng.uniform(0.2, 0.7), np.float32([0.85, 0.85, 0.8]))
    if rng.random() < 0.25:  # dust and soil
        tone = np.float32([1, rng.uniform(0.85, 1), rng.uniform(0.7, 1)]) * rng.choice([0.03, 0.1, 0.3])
        add_dots(rng, leaf, rng.integers(10, 250), rng.uniform(1.5, 4), 0.15, 0.7, tone)
    if rng.random() < 0.3:  # faint natural mottling, weaker than any yellowing that is labelled
        field = noise_field(rng, leaf.height, leaf.width, leaf.long / rng.uniform(4, 60))
        tint = np.float32([rng.uniform(0.4, 1.0), rng.uniform(0.2, 0.6), rng.uniform(-0.6, 0.6)])
        leaf.light *= np.clip(1 + rng.uniform(0.02, 0.13) * field[..., None] * tint * leaf.mask[..., None], 0.3, 2)
    if rng.random() < 0.08:  # water drops
        for _ in range(rng.integers(1, 15)):
            x, y = leaf.point(rng)
            radius = int(max(3, leaf.long * rng.uniform(0.005, 0.02)))
            ring = np.zeros(leaf.mask.shape, np.float32)
            cv2.circle(ring, (int(x), int(y)), radius, 1.0, max(1, radius // 4), cv2.LINE_AA)
            mix(leaf.light, ring * leaf.mask * 0.4, leaf.light * rng.uniform(0.3, 0.7))
            shine = np.zeros(leaf.mask.shape, np.float32)
            cv2.circle(shine, (int(x - radius * 0.35), int(y - radius * 0.35)), max(1, radius // 4), 1.0, -1, cv2.LINE_AA)
            mix(leaf.light, shine * leaf.mask * 0.85, np.float32([1, 1, 1]))
    if rng.random() < 0.18:  # shadow bands with hard or soft edges
        gy, gx = np.mgrid[0 : leaf.height, 0 : leaf.width].astype(np.float32)
        angle = rng.uniform(0, np.pi)
        along = (gx * np.cos(angle) + gy * np.sin(angle)) / leaf.long
        band = step(np.abs(along - rng.uniform(0.2, 1.0) + 0.03 * noise_field(rng, leaf.height, leaf.width, leaf.long / 4)) - rng.uniform(0.03, 0.3), rng.uniform(0.005, 0.15))
        leaf.light *= (rng.uniform(0.25, 0.7) + (1 - rng.uniform(0.25, 0.7)) * band)[..., None].clip(0, 1.2)
    if rng.random() < 0.3:  # broad sheen: the leaf stays readable
        field = step(noise_field(rng, leaf.height, leaf.width, leaf.long / rng.uniform(3, 12)) - rng.uniform(0.3, 1.5), 1.5)
        mix(leaf.light, (field * leaf.mask * rng.uniform(0.05, 0.3)).astype(np.float32), np.float32([0.75, 0.85, 0.95]))


def add_glare(rng, leaf):
    """Blown-out light: nothing can be read under it."""
    for _ in range(rng.integers(1, 4)):
        x, y = leaf.point(rng)
        field, window = blob(rng, leaf, x, y, leaf.long * rng.uniform(0.015, 0.1), rng.uniform(0.1, 0.6), 3.0)
        if field is None:
            continue
        alpha = step(field, rng.uniform(0.2, 0.8)) * leaf.mask[window]
        mix(leaf.light[window], alpha * 0.99, np.float32([1.05, 1.05, 1.05]))
        leaf.label[window][alpha > 0.72] = UNASSESSED
    bad = leaf.label == UNASSESSED
    leaf.specks = [s for s in leaf.specks if not bad[min(max(int(s[1]), 0), leaf.height - 1), min(max(int(s[0]), 0), leaf.width - 1)]]


# --- the scene ----------------------------------------------------------------------------------------------------

def sheet_background(rng, height, width):
    """White, grey or bluish sheet with shading, creases and grain."""
    tone = rng.uniform(0.25, 0.95) * np.float32([1, rng.uniform(0.93, 1.03), rng.uniform(0.85, 1.15)])
    gy, gx = np.mgrid[0:height, 0:width].astype(np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    slope = (gx * np.cos(angle) / width + gy * np.sin(angle) / height) * rng.uniform(0, 0.5)
    shade = 1 + slope - slope.mean() + rng.uniform(0, 0.15) * noise_field(rng, height, width, max(height, width) / rng.uniform(1.5, 6))
    if rng.random() < 0.3:
        shade += rng.uniform(0.01, 0.06) * noise_field(rng, height, width, rng.uniform(1.2, 8))
    return np.clip(tone * shade[..., None], 0.01, 1.0).astype(np.float32)


def texture_background(rng, library, height, width):
    """A piece of another photo, leaves and all, blurred or sharp, recoloured."""
    image, _ = library.read(library.outlined[rng.integers(len(library.outlined))]["name"])
    h, w = image.shape[:2]
    cut = rng.uniform(0.3, 1.0)
    ch, cw = max(16, int(h * cut)), max(16, int(w * cut))
    y, x = rng.integers(0, h - ch + 1), rng.integers(0, w - cw + 1)
    piece = cv2.resize(image[y : y + ch, x : x + cw], (width, height), interpolation=cv2.INTER_AREA)
    if rng.random() < 0.5:
        piece = piece[:, ::-1]
    if rng.random() < 0.65:
        piece = cv2.GaussianBlur(np.ascontiguousarray(piece), (0, 0), max(height, width) * rng.uniform(0.002, 0.03))
    return linear(piece) * np.float32(rng.uniform(0.6, 1.3, 3)) * rng.uniform(0.5, 1.2)


def blob_background(rng, height, width):
    """Plain colour with coloured blobs: hands, cloth, pots, soil."""
    light = np.empty((height, width, 3), np.float32)
    light[:] = rng.uniform(0.01, 0.7, 3)
    skin = np.float32([0.45, 0.25, 0.16])
    for _ in range(rng.integers(1, 7)):
        colour = skin * rng.uniform(0.15, 1.5) if rng.random() < 0.4 else rng.uniform(0.01, 0.8, 3).astype(np.float32)
        field = noise_field(rng, height, width, max(height, width) / rng.uniform(1.5, 5))
        mix(light, step(field - rng.uniform(0, 1.5), rng.uniform(0.02, 0.5)).astype(np.float32), colour)
    light *= np.clip(1 + rng.uniform(0, 0.25) * noise_field(rng, height, width, rng.uniform(1.5, 20)), 0.3, 2)[..., None]
    return light


def recolour_leaf(rng, light, soft):
    """Another light on the leaf or another cultivar."""
    gain = np.float32(np.exp(rng.normal(0, 0.10, 3))) * np.float32(np.exp(rng.normal(0, 0.2)))
    changed = light * gain
    if rng.random() < 0.25:  # greener, yellower, bluer leaves
        grey = changed.mean(2, keepdims=True)
        changed = grey + (changed - grey) * rng.uniform(0.6, 1.5)
    if rng.random() < 0.08:  # red, gold and blue cultivars
        matrix = np.eye(3, dtype=np.float32) + rng.normal(0, 0.22, (3, 3)).astype(np.float32)
        changed = changed @ matrix.T
    if rng.random() < 0.3:
        changed = np.maximum(changed, 1e-4) ** np.float32(rng.uniform(0.8, 1.25))
    light += soft[..., None] * (np.clip(changed, 0.002, 1.2) - light)


def warp_matrix(rng, height, width, scale, turn=True):
    """Rotation, mirror, tilt and scale about the centre, and the size that holds the result."""
    angle = rng.uniform(0, 2 * np.pi) if turn else rng.normal(0, 0.15)
    c, s = np.cos(angle), np.sin(angle)
    squeeze = np.exp(rng.normal(0, 0.08))
    shear = rng.normal(0, 0.06)
    turned = np.array([[c, -s], [s, c]]) @ np.array([[squeeze, shear], [0, 1 / squeeze]]) * scale
    if rng.random() < 0.5:
        turned[:, 0] *= -1
    corners = turned @ np.array([[-width / 2, width / 2, width / 2, -width / 2], [-height / 2, -height / 2, height / 2, height / 2]])
    return turned, corners


def place(rng, image, mask, long, margin, turn=True):
    """Turns and scales a leaf photo so that the leaf's box has the given long side; cuts with a margin around the leaf."""
    box = cv2.boundingRect((mask > 127).astype(np.uint8))
    x, y, w, h = box
    centre = np.array([x + w / 2, y + h / 2])
    matrix, corners = warp_matrix(rng, h, w, 1.0, turn)
    # The turned leaf's true box, from its outline
    outline = max(cv2.findContours((mask > 127).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)[-2], key=len)[:, 0].astype(np.float64) - centre
    turned = outline @ matrix.T
    low, high = turned.min(0), turned.max(0)
    scale = long / max(high - low)
    matrix = matrix * scale
    low, high = low * scale, high * scale
    size = high - low
    before, after = size * rng.uniform(0.3, 1.0, 2) * margin + 3, size * rng.uniform(0.3, 1.0, 2) * margin + 3
    out_w, out_h = np.maximum((size + before + after).astype(int), 48)
    offset = before - low - matrix @ centre
    full = np.hstack([matrix, offset[:, None]])
    way = cv2.INTER_AREA if scale < 0.6 else cv2.INTER_LINEAR if scale < 1.2 else cv2.INTER_CUBIC
    if scale < 0.55:  # warpAffine does not average: shrink first
        shrink = max(scale * 1.2, 0.02)
        image = cv2.resize(image, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
        mask = cv2.resize(mask, image.shape[1::-1], interpolation=cv2.INTER_AREA)
        full = full @ np.diag([1 / shrink, 1 / shrink, 1])
        way = cv2.INTER_LINEAR
    photo = cv2.warpAffine(image, full, (int(out_w), int(out_h)), flags=way if way != cv2.INTER_AREA else cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
    shape = cv2.warpAffine(mask, full, (int(out_w), int(out_h)), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT)
    return photo, shape


def cast_shadow(rng, background, mask, long):
    shift = rng.uniform(0, 0.08) * long
    angle = rng.uniform(0, 2 * np.pi)
    move = np.float32([[1, 0, shift * np.cos(angle)], [0, 1, shift * np.sin(angle)]])
    shadow = cv2.warpAffine(mask.astype(np.float32), move, mask.shape[::-1])
    shadow = cv2.GaussianBlur(shadow, (0, 0), max(0.6, long * rng.choice([0.002, 0.01, 0.03])))
    background *= (1 - rng.uniform(0.1, 0.85) * shadow)[..., None]


def feather(mask, sigma):
    return cv2.GaussianBlur(mask.astype(np.float32), (0, 0), sigma)


def camera(rng, light, rough=False):
    """Exposure, white balance, lens blur, sensor noise, sharpening, JPEG. Gives uint8 sRGB."""
    height, width = light.shape[:2]
    light = light * (np.float32(np.exp(rng.normal(0, 0.06, 3))) * np.float32(np.exp(rng.normal(0, 0.18))))
    if rng.random() < 0.4:
        gy, gx = np.mgrid[0:height, 0:width].astype(np.float32)
        slope = (gx / width - 0.5) * rng.normal(0, 0.25) + (gy / height - 0.5) * rng.normal(0, 0.25)
        light = light * (1 + slope)[..., None]
    blur = rng.uniform(0.35, 1.25) if not rough else rng.uniform(0.3, 2.0)
    light = cv2.GaussianBlur(light, (0, 0), blur)
    if rng.random() < 0.8:
        shot, read = rng.uniform(0.0, 0.012), rng.uniform(0.0, 0.006)
        grain = rng.standard_normal(light.shape, dtype=np.float32)
        if rng.random() < 0.5:
            grain = cv2.GaussianBlur(grain, (0, 0), 0.6) * 1.6
        light = light + grain * np.sqrt(shot * shot * np.clip(light, 0, 1) + read * read)
    picture = srgb(light)
    if rng.random() < 0.3:
        picture = 255 * np.clip(picture / 255, 0, 1) ** np.float32(rng.uniform(0.85, 1.18))
    if rng.random() < 0.35:
        picture = picture + rng.uniform(0.2, 1.2) * (picture - cv2.GaussianBlur(picture, (0, 0), rng.uniform(0.7, 1.8)))
    picture = np.clip(picture + 0.5, 0, 255).astype(np.uint8)
    if rng.random() < 0.9:
        quality = int(rng.integers(60, 98))
        picture = cv2.imdecode(cv2.imencode(".jpg", picture[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, quality])[1], 1)[..., ::-1]
    return np.ascontiguousarray(picture)


def leaf_prior(rng, mask):
    """What the outline network may hand over: soft, coarse, somewhat wrong. uint8, 255 = surely this leaf."""
    height, width = mask.shape
    small = max(24, int(rng.uniform(60, 260)))
    scale = min(1.0, small / max(height, width))
    prior = cv2.resize(mask.astype(np.float32), None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    if rng.random() < 0.6:
        outline = cv2.findContours((prior > 0.5).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)[-2]
        filled = np.zeros(prior.shape, np.uint8)
        cv2.drawContours(filled, outline, -1, 1, -1)
        prior = filled.astype(np.float32)
    shift = noise_field(rng, *prior.shape, max(prior.shape) / rng.uniform(3, 15)) * rng.uniform(0, 0.35) + rng.normal(0, 0.15)
    prior = cv2.GaussianBlur(prior, (0, 0), rng.uniform(0.7, 2.5)) - 0.5
    prior = step(prior + shift * 0.5, rng.uniform(0.3, 1.5))
    return (cv2.resize(prior.astype(np.float32), (width, height), interpolation=cv2.INTER_LINEAR).clip(0, 1) * 255).astype(np.uint8)


def behind(rng, library, photo, mask, long):
    """What stands behind the leaf, with the leaf's own shadow on it; None keeps the photo's own background."""
    height, width = mask.shape
    way = rng.random()
    if way < 0.42:
        light = sheet_background(rng, height, width)
    elif way < 0.6:
        light = texture_background(rng, library, height, width)
    elif way < 0.68:
        light = blob_background(rng, height, width)
    else:
        return None
    if rng.random() < 0.8:
        cast_shadow(rng, light, mask, long)
    return light


def damage_plan(rng):
    """How much of what. A third of the leaves has no specks, a sixth has nothing at all."""
    if rng.random() < 0.16:
        return dict(specks=0, yellow=0, brown=0, chew=False, glare=False)
    return dict(
        specks=0 if rng.random() < 0.22 else 1,
        yellow=int(rng.choice([0, 1, 2], p=[0.5, 0.38, 0.12])),
        brown=int(rng.choice([0, 1, 2], p=[0.52, 0.38, 0.1])),
        chew=rng.random() < 0.45,
        glare=rng.random() < 0.12,
    )


def speck_settings(rng, leaf, smallest=3.0):
    """Diameter in pixels, how many, how strong. From a few to merged fields."""
    diameter = float(np.exp(rng.uniform(np.log(smallest), np.log(13.0)))) if rng.random() < 0.92 else rng.uniform(12.0, 20.0)
    area = float(leaf.mask.sum())
    cover = float(np.exp(rng.uniform(np.log(0.001), np.log(0.55))))
    count = int(np.clip(cover * area / (0.785 * diameter * diameter * 1.15), 3, 5000))
    return count, diameter, rng.uniform(0.2, 0.9), rng.uniform(0.03, 0.12)


def tissue_scene(library, seed, also=None, sizes=None):
    """One painted leaf at working scale. Dictionary of rgb, label, prior, whole (uint8 images), specks (x, y, diameter, strength) and leaf.

    `also` may paint further marks of the leaf's own before any damage; it is given the Leaf. `sizes` may stand in for speck_settings.
    """
    rng = np.random.default_rng(seed)
    if library.macro and rng.random() < 0.06:
        return macro_scene(library, rng)
    kinds = {"cutout": 0.56, "chilli": 0.24, "bean": 0.14, "citrus": 0.06}
    chance = np.array([kinds[e["kind"]] / sum(o["kind"] == e["kind"] for o in library.sound) for e in library.sound])
    entry = library.sound[rng.choice(len(library.sound), p=chance / chance.sum())]
    image, mask = library.read(entry["name"])
    native = max(cv2.boundingRect((mask > 127).astype(np.uint8))[2:])
    if entry["kind"] in ("cutout", "chilli"):
        long = min(np.exp(rng.uniform(np.log(420), np.log(2000))), native * 1.1)
    else:
        long = native * rng.uniform(0.9, 2.4)
    photo, soft = place(rng, image, mask, long, rng.uniform(0.05, 0.3))
    hard = (soft > 127).astype(np.uint8)
    if hard.sum() < 400:
        return tissue_scene(library, seed + 7919, also, sizes)
    light = linear(photo)
    soft = feather(hard, 0.8)
    if rng.random() < 0.75:
        recolour_leaf(rng, light, soft)
    background = behind(rng, library, photo, hard, long)
    if background is None and rng.random() < 0.3:  # the leaf stays, the world behind changes its light
        light += (1 - soft)[..., None] * (light * np.float32(rng.uniform(0.5, 1.4, 3)) - light)
    own = light if background is None else background
    leaf = Leaf(light, hard)
    other_texture(rng, library, leaf)
    if also is not None:
        also(leaf)
    plan = damage_plan(rng)
    coarse = rng.random() < 0.22  # a small photo enlarged: everything soft
    for _ in range(plan["yellow"]):
        paint_yellow(rng, leaf)
    for _ in range(plan["brown"]):
        paint_brown(rng, leaf)
    lookalikes_first = rng.random() < 0.4
    if lookalikes_first:
        add_lookalikes(rng, leaf)
    if plan["specks"]:
        for _ in range(1 if rng.random() < 0.8 else 2):
            count, diameter, strength, spread = (sizes or speck_settings)(rng, leaf, 4.5 if coarse else 3.0)
            paint_specks(rng, leaf, count, diameter, strength, spread)
    if not lookalikes_first:
        add_lookalikes(rng, leaf)
    whole = leaf.mask.copy()
    if plan["chew"]:
        if background is None:
            fill = cv2.resize(cv2.GaussianBlur(own, (0, 0), 3), (leaf.width, leaf.height))
            # The photo's own surroundings, mirrored over the leaf: soil or foliage shows through the bites
            outside = np.argwhere(leaf.mask == 0)
            colour = fill[tuple(outside[rng.integers(len(outside))])] if len(outside) else np.float32([0.3, 0.3, 0.3])
            through = np.clip(colour * (1 + 0.15 * noise_field(rng, leaf.height, leaf.width, leaf.long / 20))[..., None], 0, 1) * rng.uniform(0.5, 1.2)
        else:
            through = background
        chew(rng, leaf, through.astype(np.float32))
    if plan["glare"]:
        add_glare(rng, leaf)
    if background is not None:
        inside = feather(hard, rng.uniform(0.5, 1.1))[..., None]
        light = background * (1 - inside) + leaf.light * inside
    else:
        light = leaf.light
    picture, label, specks = light, leaf.label, leaf.specks
    if coarse:
        picture = enlarge_small(rng, picture)
    else:
        picture = camera(rng, picture)
    blown = (picture.min(2) > 245) & (label > SOUND) & (label < UNASSESSED)
    if blown.any():  # damage that the exposure wiped out
        label[blown] = IGNORE
        specks = [s for s in specks if not blown[min(max(int(s[1]), 0), label.shape[0] - 1), min(max(int(s[0]), 0), label.shape[1] - 1)]]
    return dict(rgb=picture, label=label, prior=leaf_prior(rng, whole), specks=specks, whole=whole, leaf=entry["name"])


def enlarge_small(rng, light):
    """The scene shot at a fraction of the working scale, stored, and enlarged again."""
    height, width = light.shape[:2]
    shrink = rng.uniform(0.35, 0.75)
    small = cv2.resize(light, (max(24, int(width * shrink)), max(24, int(height * shrink))), interpolation=cv2.INTER_AREA)
    small = camera(rng, small)
    return cv2.resize(small, (width, height), interpolation=cv2.INTER_CUBIC if rng.random() < 0.5 else cv2.INTER_LINEAR)


def macro_scene(library, rng):
    """Leaf surface from close by, no outline in view: veins, hairs and glints that are sound, real lesions that are brown."""
    image, marks = library.read(library.macro[rng.integers(len(library.macro))]["name"])
    scale = rng.uniform(0.4, 1.0)
    image = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    marks = cv2.resize(marks, image.shape[1::-1], interpolation=cv2.INTER_NEAREST)
    light = linear(image)
    ones = np.ones(marks.shape, np.uint8)
    recolour_leaf(rng, light, ones.astype(np.float32))
    leaf = Leaf(light, ones)
    lesion = (marks < 200).astype(np.uint8)
    leaf.label[lesion > 0] = BROWNED
    if lesion.any():  # two of three experts agree inside; just outside they often do not
        band = cv2.dilate(lesion, np.ones((9, 9), np.uint8)) - cv2.erode(lesion, np.ones((7, 7), np.uint8))
        leaf.label[band > 0] = IGNORE
    if rng.random() < 0.6:
        count, diameter, strength, spread = speck_settings(rng, leaf)
        paint_specks(rng, leaf, min(count, 2500), diameter, max(strength, 0.35), spread)
    if rng.random() < 0.3:
        paint_yellow(rng, leaf)
    picture = camera(rng, leaf.light)
    prior = np.full(marks.shape, 255, np.uint8)
    return dict(rgb=picture, label=leaf.label, prior=prior, specks=leaf.specks)


def render_scene(folder, name, longest=1600):
    """A scene made by another program in the implants' format (NAME.jpg, NAME.truth.png, NAME.truth.json)."""
    folder = Path(folder)
    picture = cv2.cvtColor(cv2.imread(str(folder / f"{name}.jpg")), cv2.COLOR_BGR2RGB)
    truth = cv2.imread(str(folder / f"{name}.truth.png"), 0)
    about = json.loads((folder / f"{name}.truth.json").read_text())
    whole = (truth > 0).astype(np.uint8)
    label = truth.copy()
    label[truth == 5] = BACKGROUND
    label[truth == 6] = UNASSESSED
    specks = about.get("specks", [])
    x, y, w, h = cv2.boundingRect(whole)
    pad = int(0.12 * max(w, h)) + 4
    x0, y0, x1, y1 = max(0, x - pad), max(0, y - pad), min(truth.shape[1], x + w + pad), min(truth.shape[0], y + h + pad)
    scale = min(1.0, longest / max(w, h))
    picture, label, whole = picture[y0:y1, x0:x1], label[y0:y1, x0:x1], whole[y0:y1, x0:x1]
    if scale < 1:
        size = (int(picture.shape[1] * scale), int(picture.shape[0] * scale))
        picture = cv2.resize(picture, size, interpolation=cv2.INTER_AREA)
        label, whole = cv2.resize(label, size, interpolation=cv2.INTER_NEAREST), cv2.resize(whole, size, interpolation=cv2.INTER_NEAREST)
    specks = [((s[0] - x0) * scale, (s[1] - y0) * scale, s[2] * scale, s[3] if len(s) > 3 else 0.5) for s in specks]
    return dict(rgb=np.ascontiguousarray(picture), label=label, prior=leaf_prior(np.random.default_rng(abs(hash(name)) % 2**32), whole), specks=specks)


def speck_maps(height, width, specks):
    """Centre map (255 at the centre pixel, falling off around it) and diameter map (diameter / 40 * 255 near the centre)."""
    heat = np.zeros((height, width), np.uint8)
    size = np.zeros((height, width), np.uint8)
    centres = []
    for x, y, d, _ in sorted(specks, key=lambda s: -s[2]):
        cx, cy = int(round(x)), int(round(y))
        if not (0 <= cx < width and 0 <= cy < height):
            continue
        sigma = min(max(d / 6.0, 0.8), 2.2)
        reach = int(3 * sigma) + 1
        x0, x1, y0, y1 = max(0, cx - reach), min(width, cx + reach + 1), max(0, cy - reach), min(height, cy + reach + 1)
        gx = np.arange(x0, x1) - cx
        gy = (np.arange(y0, y1) - cy)[:, None]
        bump = (250 * np.exp(-(gx * gx + gy * gy) / (2 * sigma * sigma))).astype(np.uint8)
        np.maximum(heat[y0:y1, x0:x1], bump, out=heat[y0:y1, x0:x1])
        near = max(1, int(d / 3))
        size[max(0, cy - near) : cy + near + 1, max(0, cx - near) : cx + near + 1] = min(255, max(1, round(d / 40 * 255)))
        centres.append((cy, cx))
    for cy, cx in centres:
        heat[cy, cx] = 255
    return heat, size


def crops_of(scene, rng, side, limit=6):
    """Cuts square training pieces: mostly where something is, some at random on the leaf, some at its edge."""
    rgb, label, prior = scene["rgb"], scene["label"], scene["prior"]
    height, width = label.shape
    heat, size = speck_maps(height, width, scene["specks"])
    stack = np.dstack([rgb, label, prior, heat, size])
    if height < side or width < side:
        below, right = max(0, side - height), max(0, side - width)
        stack = cv2.copyMakeBorder(stack[..., :3], 0, below, 0, right, cv2.BORDER_REPLICATE), stack[..., 3:]
        rest = np.zeros((max(height, side), max(width, side), 4), np.uint8)
        rest[:height, :width] = stack[1]
        rest[height:, :, 0] = IGNORE
        rest[:, width:, 0] = IGNORE
        stack = np.dstack([stack[0], rest])
        height, width = stack.shape[:2]
    wanted = int(np.clip(round(1.3 * height * width / (side * side)), 1, limit))
    damaged = np.argwhere((label >= 2) & (label <= 5))
    leaf = np.argwhere(label == 1)
    pieces = []
    for _ in range(wanted):
        pool = damaged if len(damaged) and rng.random() < 0.55 else leaf
        if len(pool) and rng.random() < 0.88:
            y, x = pool[rng.integers(len(pool))] + rng.integers(-side // 3, side // 3 + 1, 2)
        else:
            y, x = rng.integers(0, height), rng.integers(0, width)
        y, x = int(np.clip(y - side // 2, 0, height - side)), int(np.clip(x - side // 2, 0, width - side))
        pieces.append(stack[y : y + side, x : x + side])
    return np.stack(pieces)


# --- scenes for the outline network -----------------------------------------------------------------------------------

def outline_scene(library, seed, side=512):
    """A whole small photo with one to three leaves to be found. uint8 stack of rgb, leaf (0, 1, 255 = outside), margin (0, 1)."""
    rng = np.random.default_rng(seed)
    aspect = rng.choice([1.0, 4 / 3, 3 / 4, 3 / 2, 2 / 3, 16 / 9, 9 / 16, rng.uniform(0.5, 2.0)])
    width, height = (side, int(side / aspect)) if aspect >= 1 else (int(side * aspect), side)
    field = rng.random() < 0.6
    entry = library.outlined[rng.integers(len(library.outlined))]
    if rng.random() < 0.6:  # the cut-outs' outlines are the best
        good = [e for e in library.outlined if e["kind"] in ("cutout", "chilli")]
        entry = good[rng.integers(len(good))]
    leaf_map = np.zeros((height, width), np.uint8)
    margin = np.zeros((height, width), np.uint8)
    if field:  # the photo as it is, cut and turned a little
        image, mask = library.read(entry["name"])
        light, leaf_map = field_view(rng, image, mask, height, width)
        light = linear(light)
        found = (leaf_map == 1).astype(np.uint8)
        shapes = [found]
        if rng.random() < 0.5:
            recolour_leaf(rng, light, feather(found, 0.8))
        if rng.random() < 0.5:
            light *= np.float32(np.exp(rng.normal(0, 0.15, 3)))
        if found.sum() > 200 and rng.random() < 0.6:
            damage_small(rng, light, found)
    else:
        way = rng.random()
        light = sheet_background(rng, height, width) if way < 0.6 else texture_background(rng, library, height, width) if way < 0.9 else blob_background(rng, height, width)
        shapes = []
        sharp_others = 0
        if way >= 0.6 and rng.random() < 0.5:
            sharp_others = rng.integers(1, 4)
        count = 1 if way >= 0.6 or rng.random() < 0.65 else rng.integers(2, 4)
        for k in range(sharp_others + count):
            other = k < sharp_others
            entry = library.outlined[rng.integers(len(library.outlined))]
            image, mask = library.read(entry["name"])
            long = side * (rng.uniform(0.25, 0.6) if other or count > 1 else np.exp(rng.uniform(np.log(0.25), np.log(1.05))))
            photo, soft = place(rng, image, mask, long, 0.02)
            hard = (soft > 127).astype(np.uint8)
            h, w = hard.shape
            cx, cy = (rng.uniform(0, width), rng.uniform(0, height)) if other else (rng.uniform(0.3, 0.7) * width, rng.uniform(0.3, 0.7) * height)
            if not other and count > 1:
                cx, cy = rng.uniform(0.15, 0.85) * width, rng.uniform(0.15, 0.85) * height
            x0, y0 = int(cx - w / 2), int(cy - h / 2)
            sx, sy, ex, ey = max(0, x0), max(0, y0), min(width, x0 + w), min(height, y0 + h)
            if ex - sx < 20 or ey - sy < 20:
                continue
            part = linear(photo[sy - y0 : ey - y0, sx - x0 : ex - x0])
            shape = hard[sy - y0 : ey - y0, sx - x0 : ex - x0]
            soft_part = feather(shape, 0.8)
            if rng.random() < 0.7:
                recolour_leaf(rng, part, soft_part)
            area = (slice(sy, ey), slice(sx, ex))
            whole = np.zeros((height, width), np.uint8)
            whole[area] = shape
            gone = None
            if shape.sum() > 400 and not other and rng.random() < 0.6:
                gone = damage_small(rng, part, shape, light[area].copy())
            if rng.random() < 0.75:
                cast_shadow(rng, light, whole, long)
            if gone is not None:  # through a bite one sees the sheet with the shadow on it
                soft_part = soft_part * (1 - gone)
                whole[area][gone > 0.5] = 0
            light[area] += soft_part[..., None] * (part - light[area])
            if other:
                if rng.random() < 0.6:
                    light = cv2.GaussianBlur(light, (0, 0), rng.uniform(0.8, 4))
                continue
            leaf_map[whole > 0] = 1
            for k2, earlier in enumerate(shapes):
                shapes[k2] = earlier * (1 - whole)
            shapes.append(whole)
    for shape in shapes:
        edge = shape - cv2.erode(shape, np.ones((3, 3), np.uint8), borderType=cv2.BORDER_CONSTANT, borderValue=0)
        margin |= edge
    if rng.random() < 0.15:  # hard shadow over everything
        shade = step(noise_field(rng, height, width, side / rng.uniform(1, 4)) - rng.uniform(0, 1), 0.05)
        light *= (rng.uniform(0.25, 0.7) + (1 - rng.uniform(0.25, 0.7)) * shade)[..., None].clip(0, 1.2)
    picture = camera(rng, light.astype(np.float32), rough=True)
    return padded(np.dstack([picture, leaf_map, margin]), side)


def outline_render(folder, name, seed, side=512):
    """The same from one of our rendered photos, framed anew and in another light."""
    rng = np.random.default_rng(seed)
    aspect = rng.choice([1.0, 4 / 3, 3 / 4, 3 / 2, 2 / 3, rng.uniform(0.5, 2.0)])
    width, height = (side, int(side / aspect)) if aspect >= 1 else (int(side * aspect), side)
    image = np.ascontiguousarray(cv2.imread(f"{folder}/{name}.jpg")[..., ::-1])
    truth = cv2.imread(f"{folder}/{name}.truth.png", cv2.IMREAD_GRAYSCALE)
    photo, leaf_map = field_view(rng, image, ((truth > 0) & (truth != 5)).astype(np.uint8) * 255, height, width)
    light = linear(photo) * np.float32(np.exp(rng.normal(0, 0.12, 3)))
    found = (leaf_map == 1).astype(np.uint8)
    if rng.random() < 0.4:
        recolour_leaf(rng, light, feather(found, 0.8))
    margin = found - cv2.erode(found, np.ones((3, 3), np.uint8), borderType=cv2.BORDER_CONSTANT, borderValue=0)
    picture = camera(rng, light.astype(np.float32), rough=True)
    return padded(np.dstack([picture, leaf_map, margin]), side)


def padded(stack, side):
    """A square piece; what lies outside the photo is not to be learned from."""
    height, width = stack.shape[:2]
    if height >= side and width >= side:
        return stack
    square = np.zeros((side, side, 5), np.uint8)
    square[..., :3] = cv2.copyMakeBorder(stack[..., :3], 0, side - height, 0, side - width, cv2.BORDER_REPLICATE)
    square[..., 3] = IGNORE
    square[:height, :width, 3:] = stack[..., 3:]
    return square


def field_view(rng, image, mask, height, width):
    """A window of a field photo in which the leaf takes 20 to 100 % of the long side; also mirrored and tilted."""
    x, y, w, h = cv2.boundingRect((mask > 127).astype(np.uint8))
    fit = min(width / image.shape[1], height / image.shape[0])
    cover = max(width / image.shape[1], height / image.shape[0])
    scale = rng.uniform(fit, cover) * np.exp(rng.uniform(-0.05, 0.35))
    turn = rng.normal(0, 0.25) + (rng.integers(0, 4) * np.pi / 2 if rng.random() < 0.5 else 0)
    c, s = np.cos(turn), np.sin(turn)
    matrix = np.array([[c, -s], [s, c]]) * scale
    if rng.random() < 0.5:
        matrix[:, 0] *= -1
    centre = np.array([x + w / 2, y + h / 2])
    aim = np.array([width, height]) * rng.uniform(0.4, 0.6, 2)
    if rng.random() < 0.4:  # as framed by the photographer
        centre, aim = np.array([image.shape[1] / 2, image.shape[0] / 2]), np.array([width / 2, height / 2])
    offset = aim - matrix @ centre
    full = np.hstack([matrix, offset[:, None]])
    if scale < 0.8:
        image = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        mask = cv2.resize(mask, image.shape[1::-1], interpolation=cv2.INTER_AREA)
        full = full @ np.diag([1 / scale, 1 / scale, 1])
    # The border mirrors the photo; a mirrored leaf is a leaf too, so the mask is mirrored with it.
    photo = cv2.warpAffine(image, full, (width, height), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101)
    shape = cv2.warpAffine(mask, full, (width, height), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101)
    shape = (shape > 127).astype(np.uint8)
    count, parts, stats, _ = cv2.connectedComponentsWithStats(shape)
    if count > 2:  # mirrored pieces of the leaf at the border are neither leaf nor background
        shape[(parts > 0) & (parts != 1 + stats[1:, cv2.CC_STAT_AREA].argmax())] = IGNORE
    return photo, shape


def damage_small(rng, light, mask, background=None):
    """Coarse damage for the outline net: what matters is that a spotted, yellow or bitten leaf is still found."""
    leaf = Leaf(light, mask)
    if rng.random() < 0.5:
        paint_yellow(rng, leaf)
    if rng.random() < 0.5:
        paint_brown(rng, leaf)
    if rng.random() < 0.4:
        count = int(np.clip(mask.sum() * rng.uniform(0.002, 0.05), 5, 600))
        paint_specks(rng, leaf, count, rng.uniform(1.6, 3.5), rng.uniform(0.3, 0.9), 0.08)
    if rng.random() < 0.3:
        add_dots(rng, leaf, rng.integers(20, 300), 1.0, 0.2, 0.9, np.float32([1, 1, 1]))
    if rng.random() < 0.2:
        add_glare(rng, leaf)
    if background is not None and rng.random() < 0.6:
        hidden = chew(rng, leaf, leaf.light.copy())
        return cv2.GaussianBlur(hidden.astype(np.float32), (0, 0), 0.6)
    return None

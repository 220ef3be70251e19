"""The same measure as LeafScan's, scripted with scikit-image as a careful person would in an afternoon: leaf outline, what was
chewed away (holes, and bites at the margin), sound colour, pale specks, yellow and brown area of one leaf on a plain sheet.
`leafscan bench` runs it beside the program, so that speed and accuracy are compared together.

    python3 tests/reference/leaf_script.py PHOTO...

Standard output gets one JSON line a photo: seconds from the file on, shares of the leaf, number of specks.
Debian package: python3-skimage. Method: Otsu's threshold of Lab chroma for the leaf (Otsu 1979); deviation of L*, a* and b*
from a Gaussian mean over the leaf; specks by Laplacian of Gaussian at five sizes (Lindeberg 1998); the margin as it was by the
convex hull, less what is too shallow for a bite; holes are where the sheet's own colour shows inside the leaf.
Shares are of the leaf as it was before it was chewed, damage is of what is left of it, as in LeafScan.
"""
import json
import sys
import time

import numpy as np
from scipy import ndimage
from skimage import color, feature, filters, io, measure, morphology


def largest(mask):
    labels = measure.label(mask)
    if labels.max() == 0:
        return mask
    sizes = np.bincount(labels.ravel())
    sizes[0] = 0
    return labels == sizes.argmax()


def mean_over(values, mask, sigma):
    weight = ndimage.gaussian_filter(mask.astype(np.float32), sigma)
    return ndimage.gaussian_filter(np.where(mask, values, 0).astype(np.float32), sigma) / np.maximum(weight, 1e-4)


def opened(mask, radius):
    # A wide disc as a kernel would take minutes; distances give the same shape.
    inner = ndimage.distance_transform_edt(np.pad(mask, 1))[1:-1, 1:-1] > radius
    return (ndimage.distance_transform_edt(~inner) <= radius) & mask if inner.any() else inner


def missing(leaf, lab, unit):
    """What was there before: holes in which the sheet shows, and bites, which are deeper than teeth."""
    whole = ndimage.binary_fill_holes(leaf)
    ring = ndimage.binary_dilation(whole, iterations=int(12 * unit)) & ~ndimage.binary_dilation(whole, iterations=int(4 * unit))
    paper = [np.median(lab[..., i][ring]) for i in range(3)]
    like_paper = np.sqrt(sum((lab[..., i] - paper[i]) ** 2 for i in range(3))) < 15
    holes = morphology.remove_small_objects(whole & like_paper & ~leaf, int(30 * unit * unit) + 1)
    return holes, opened(morphology.convex_hull_image(whole) & ~whole, 0.015 * max(leaf.shape))


def read(path):
    picture = io.imread(path)[..., :3]
    long_side = max(picture.shape[:2])
    # One unit is a pixel of a photo of 1600 pixels, so that sizes in millimetres stay about the same.
    unit = long_side / 1600
    lab = color.rgb2lab(picture).astype(np.float32)
    chroma = np.hypot(lab[..., 1], lab[..., 2])
    smooth = filters.gaussian(chroma, 1.5 * unit)
    leaf = largest(smooth > filters.threshold_otsu(smooth))
    leaf = largest(morphology.binary_opening(leaf, morphology.disk(max(1, int(2 * unit)))))
    area = int(leaf.sum())
    if area == 0:
        return dict(stippled=0.0, yellowed=0.0, browned=0.0, chewed=0.0, damage=0.0, specks=0)

    rows, columns = np.where(leaf)
    room = int(16 * unit)
    part = (slice(max(0, rows.min() - room), rows.max() + room + 1), slice(max(0, columns.min() - room), columns.max() + room + 1))
    lab, leaf = lab[part], leaf[part]
    holes, bites = missing(leaf, lab, unit)
    leaf = ndimage.binary_fill_holes(leaf) & ~holes
    sound = [np.median(lab[..., i][leaf]) for i in range(3)]
    brown = leaf & (lab[..., 1] > max(2.0, sound[1] + 12)) & (lab[..., 0] < sound[0] + 12)
    brown = morphology.remove_small_objects(brown, int(30 * unit * unit) + 1)
    around = mean_over(lab[..., 0], leaf, 14 * unit)
    lighter = np.where(leaf & ~brown, lab[..., 0] - around, 0)
    redder = np.where(leaf & ~brown, lab[..., 1] - mean_over(lab[..., 1], leaf, 14 * unit), 0)
    pale = np.clip(lighter, 0, None) * (redder > -1)
    spots = feature.blob_log(pale / 40, min_sigma=1.0 * unit, max_sigma=4.5 * unit, num_sigma=5, threshold=0.06, overlap=0.5)
    noise = 1.4826 * np.median(np.abs(lighter[leaf]))
    stippled = (pale > max(6.0, 4 * noise)) & leaf
    wide = [mean_over(lab[..., i], leaf, 6 * unit) for i in range(3)]
    yellow = leaf & ~brown & ~stippled & (wide[0] > sound[0] + 8) & (wide[2] > sound[2] + 6)
    before = leaf.sum() + holes.sum() + bites.sum()
    share = lambda mask: float(mask.sum() / before)
    shares = dict(stippled=share(stippled), yellowed=share(yellow), browned=share(brown))
    chewed = share(holes) + share(bites)
    return dict(shares, chewed=chewed, damage=sum(shares.values()) / (1 - chewed), specks=len(spots))


for name in sys.argv[1:]:
    start = time.perf_counter()
    found = read(name)
    print(json.dumps(dict(file=name, seconds=round(time.perf_counter() - start, 3), **found)), flush=True)

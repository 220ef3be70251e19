"""Pieces of rendered twigs and whole plants for train_foliage.py.

A folder holds NAME.jpg and NAME.truth.png (codes as in paint.py) and, for plants, NAME.full.png (255 where foliage was
before anything fell), as `leafscan-training render twigs` and `render plants` write them.
"""
import cv2
import numpy as np

import paint

TWIG_CLASSES = ("background", "sound", "speck", "yellowed", "browned")
PLANT_CLASSES = ("background", "sound", "yellowed", "browned")
TWIG_LONG_SIDE = 1600
PLANT_SIZE = (1024, 768)  # what the network is shown, width and height


def read(folder, name):
    image = cv2.cvtColor(cv2.imread(f"{folder}/{name}.jpg"), cv2.COLOR_BGR2RGB)
    return image, cv2.imread(f"{folder}/{name}.truth.png", cv2.IMREAD_GRAYSCALE)


def other_surroundings(rng, library, image, foliage):
    """A real photo instead of what was drawn around the foliage: what is around real plants was never drawn by us."""
    entry = library.entries[int(rng.integers(len(library.entries)))]
    photo, _ = library.read(entry["name"])
    height, width = image.shape[:2]
    # A part of the photo, so that its texture comes at many sizes.
    share = rng.uniform(0.35, 1)
    h, w = int(photo.shape[0] * share), int(photo.shape[1] * share)
    y, x = int(rng.integers(photo.shape[0] - h + 1)), int(rng.integers(photo.shape[1] - w + 1))
    back = cv2.resize(photo[y : y + h, x : x + w], (width, height), interpolation=cv2.INTER_AREA)
    if rng.random() < 0.6:
        back = cv2.GaussianBlur(back, (0, 0), rng.uniform(1, 9) * width / 1600)
    soft = cv2.GaussianBlur((foliage > 0).astype(np.float32), (0, 0), 0.8)[..., None]
    return np.clip(image * soft + back * (1 - soft), 0, 255).astype(np.uint8)


def camera_again(rng, image):
    """Now and then packed once more, as messengers do."""
    if rng.random() < 0.4:
        _, packed = cv2.imencode(".jpg", image, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(45, 92))])
        return cv2.imdecode(packed, cv2.IMREAD_COLOR)
    return image


def twig_pieces(library, folder, name, rng, side, limit):
    """`limit` square pieces, most of them with foliage: red, green, blue, class."""
    image, label = read(folder, name)
    if rng.random() < 0.2:
        image = other_surroundings(rng, library, image, label)
    scale = TWIG_LONG_SIDE / max(image.shape[:2]) * np.exp(rng.uniform(np.log(0.7), np.log(1.35)))
    image = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC)
    label = cv2.resize(label, image.shape[1::-1], interpolation=cv2.INTER_NEAREST)
    image = camera_again(rng, image)
    stack = np.dstack([image, label])
    short = [max(0, side - n) for n in stack.shape[:2]]
    if any(short):
        stack = cv2.copyMakeBorder(stack, 0, short[0], 0, short[1], cv2.BORDER_CONSTANT, value=(0, 0, 0, paint.IGNORE))
    ys, xs = np.nonzero(stack[..., 3] % paint.IGNORE)
    pieces = []
    for k in range(limit):
        if len(ys) and rng.random() < 0.75:
            at = int(rng.integers(len(ys)))
            y, x = ys[at] - int(rng.integers(side)), xs[at] - int(rng.integers(side))
        else:
            y, x = int(rng.integers(stack.shape[0] - side + 1)), int(rng.integers(stack.shape[1] - side + 1))
        y, x = int(np.clip(y, 0, stack.shape[0] - side)), int(np.clip(x, 0, stack.shape[1] - side))
        pieces.append(stack[y : y + side, x : x + side])
    return np.stack(pieces)


def plant_view(folder, name):
    """Photo and shares of each pixel at the network's size: sound, yellowed, browned, full outline; bytes of 0..255."""
    image, label = read(folder, name)
    full = cv2.imread(f"{folder}/{name}.full.png", cv2.IMREAD_GRAYSCALE)
    return image, np.dstack([(label == 1) * 255.0, (label == 3) * 255.0, (label == 4) * 255.0, np.maximum(full, (label > 0) * np.uint8(255))]).astype(np.float32)


def plant_piece(library, folder, name, rng):
    """The whole frame or a part of it around the plant, a little turned: red, green, blue, sound, yellowed, browned, full."""
    image, shares = plant_view(folder, name)
    if rng.random() < 0.2:
        image = other_surroundings(rng, library, image, (shares[..., :3].sum(2) > 0).astype(np.uint8))
    width, height = PLANT_SIZE
    ys, xs = np.nonzero(shares[..., 3])
    box = np.array([xs.min(), ys.min(), xs.max(), ys.max()], np.float64)
    middle, spans = (box[:2] + box[2:]) / 2, box[2:] - box[:2]
    least = max(spans[0] / (0.92 * width), spans[1] / (0.92 * height))  # photo pixels per network pixel at which the plant just fits
    most = max(min(image.shape[1] / width, image.shape[0] / height), least)
    step = np.exp(rng.uniform(np.log(least), np.log(most))) if rng.random() < 0.6 else most
    # The plant is somewhere near the middle, as the user was asked to take it.
    room = np.maximum(0, np.array([width, height]) * step * 0.96 - spans) / 2
    centre = middle + rng.uniform(-1, 1, 2) * room * 0.7
    turn = np.deg2rad(rng.normal(0, 2.5))
    a = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]) * step
    matrix = np.hstack([a, (centre - a @ (np.array([width, height]) / 2))[:, None]])
    # Shares are means over what a network pixel covers: the photo is calmed before it is drawn smaller.
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    sigma = 0.42 * np.sqrt(max(step * step - 1, 0)) if step > 1 else 0
    calm = (lambda p: cv2.GaussianBlur(p, (0, 0), sigma)) if sigma > 0.25 else (lambda p: p)
    seen = cv2.warpAffine(calm(image), matrix, PLANT_SIZE, flags=flags, borderMode=cv2.BORDER_REFLECT_101)
    known = cv2.warpAffine(calm(shares), matrix, PLANT_SIZE, flags=flags, borderMode=cv2.BORDER_CONSTANT)
    return np.dstack([camera_again(rng, seen), np.clip(known + 0.5, 0, 255).astype(np.uint8)])[None]

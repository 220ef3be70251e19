"""Trains the network for twigs or the one for whole plants on renders, scores it on others and writes its ONNX file.

    python3 models/training/train_foliage.py --kind twig  --renders TWIGS  --check OTHERS --data DATA --seed 1 --out OUT
    python3 models/training/train_foliage.py --kind plant --renders PLANTS --check OTHERS --data DATA --seed 1 --out OUT

DATA is what pack.py gathers: one scene in five gets a real photo of it as surroundings. With sixteen processor cores and one
H100 a run takes about six minutes. See README.md for how the scenes are drawn.
"""
import argparse
import json
import multiprocessing
import sys
import time
from pathlib import Path

import cv2
import numpy as np

import foliage
import paint
import train

SIDE, PLACES = 640, 6

_library = None
_shelf = None


def _paint(job):
    index, seed, kind, folder, name = job
    rng = np.random.default_rng(seed)
    try:
        pieces = foliage.twig_pieces(_library, folder, name, rng, SIDE, PLACES) if kind == "twig" else foliage.plant_piece(_library, folder, name, rng)
    except Exception as trouble:  # one odd scene must not end a run; the count of them is printed
        return index, 0, f"{type(trouble).__name__}: {trouble}"
    _shelf.slot(index)[: len(pieces)] = pieces
    return index, len(pieces), None


class Frames(train.Shelf):
    """Pieces that are not square."""

    def __init__(self, scenes, width, height, channels, per_block=16):
        super().__init__(scenes, 1, 1, width * height * channels, per_block)
        self.shape = (per_block, height, width, channels)


def mirrored(torch, batch, rng):
    """A plant may be mirrored, never turned."""
    return torch.cat([part.flip(2) if rng.random() < 0.5 else part for part in batch.chunk(4)])


def with_places(torch, rgb):
    """Adds where a pixel lies in the frame, 0..1: the plant that counts stands in the middle."""
    n, _, height, width = rgb.shape
    x = torch.linspace(0, 1, width, device=rgb.device).expand(n, 1, height, width)
    y = torch.linspace(0, 1, height, device=rgb.device)[:, None].expand(n, 1, height, width)
    return torch.cat([rgb, x, y], 1)


def twig_loss(torch, scores, target):
    """`target` is n x 1 x h x w bytes: class."""
    F = torch.nn.functional
    scores, label = scores.float(), target[:, 0].long()
    known = label != paint.IGNORE
    weights = torch.tensor([1.0, 1.0, 1.3, 1.1, 1.1], device=scores.device)
    entropy = F.cross_entropy(scores, torch.where(known, label, torch.full_like(label, -100)), weight=weights, ignore_index=-100)
    chance = torch.softmax(scores, 1) * known[:, None]
    dice = 0.0
    for c in range(1, scores.shape[1]):
        truth = (label == c).float()
        dice = dice + 1 - (2 * (chance[:, c] * truth).sum() + 200) / (chance[:, c].sum() + truth.sum() + 200)
    return entropy + 0.12 * dice, dict(entropy=entropy, dice=dice / 4)


def plant_loss(torch, scores, target):
    """`target` is n x 4 x h x w bytes: shares of sound, yellowed and browned foliage, and of the full outline."""
    F = torch.nn.functional
    scores, shares = scores.float(), target.float() / 255
    truth = torch.cat([(1 - shares[:, :3].sum(1, keepdim=True)).clamp(0, 1), shares[:, :3]], 1)
    entropy = -(truth * torch.log_softmax(scores[:, :4], 1)).sum(1).mean()
    whole = F.binary_cross_entropy_with_logits(scores[:, 4], shares[:, 3])
    leaf, there = 1 - torch.softmax(scores[:, :4], 1)[:, 0], shares[:, :3].sum(1)
    dice = 1 - ((2 * (leaf * there).sum((1, 2)) + 50) / ((leaf ** 2).sum((1, 2)) + (there ** 2).sum((1, 2)) + 50)).mean()
    # Sums are what is asked for in the end: foliage, full outline and discoloured share of each plant.
    chance = torch.softmax(scores[:, :4], 1)
    total = lambda p: p.sum((1, 2))
    found, real = (total(t[:, 2:4].sum(1)) / total(t[:, 1:4].sum(1)).clamp(min=500) for t in (chance, truth))
    outline = torch.sigmoid(scores[:, 4])
    gaps, real_gaps = total(leaf) / total(outline).clamp(min=500), total(there) / total(shares[:, 3]).clamp(min=500)
    sums = (found - real).abs().mean() + (gaps - real_gaps).abs().mean()
    return entropy + whole + 0.3 * dice + 0.3 * sums, dict(entropy=entropy, whole=whole, dice=dice, sums=sums)


def concordance(found, real):
    """Lin's coefficient."""
    found, real = np.array(found), np.array(real)
    return float(2 * np.mean((found - found.mean()) * (real - real.mean())) / (found.var() + real.var() + (found.mean() - real.mean()) ** 2 + 1e-12))


def even(n):
    return (n + 31) // 32 * 32


def score(kind, folder, run):
    """Figures on scenes that were not trained on. Twigs by the likeliest class, plants by mean chances."""
    rows = []
    for path in sorted(Path(folder).rglob("*.truth.json")):
        name = path.name[: -len(".truth.json")]
        if kind == "twig":
            image, label = foliage.read(path.parent, name)
            x = image.astype(np.float32).transpose(2, 0, 1)[None] / 255
            x = np.pad(x, ((0, 0), (0, 0), (0, even(x.shape[2]) - x.shape[2]), (0, even(x.shape[3]) - x.shape[3])), mode="edge")
            got = run(x)[0][:, : label.shape[0], : label.shape[1]].argmax(0)
            both, either = ((got > 0) & (label > 0)).sum(), ((got > 0) | (label > 0)).sum()
            share = lambda m: float((m > 1).sum() / max(1, (m > 0).sum()))
            rows.append(dict(name=name, iou=float(both / max(1, either)), damage=share(got), true=share(label)))
        else:
            image, shares = foliage.plant_view(path.parent, name)
            small = cv2.resize(image, foliage.PLANT_SIZE, interpolation=cv2.INTER_AREA)
            shares = cv2.resize(shares, foliage.PLANT_SIZE, interpolation=cv2.INTER_AREA) / 255
            y, x = np.mgrid[0 : small.shape[0], 0 : small.shape[1]].astype(np.float32)
            planes = np.dstack([small / np.float32(255), x / (small.shape[1] - 1), y / (small.shape[0] - 1)]).astype(np.float32)
            scores = run(planes.transpose(2, 0, 1)[None])[0]
            e = np.exp(scores[:4] - scores[:4].max(0))
            chance, outline = e / e.sum(0), 1 / (1 + np.exp(-scores[4]))
            there, leaf = shares[..., :3].sum(2), 1 - chance[0]
            both, either = ((leaf > 0.5) & (there > 0.5)).sum(), ((leaf > 0.5) | (there > 0.5)).sum()
            rows.append(dict(
                name=name, iou=float(both / max(1, either)), damage=float(chance[2:4].sum() / leaf.sum()), true=float(shares[..., 1:3].sum() / there.sum()),
                thin=float(1 - leaf.sum() / max(1, outline.sum())), trueThin=float(1 - there.sum() / shares[..., 3].sum())))
    out = dict(photos=len(rows), damageCcc=concordance([r["damage"] for r in rows], [r["true"] for r in rows]), damageError=float(np.mean([abs(r["damage"] - r["true"]) for r in rows])))
    if kind == "plant":
        out.update(thinCcc=concordance([r["thin"] for r in rows], [r["trueThin"] for r in rows]), thinError=float(np.mean([abs(r["thin"] - r["trueThin"]) for r in rows])))
    ious = sorted(r["iou"] for r in rows)
    out.update(iouMedian=ious[len(ious) // 2], iouTenth=ious[len(ious) // 10], iouWorst=ious[0])
    return out, sorted(rows, key=lambda r: -abs(r["damage"] - r["true"]) - abs(r.get("thin", 0) - r.get("trueThin", 0)))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--kind", choices=["twig", "plant"], required=True)
    parser.add_argument("--renders", required=True, help="folder of scenes to learn from")
    parser.add_argument("--check", help="folder of other scenes to score")
    parser.add_argument("--data", required=True, help="what pack.py wrote: surroundings")
    parser.add_argument("--out", required=True)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=280, help="learning time")
    parser.add_argument("--steps", type=int, default=100_000, help="most steps")
    parser.add_argument("--batch", type=int, default=16)
    parser.add_argument("--rate", type=float, default=1.5e-3)
    parser.add_argument("--rounds", type=int, default=2, help="views of each scene")
    parser.add_argument("--first", type=int, default=300, help="learning starts when so many views are painted")
    parser.add_argument("--workers", type=int, default=16)
    options = parser.parse_args()
    Path(options.out).mkdir(parents=True, exist_ok=True)

    global _library, _shelf
    _library = paint.LeafPhotos(options.data)
    scenes = [(str(p.parent), p.name[: -len(".truth.json")]) for p in sorted(Path(options.renders).rglob("*.truth.json"))]
    order = np.random.default_rng(options.seed).permutation(len(scenes))
    jobs = [(k, options.seed * 10_000_000 + k, options.kind, *scenes[order[k % len(scenes)]]) for k in range(options.rounds * len(scenes))]
    _shelf = train.Shelf(len(jobs), PLACES, SIDE, 4, 8) if options.kind == "twig" else Frames(len(jobs), *foliage.PLANT_SIZE, 7)
    pool = multiprocessing.get_context("fork").Pool(options.workers, train._start_worker)
    results = pool.imap_unordered(_paint, jobs, 1)

    import torch
    from net import FoliageForUse, export, plant_net, twig_net

    torch.manual_seed(options.seed)
    torch.backends.cudnn.benchmark = True
    torch.backends.cuda.matmul.allow_tf32 = True
    torch.backends.cudnn.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    if options.kind == "twig":
        net, loss_of, turn, extra = twig_net(), twig_loss, train.turned, None
        channels, outputs = 3, ["classes"]
    else:
        net, loss_of, turn, extra = plant_net(), plant_loss, mirrored, with_places
        channels, outputs = 5, ["classes", "outline"]
    painted = train.Painted(results, _shelf, len(jobs), len(jobs) * (PLACES if options.kind == "twig" else 1), device, options.kind)
    painted.absorb(at_least=min(options.first, int(0.98 * len(jobs))))
    train.say(len(scenes), "scenes;", painted.count, "pieces ready; troubles:", len(painted.troubles), painted.troubles[:2])
    rng = np.random.default_rng(options.seed)
    net, steps = train.learn(torch, net, painted, loss_of, options.seconds, options.steps, options.batch, options.rate, rng, device, False, options.kind, soft=0.5, turn=turn, extra=extra)
    pool.terminate()
    np.savez_compressed(Path(options.out) / "weights.npz", **{f"{options.kind}/{k}": v.detach().cpu().numpy() for k, v in net.state_dict().items()})
    about = dict(kind=options.kind, seed=options.seed, scenes=len(scenes), pieces=painted.count, steps=steps, troubles=len(painted.troubles), torch=torch.__version__)
    torch.backends.cudnn.allow_tf32 = False
    torch.backends.cuda.matmul.allow_tf32 = False
    torch.backends.cudnn.benchmark = False
    net = net.float().to(device).eval()
    if options.check:
        with torch.no_grad():
            about["scores"], rows = score(options.kind, options.check, lambda x: net(torch.from_numpy(x).to(device)).float().cpu().numpy())
        about["rows"] = rows
        train.say(json.dumps({k: round(v, 4) for k, v in about["scores"].items()}))
        for row in rows[:8]:
            train.say(json.dumps({k: (round(v, 3) if isinstance(v, float) else v) for k, v in row.items()}))
    about["seconds"] = time.time() - train.START
    (Path(options.out) / "metrics.json").write_text(json.dumps(about, indent=1))
    export(FoliageForUse(net.cpu(), options.kind == "plant"), Path(options.out) / f"{options.kind}-foliage.onnx", channels, outputs)
    train.say("done")
    return 0


if __name__ == "__main__":
    sys.exit(main())

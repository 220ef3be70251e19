"""Trains both networks from the packed data folder, scores them on the implants and writes the ONNX files.

    python3 models/training/train.py --data DATA --seed 1 --out OUT            # the models that are shipped
    python3 models/training/train.py --data DATA --seed 1 --out OUT --fold a   # honest figures: leaves kept apart
    python3 models/training/train.py --data DATA --seed 1 --out OUT --smoke    # a minute's check of every step

Sixteen processor cores paint while the GPU learns. With the default settings one run takes about nine minutes on an H100.
"""
import argparse
import json
import math
import mmap
import multiprocessing
import os
import sys
import time
from pathlib import Path

for word in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(word, "1")  # painters are processes; one thread each

import cv2
import numpy as np

import cards
import metrics
import paint

# Leaves kept apart in a fold, by group: a group is every photo of one leaf.
FOLDS = {"a": ["chilli-3030", "chilli-3033", "chilli-3060", "chilli-3519"], "b": ["chilli-3002", "chilli-3032", "chilli-3042", "chilli-3061"]}
SIDE, PLACES, CHANNELS = 448, 5, 7      # tissue pieces: pixels a side, at most so many per scene, planes
OUTLINE_SIDE, OUTLINE_CHANNELS = 512, 5
SHELVED = 5000  # scenes whose pieces may wait in memory at once, 7 MB each

_library = None
_blocks = {}


class Shelf:
    """Pieces painted by the workers, in shared memory blocks made before the workers start (many small maps: one big one may be refused)."""

    def __init__(self, scenes, places, side, channels, per_block=32):
        self.scenes, self.places, self.per_block = scenes, places, per_block
        self.shape = (per_block * places, side, side, channels)
        self.piece_bytes = side * side * channels
        self.maps = [mmap.mmap(-1, int(np.prod(self.shape))) for _ in range(math.ceil(scenes / per_block))]

    def slot(self, scene):
        scene %= self.scenes  # places are used again, long after their pieces were taken
        block = np.frombuffer(self.maps[scene // self.per_block], np.uint8).reshape(self.shape)
        start = (scene % self.per_block) * self.places
        return block[start : start + self.places]


def _paint_tissue(job):
    index, seed, side, render = job
    shelf = _blocks["tissue"]
    try:
        scene = paint.render_scene(*render) if render else paint.tissue_scene(_library, seed)
        pieces = paint.crops_of(scene, np.random.default_rng(seed + 1), side, shelf.places)
    except Exception as trouble:  # one odd scene must not end a run; the count of them is printed
        return index, 0, f"{type(trouble).__name__}: {trouble}"
    shelf.slot(index)[: len(pieces)] = pieces
    return index, len(pieces), None


def _paint_outline(job):
    index, seed, side, render = job
    try:
        _blocks["outline"].slot(index)[0] = paint.outline_render(*render, seed, side) if render else paint.outline_scene(_library, seed, side)
    except Exception as trouble:
        return index, 0, f"{type(trouble).__name__}: {trouble}"
    return index, 1, None


def _start_worker():
    cv2.setNumThreads(1)


class Painted:
    """Collects finished scenes from the pool and moves their pieces to the GPU."""

    def __init__(self, results, shelf, total, capacity, device, name):
        import torch

        self.torch, self.results, self.shelf, self.total, self.name = torch, results, shelf, total, name
        self.pieces = torch.empty((capacity, *shelf.shape[1:]), dtype=torch.uint8, device=device)
        self.count, self.scenes, self.taken, self.troubles = 0, 0, 0, []  # pieces held, scenes and pieces ever taken

    def absorb(self, seconds=0.0, at_least=None):
        """Takes what is ready within the given time, or waits for `at_least` scenes; when all places are full the oldest pieces go. True when there may be more."""
        end = time.time() + seconds
        while self.scenes < self.total:
            if at_least is None and time.time() > end:
                return True
            try:
                must = at_least is not None and self.scenes < at_least
                index, n, trouble = self.results.next(timeout=60 if must else 0.001)
            except multiprocessing.TimeoutError:
                if must:
                    continue
                return True
            except StopIteration:
                return False
            self.scenes += 1
            if trouble:
                self.troubles.append(trouble)
            place = self.taken % len(self.pieces)
            n = min(n, len(self.pieces) - place)
            if n:
                pieces = self.torch.from_numpy(self.shelf.slot(index)[:n].copy())
                self.pieces[place : place + n] = pieces.to(self.pieces.device)
                self.taken += n
                self.count = min(self.taken, len(self.pieces))
            if at_least is not None and self.scenes >= at_least and time.time() >= end:
                return True
        return False


def say(*words):
    print(f"[{time.time() - START:6.1f} s]", *words, flush=True)


START = time.time()


# --- on the GPU ------------------------------------------------------------------------------------------------------

def turned(torch, batch, rng):
    """Each of four parts of the batch gets its own quarter turn and mirror."""
    parts = []
    for part in batch.chunk(4):
        part = torch.rot90(part, int(rng.integers(4)), (1, 2))
        if rng.random() < 0.5:
            part = part.flip(2)
        parts.append(part)
    return torch.cat(parts)


def other_light(torch, rgb):
    """Exposure, white balance, gamma, saturation and noise, another one for each piece. rgb is n x 3 x h x w, 0..1."""
    n, device = len(rgb), rgb.device

    def normal(*shape):
        return torch.randn(shape, device=device)

    grey = rgb.mean(1, keepdim=True)
    rgb = grey + (rgb - grey) * torch.exp(0.15 * normal(n, 1, 1, 1))
    rgb = rgb * torch.exp(0.06 * normal(n, 3, 1, 1)) * torch.exp(0.10 * normal(n, 1, 1, 1))
    rgb = rgb.clamp(1e-4, 1) ** torch.exp(0.10 * normal(n, 1, 1, 1))
    return (rgb + normal(*rgb.shape) * (0.02 * torch.rand((n, 1, 1, 1), device=device) ** 2)).clamp(0, 1)


def softened(torch, rgb, share):
    """That share of the pieces a little out of focus (Gaussian of 0.3 to 0.9 pixels): two shots of a leaf are never equally sharp."""
    n, device = len(rgb), rgb.device
    sigma = torch.where(torch.rand(n, device=device) < share, 0.3 + 0.6 * torch.rand(n, device=device), torch.full((n,), 0.01, device=device))
    along = torch.exp(-(torch.arange(-3, 4, device=device)[None] ** 2) / (2 * sigma[:, None] ** 2))
    along = (along / along.sum(1, keepdim=True)).repeat_interleave(3, 0)
    flat = torch.nn.functional.pad(rgb.reshape(1, n * 3, *rgb.shape[2:]), (3, 3, 3, 3), mode="replicate")
    flat = torch.nn.functional.conv2d(flat, along[:, None, None, :], groups=n * 3)
    return torch.nn.functional.conv2d(flat, along[:, None, :, None], groups=n * 3).reshape(rgb.shape)


def tissue_loss(torch, scores, target):
    """`target` is n x 4 x h x w bytes: label, prior, centres, diameters."""
    F = torch.nn.functional
    n = 6
    label = target[:, 0].long()
    known = label != paint.IGNORE
    scores = scores.float()
    weights = torch.tensor([1.0, 1.0, 1.6, 1.3, 1.5, 1.3], device=scores.device)
    entropy = F.cross_entropy(scores[:, :n], torch.where(known, label, torch.full_like(label, -100)), weight=weights, ignore_index=-100)
    chance = torch.softmax(scores[:, :n], 1) * known[:, None]
    dice = 0.0
    for c in range(1, n):
        truth = (label == c).float()
        dice = dice + 1 - (2 * (chance[:, c] * truth).sum() + 200) / (chance[:, c].sum() + truth.sum() + 200)
    centre = scores[:, n].clamp(-12, 12)
    goal = target[:, 2].float() / 255
    p = torch.sigmoid(centre)
    at = (target[:, 2] == 255) & known
    off = (~(target[:, 2] == 255)) & known
    hit = -(F.logsigmoid(centre) * (1 - p) ** 2 * at).sum()
    miss = -(F.logsigmoid(-centre) * p ** 2 * (1 - goal) ** 4 * off).sum()
    focal = (hit + miss) / at.sum().clamp(min=50)
    size = target[:, 3]
    sized = (size > 0) & known
    error = (torch.sigmoid(scores[:, n + 1]) * 40 - size.float() * (40 / 255)).abs()
    diameter = (torch.where(sized, error, torch.zeros_like(error))).sum() / sized.sum().clamp(min=50)
    total = entropy + 0.15 * dice + 0.25 * focal + 0.05 * diameter
    return total, dict(entropy=entropy, dice=dice / 5, focal=focal, diameter=diameter)


def outline_loss(torch, scores, target):
    """`target` is n x 2 x h x w bytes: leaf (255 = outside the photo) and margin."""
    F = torch.nn.functional
    scores = scores.float()
    known = (target[:, 0] != paint.IGNORE).float()
    leaf, margin = (target[:, 0] == 1).float(), (target[:, 1] == 1).float()
    entropy = (F.binary_cross_entropy_with_logits(scores[:, 0], leaf, reduction="none") * known).sum() / known.sum().clamp(min=1)
    chance = torch.sigmoid(scores[:, 0]) * known
    leaf = leaf * known
    dice = 1 - ((2 * (chance * leaf).sum((1, 2)) + 50) / (chance.sum((1, 2)) + leaf.sum((1, 2)) + 50)).mean()
    edge = (F.binary_cross_entropy_with_logits(scores[:, 1], margin, reduction="none", pos_weight=torch.tensor(4.0, device=scores.device)) * known).sum() / known.sum().clamp(min=1)
    return entropy + 0.5 * dice + 0.2 * edge, dict(entropy=entropy, dice=dice, edge=edge)


def learn(torch, net, painted, loss_of, seconds, steps, batch, rate, rng, device, has_prior, name, soft=0.0, turn=turned, extra=None, group=cards.Alone(), exact=False, before=None):
    """AdamW, warm-up then cosine to zero, averaged weights. Progress counts steps or time, whichever runs ahead.

    `exact` learns without short floats; `before` may look at some batches first (a list is given to it) and change the network.
    """
    net = net.to(device, memory_format=torch.channels_last).train()
    group.same(net)
    average = {k: v.detach().clone().float() for k, v in net.state_dict().items()}
    fast = device.type == "cuda" and not exact
    decays = [p for p in net.parameters() if p.ndim > 1]
    rest = [p for p in net.parameters() if p.ndim <= 1]
    optimiser = torch.optim.AdamW([{"params": decays, "weight_decay": 0.02}, {"params": rest, "weight_decay": 0.0}], lr=rate, **({"fused": True} if device.type == "cuda" else {}))
    state = net.state_dict()  # the same storage as the weights: follows them
    names = [k for k in average if state[k].is_floating_point()]
    old, new = [average[k] for k in names], [state[k] for k in names]

    def draw():
        """A fresh batch: pieces by chance, turned and mirrored, under other light."""
        with torch.no_grad():
            which = torch.from_numpy(rng.integers(0, painted.count, batch)).to(device)
            pieces = turn(torch, painted.pieces[which], rng).permute(0, 3, 1, 2)
            rgb, target = pieces[:, :3].float() / 255, pieces[:, 3:]
            rgb = other_light(torch, softened(torch, rgb, soft) if soft > 0 else rgb)
            if has_prior:
                prior = target[:, 1:2].float() / 255
                unknown = torch.rand((batch, 1, 1, 1), device=device) < 0.06
                rgb = torch.cat([rgb, torch.where(unknown, torch.full_like(prior, 0.5), prior)], 1)
            if extra:
                rgb = extra(torch, rgb)
            return rgb.contiguous(memory_format=torch.channels_last), target

    if before:
        before(net, [draw()[0] for _ in range(8)])
        group.same(net)
        with torch.no_grad():
            torch._foreach_copy_(old, new)
    start = looked = told = time.time()
    step, more, skipped, progress = 0, True, 0, 0.0
    while True:
        if group.count == 1 or step % 25 == 0:
            progress = group.agree(max(step / steps, (time.time() - start) / seconds))
        if progress >= 1:
            break
        for chosen in optimiser.param_groups:
            chosen["lr"] = rate * min(1.0, progress / 0.03 + 0.02) * (0.5 + 0.5 * math.cos(math.pi * progress)) + 1e-6
        rgb, target = draw()
        with torch.autocast("cuda" if fast else "cpu", dtype=torch.bfloat16, enabled=fast):
            scores = net(rgb)
        loss, parts = loss_of(torch, scores, target)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        group.mean(net.parameters())
        norm = torch.nn.utils.clip_grad_norm_(net.parameters(), 2.0)
        if step % 50 == 0 and not bool(torch.isfinite(norm)):
            skipped += 1
            if skipped > 5:
                raise RuntimeError(f"{name}: the loss is not finite")
        # A step with a non-finite gradient is made harmless without waiting for the GPU.
        good = torch.isfinite(norm)
        for p in net.parameters():
            if p.grad is not None:
                p.grad = torch.where(good, p.grad, torch.zeros_like(p.grad))
        optimiser.step()
        step += 1
        with torch.no_grad():
            keep = min(0.9985, (1 + step) / (10 + step))
            torch._foreach_mul_(old, keep)
            torch._foreach_add_(old, new, alpha=1 - keep)
        now = time.time()
        if more and (now - looked > 5 if group.count == 1 else step % 60 == 0):  # cards wait for one another: all look at the same step
            more = painted.absorb(0.5)
            looked = time.time()
        if now - told > 15 or step <= 2:
            told = now
            say(f"{name} step {step}, {painted.count} pieces, " + ", ".join(f"{k} {float(v.detach()):.4f}" for k, v in parts.items()))
    net.load_state_dict({k: (average[k].to(state[k].dtype) if state[k].is_floating_point() else state[k]) for k in state})
    # The averaged weights get their own normalisation: mean and spread over fresh batches, in full precision.
    norms = [m for m in net.modules() if isinstance(m, torch.nn.BatchNorm2d)]
    for m in norms:
        m.reset_running_stats()
        m.momentum = None
    with torch.no_grad():
        for _ in range(min(200, max(10, step // 10)) if norms else 0):
            net(draw()[0])
    say(f"{name} learned in {step} steps, {time.time() - start:.0f} s, {painted.scenes} scenes, {painted.count} pieces; last loss {float(loss):.4f}")
    return net.eval(), step


def runners(torch, outline_net, tissue_net, device):
    from net import OutlineForUse, TissueForUse

    outline, tissue = OutlineForUse(outline_net).to(device).eval(), TissueForUse(tissue_net).to(device).eval()

    def run_outline(x):
        with torch.no_grad():
            return outline(torch.from_numpy(x).to(device))[0][0, 0].float().cpu().numpy()

    def run_tissue(x):
        with torch.no_grad():
            a, b, c = tissue(torch.from_numpy(x).to(device))
            return a[0].float().cpu().numpy(), b[0, 0].float().cpu().numpy(), c[0, 0].float().cpu().numpy()

    return run_outline, run_tissue


def written(file, answers):
    """Runs a written network on the processor."""
    import onnxruntime

    settings = onnxruntime.SessionOptions()
    settings.intra_op_num_threads = min(16, os.cpu_count() or 2)
    settings.log_severity_level = 3
    session = onnxruntime.InferenceSession(file, settings, providers=["CPUExecutionProvider"])

    def run(x):
        out = session.run(None, {"picture": x})
        return out[0][0, 0] if answers == 1 else (out[0][0], out[1][0, 0], out[2][0, 0])

    return run


def gap_of(torch, in_bytes, run):
    """Rounding makes single values fall to either side, so this is no more than a check that both are the same network."""
    from net import TissueForUse

    x = cv2.GaussianBlur(np.random.default_rng(0).random((416, 608, 4), dtype=np.float32), (0, 0), 2).transpose(2, 0, 1)[None].copy()
    with torch.no_grad():
        ours = TissueForUse(in_bytes.cpu().eval())(torch.from_numpy(x))
    return [float(np.abs(a[0].numpy().reshape(b.shape) - b).mean()) for a, b in zip(ours, run(x))]


def evaluate(options, run_outline, run_tissue, held):
    folder = Path(options.data) / "implants"
    names = sorted(p.name[: -len(".truth.json")] for p in folder.glob("case-*.truth.json"))
    if options.smoke:
        names = names[:3]
    thresholds = [0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6]
    groups = {e["name"]: e["group"] for e in json.loads((Path(options.data) / "leaves.json").read_text())}
    rows, kept = [], {}
    for name in names:
        row, rgb, mask, truth, specks = metrics.score_case(folder, name, run_outline, run_tissue, thresholds)
        row["heldOut"] = groups.get(row["leaf"]) in held
        rows.append(row)
        t = row["specks"]["0.35"]
        bad = 1 - row["outlineIoU"] + abs(sum(row["found"][k] - row["true"][k] for k in row["true"])) + (1 - 2 * t[0] / (t[1] + t[2]) if t[2] > 10 else 0)
        kept[name] = (bad, metrics.picture_of(rgb, mask, truth, specks[specks[:, 3] >= 0.35]))
    # The threshold is chosen on leaves that were trained on, then read on those kept apart.
    seen = [r for r in rows if not r["heldOut"]] or rows
    best = max((f"{t:.2f}" for t in thresholds), key=lambda t: metrics.f1_of(seen, t))
    clean = [metrics.score_clean(folder, n, run_outline, run_tissue) for n in names if (folder / f"{n}.base.jpg").exists()]
    for row in clean:
        row["heldOut"] = groups.get(row["leaf"]) in held
    out = {
        "chosenThreshold": best,
        "heldOut": metrics.summary([r for r in rows if r["heldOut"]], best),
        "trainedOn": metrics.summary([r for r in rows if not r["heldOut"]], best),
        "cleanFalseStippleMean": {str(h): float(np.mean([c["stippled"] for c in clean if c["heldOut"] == h])) for h in {c["heldOut"] for c in clean}},
        "clean": clean, "cases": rows,
    }
    for mode in ("heldOut", "trainedOn"):
        say(mode, json.dumps({k: (round(v, 4) if isinstance(v, float) else v) for k, v in out[mode].items()}))
    say("clean leaves, false stipple:", out["cleanFalseStippleMean"], "yellowed", [round(c["yellowed"], 4) for c in clean], "browned", [round(c["browned"], 4) for c in clean])
    for r in rows:
        t = r["specks"][best]
        say(r["case"], "KEPT" if r["heldOut"] else "seen", r["mode"], f"IoU {r['outlineIoU']:.3f}", f"F1 {2 * t[0] / max(1, t[1] + t[2]):.3f} ({t[1]} for {t[2]})",
            " ".join(f"{k[0]} {r['found'][k]:.3f}/{r['true'][k]:.3f}" for k in r["true"]), f"glare {r['found']['unassessed']:.3f}")
    order = sorted((r for r in rows if r["heldOut"] or not held), key=lambda r: -kept[r["case"]][0])
    sheets = [kept[r["case"]][1] for r in order[:6]]
    if sheets:
        tall = np.vstack([np.hstack(sheets[k : k + 2]) for k in range(0, len(sheets) - 1, 2)]) if len(sheets) > 1 else sheets[0]
        cv2.imwrite(str(Path(options.out) / "worst.jpg"), np.ascontiguousarray(tall[..., ::-1]), [cv2.IMWRITE_JPEG_QUALITY, 88])
        out["worstShown"] = [r["case"] for r in order[:6]]
    return out


def check_onnx(options, run_outline, run_tissue):
    """The written files give the same numbers, at another size than the example's, and how long they take on two threads."""
    try:
        import onnxruntime
    except ImportError:
        return {"onnxruntime": "not here"}
    out = {"onnxruntime": onnxruntime.__version__}
    rng = np.random.default_rng(0)
    settings = onnxruntime.SessionOptions()
    settings.intra_op_num_threads = 2
    for name, channels, run in (("leaf-outline", 3, run_outline), ("leaf-tissue", 4, run_tissue)):
        session = onnxruntime.InferenceSession(str(Path(options.out) / f"{name}.onnx"), settings, providers=["CPUExecutionProvider"])
        x = cv2.GaussianBlur(rng.random((416, 608, channels), dtype=np.float32), (0, 0), 2).transpose(2, 0, 1)[None].copy()
        ours, theirs = run(x), session.run(None, {"picture": x})
        ours = ours if isinstance(ours, tuple) else (ours,)
        gaps = [float(np.abs(a - b[0].reshape(a.shape)).max()) for a, b in zip(ours, theirs)]
        big = rng.random((1, channels, 1024, 1024), dtype=np.float32)
        times = []
        for _ in range(4):
            t = time.time()
            session.run(None, {"picture": big})
            times.append(time.time() - t)
        out[name] = {"largestGap": gaps, "secondsPerMegapixel2Threads": min(times) / 1.048576, "bytes": (Path(options.out) / f"{name}.onnx").stat().st_size}
    return out


def learn_tissue(torch, options, net, results, rng, device, group):
    """The network in floats, the same in bytes (None if not asked for), steps of each, and what was painted."""
    capacity = min(options.tissue_scenes * PLACES, options.pieces if device.type == "cuda" else 400)
    tissues = Painted(results, _blocks["tissue"], options.tissue_scenes, capacity, device, "tissue")
    tissues.absorb(at_least=options.first_scenes)
    say("tissue pieces ready:", tissues.count, "troubles:", len(tissues.troubles), tissues.troubles[:2])
    if options.start and options.start.endswith(".onnx"):
        from net import loaded_from_onnx

        pieces = tissues.pieces[:64].permute(0, 3, 1, 2)
        net = loaded_from_onnx(net.to(device), options.start, torch.cat([pieces[:, :3], pieces[:, 4:5]], 1).float() / 255)
    net, steps = learn(
        torch, net, tissues, tissue_loss, options.tissue_seconds, options.tissue_steps, options.batch, options.rate, rng, device, True, "tissue", options.soft, group=group
    )
    in_bytes, byte_steps = None, 0
    if options.byte_seconds > 0:
        from eight_bits import ByteNet, look

        in_bytes, byte_steps = learn(
            torch, ByteNet(net), tissues, tissue_loss, options.byte_seconds, options.byte_steps, max(4, options.batch // 2), options.byte_rate, rng, device, True,
            "tissue in bytes", options.soft, group=group, exact=True, before=look,
        )
    say("troubles while painting:", len(tissues.troubles), tissues.troubles[:3])
    return net, in_bytes, steps, {"tissueScenes": tissues.scenes, "tissuePieces": tissues.taken, "byteSteps": byte_steps, "cards": group.count}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--fold", choices=sorted(FOLDS), help="keep these leaves out of training and report them apart")
    parser.add_argument("--renders", help="folder of further scenes in the implants' format: two of five tissue scenes")
    parser.add_argument("--outline-renders", help="folder of further scenes in the implants' format: every third outline scene")
    parser.add_argument("--outline-render-thirds", type=int, choices=(1, 2), default=1, help="how many of three outline scenes are rendered ones")
    parser.add_argument("--soft", type=float, default=0.0, help="share of tissue pieces, 0..1, that are drawn a little out of focus")
    parser.add_argument("--pieces", type=int, default=40000, help="tissue pieces that are kept on the card, 1.4 MB each")
    parser.add_argument("--outline-scenes", type=int, default=6000)
    parser.add_argument("--tissue-scenes", type=int, default=12000)
    parser.add_argument("--first-outlines", type=int, default=100000, help="outline scenes that must be there before learning starts; all by default")
    parser.add_argument("--first-scenes", type=int, default=4000, help="tissue scenes that must be there before learning starts")
    parser.add_argument("--outline-seconds", type=float, default=110)
    parser.add_argument("--tissue-seconds", type=float, default=330)
    parser.add_argument("--outline-steps", type=int, default=100000)
    parser.add_argument("--tissue-steps", type=int, default=100000)
    parser.add_argument("--batch", type=int, default=24)
    parser.add_argument("--rate", type=float, default=2e-3, help="learning rate; take a smaller one when going on from earlier weights")
    parser.add_argument("--workers", type=int, default=max(1, (os.cpu_count() or 2) - 1))
    parser.add_argument("--start", help="weights.npz of an earlier run to go on from, or (with --only-tissue) a written tissue network in floats")
    parser.add_argument("--fresh-tissue", action="store_true", help="with --start: only the outline network goes on from there")
    parser.add_argument("--only-tissue", action="store_true", help="leaves the outline network as it is in --start (or untrained)")
    parser.add_argument("--only-outline", action="store_true", help="leaves the tissue network as it is in --start (or untrained)")
    parser.add_argument("--score-only", action="store_true", help="no learning: scores and writes the networks of --start (a GPU is not needed)")
    parser.add_argument("--cards", type=int, default=1, help="GPU cards that learn the tissue network together (with --only-tissue); scenes and painters are counted for each card")
    parser.add_argument("--byte-seconds", type=float, default=0.0, help="learning time of the tissue network in whole numbers of eight bits, from the one in floats; 0 for none")
    parser.add_argument("--byte-steps", type=int, default=100000)
    parser.add_argument("--byte-rate", type=float, default=2e-4)
    parser.add_argument("--outline", help="written outline network to score with, instead of this run's own")
    parser.add_argument("--smoke", action="store_true", help="twenty steps of each, three photos scored")
    options = parser.parse_args()
    rank, count = cards.place()
    if options.cards > 1 and not options.only_tissue:
        parser.error("--cards is for the tissue network: add --only-tissue")
    if options.cards > 1 and count == 1:
        return cards.start(options.cards)
    side, outline_side = SIDE, OUTLINE_SIDE
    if options.only_tissue:
        options.outline_scenes = 1
    if options.only_outline:
        options.tissue_scenes = 1
    if options.score_only:
        options.outline_scenes = options.tissue_scenes = 1
        if not options.start:
            parser.error("--score-only needs --start weights.npz")
    if options.smoke:
        options.outline_scenes, options.tissue_scenes, options.first_scenes = 48, 64, 64
        options.outline_steps = options.tissue_steps = options.byte_steps = 20
        options.batch = 8
        if os.environ.get("TINY"):
            side, outline_side, options.batch = 128, 128, 4
    Path(options.out).mkdir(parents=True, exist_ok=True)
    held = FOLDS.get(options.fold, [])

    global _library
    _library = paint.LeafPhotos(options.data, held)
    _blocks["outline"] = Shelf(options.outline_scenes, 1, outline_side, OUTLINE_CHANNELS, 128)
    _blocks["tissue"] = Shelf(min(options.tissue_scenes, SHELVED), PLACES, side, CHANNELS)
    renders = sorted(p.name[: -len(".truth.json")] for p in Path(options.renders).glob("*.truth.json")) if options.renders else []
    base = options.seed * 10_000_000
    rng = np.random.default_rng([options.seed, rank] if rank else options.seed)
    jobs = []
    own = rank * 500_000  # another card, other scenes
    for k in range(options.tissue_scenes):
        use = renders and k % 5 in (1, 3)
        jobs.append((k, base + 5_000_000 + own + k, side, (options.renders, renders[(k * 2 // 5 + own // 700) % len(renders)]) if use else None))
    pool = multiprocessing.get_context("fork").Pool(options.workers, _start_worker)
    shown = sorted(p.name[: -len(".truth.png")] for p in Path(options.outline_renders).glob("*.truth.png")) if options.outline_renders else []
    thirds = options.outline_render_thirds
    outline_jobs = [
        (k, base + k, outline_side, (options.outline_renders, shown[(k // 3 * thirds + k % 3) % len(shown)]) if shown and k % 3 < thirds else None) for k in range(options.outline_scenes)
    ]
    outline_results = pool.imap_unordered(_paint_outline, outline_jobs, 1)
    tissue_results = pool.imap_unordered(_paint_tissue, jobs, 1)
    say(len(_library.entries), "leaves,", len(_library.sound), "sound ones,", len(renders), "renders,", options.workers, "painters; kept apart:", held)

    import torch  # after the painters were started: they must not share a GPU context
    from net import OutlineForUse, TissueForUse, export, outline_net, tissue_net

    torch.manual_seed(options.seed)
    torch.backends.cudnn.benchmark = True
    torch.backends.cuda.matmul.allow_tf32 = True
    torch.backends.cudnn.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    say("torch", torch.__version__, torch.cuda.get_device_name(0) if device.type == "cuda" else "processor only")

    group = cards.Together(torch, rank, count) if count > 1 else cards.Alone()
    first = {"outline": outline_net(), "tissue": tissue_net()}
    in_bytes = None
    if options.start and not options.start.endswith(".onnx"):
        stored = np.load(options.start)
        for name, net in first.items():
            if name == "outline" or not options.fresh_tissue:
                net.load_state_dict({k: torch.from_numpy(stored[f"{name}/{k}"]) for k in net.state_dict()})
    if options.score_only:
        outline, tissue = (net.to(device).eval() for net in first.values())
        outline_steps = tissue_steps = 0
        counts = {}
    elif options.only_tissue:
        outline, outline_steps = first["outline"], 0
        torch.manual_seed(options.seed * 1000 + rank)  # the first weights were the same, the light is not
        tissue, in_bytes, tissue_steps, counts = learn_tissue(torch, options, first["tissue"], tissue_results, rng, device, group)
    else:
        outlines = Painted(outline_results, _blocks["outline"], options.outline_scenes, options.outline_scenes, device, "outline")
        outlines.absorb(at_least=min(options.first_outlines, int(options.outline_scenes * 0.98)))
        say("outline scenes ready:", outlines.count, "troubles:", len(outlines.troubles), outlines.troubles[:2])
        outline, outline_steps = learn(torch, first["outline"], outlines, outline_loss, options.outline_seconds, options.outline_steps, max(4, options.batch), options.rate, rng, device, False, "outline")
        outlines.pieces = None
        if device.type == "cuda":
            torch.cuda.empty_cache()

        if options.only_outline:
            tissue, tissue_steps, counts = first["tissue"].to(device).eval(), 0, {}
        else:
            tissue, in_bytes, tissue_steps, counts = learn_tissue(torch, options, first["tissue"], tissue_results, rng, device, group)
        counts["outlineScenes"] = outlines.scenes

    pool.terminate()
    group.close()
    if rank:
        return 0
    weights = {f"{n}/{k}": v.detach().cpu().numpy() for n, net in (("outline", outline), ("tissue", tissue)) for k, v in net.state_dict().items()}
    np.savez_compressed(Path(options.out) / "weights.npz", **weights)
    run_outline, run_tissue = runners(torch, outline.float(), tissue.float(), device)
    if options.outline:
        run_outline = written(options.outline, 1)
    # Convolutions in TF32 are off from here on, so that figures are those of plain float32.
    torch.backends.cudnn.allow_tf32 = False
    torch.backends.cuda.matmul.allow_tf32 = False
    torch.backends.cudnn.benchmark = False  # every photo has its own size
    about = {
        "seed": options.seed, "fold": options.fold, "keptApart": held, "torch": torch.__version__, "outlineSteps": outline_steps, "tissueSteps": tissue_steps,
        **counts, "renders": len(renders), "leaves": [e["name"] for e in _library.entries],
    }
    about["scores"] = evaluate(options, run_outline, run_tissue, held)
    if in_bytes is not None:
        import eight_bits
        from net import CLASSES, LARGEST_DIAMETER

        file = Path(options.out) / "leaf-tissue-bytes.onnx"
        eight_bits.write(in_bytes.cpu(), file, len(CLASSES), LARGEST_DIAMETER)
        say("in bytes:")
        about["scoresInBytes"] = evaluate(options, run_outline, written(str(file), 3), held)
        about["byteGap"] = gap_of(torch, in_bytes, written(str(file), 3))
        say("mean difference between learned and written network in bytes (class scores, centres, diameters):", about["byteGap"])
    for name, module, channels, outputs in (
        ("leaf-outline", OutlineForUse(outline), 3, ["leaf", "margin"]),
        ("leaf-tissue", TissueForUse(tissue), 4, ["classes", "centres", "diameters"]),
    ):
        try:
            import copy

            export(copy.deepcopy(module), Path(options.out) / f"{name}.onnx", channels, outputs)
        except Exception as trouble:  # the weights are saved: the file can still be written from them later
            say("could not write", name, type(trouble).__name__, str(trouble)[:400])
            about[f"{name}Trouble"] = str(trouble)[:400]
    try:
        about["onnx"] = check_onnx(options, run_outline, run_tissue)
        say("onnx", json.dumps(about["onnx"]))
    except Exception as trouble:
        about["onnx"] = str(trouble)[:400]
        say("onnx check failed:", str(trouble)[:400])
    about["seconds"] = time.time() - START
    (Path(options.out) / "metrics.json").write_text(json.dumps(about, indent=1))
    say("done")
    return 0


if __name__ == "__main__":
    sys.exit(main())

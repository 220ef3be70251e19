"""Trains the head that names places of specks (places.py) beside a finished tissue network and writes the network with it.

    python3 models/training/train_places.py --data DATA --network models/leaf-tissue.onnx --seed 91 --out OUT

The network's own answers stay as they are. Sixteen processor cores paint while one card learns, first in floats, then with every
value rounded to bytes.
"""
import argparse
import json
import multiprocessing
import sys
from pathlib import Path

import numpy as np

import paint
import train


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--data", required=True)
    parser.add_argument("--network", required=True, help="shipped tissue network in bytes")
    parser.add_argument("--out", required=True)
    parser.add_argument("--renders", help="folder of further scenes in the implants' format: two of five scenes")
    parser.add_argument("--start", help="places-floats.pt of an earlier run to go on from")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--width", type=int, default=48, help="channels of the head")
    parser.add_argument("--scenes", type=int, default=60000)
    parser.add_argument("--first-scenes", type=int, default=600, help="scenes that must be there before learning starts")
    parser.add_argument("--pieces", type=int, default=24000, help="pieces that are kept on the card, 1.4 MB each")
    parser.add_argument("--seconds", type=float, default=900)
    parser.add_argument("--byte-seconds", type=float, default=300)
    parser.add_argument("--batch", type=int, default=40)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--byte-rate", type=float, default=3e-4)
    parser.add_argument("--workers", type=int, default=15)
    options = parser.parse_args()
    out = Path(options.out)
    out.mkdir(parents=True, exist_ok=True)

    train._library = paint.LeafPhotos(options.data, [])
    train._blocks["tissue"] = train.Shelf(min(options.scenes, train.SHELVED), train.PLACES, train.SIDE, train.CHANNELS)
    renders = sorted(p.name[: -len(".truth.json")] for p in Path(options.renders).glob("*.truth.json")) if options.renders else []
    base = options.seed * 10_000_000 + 5_000_000
    shown = lambda k: (options.renders, renders[k * 2 // 5 % len(renders)]) if renders and k % 5 in (1, 3) else None
    pool = multiprocessing.get_context("fork").Pool(options.workers, train._start_worker)
    results = pool.imap_unordered(train._paint_tissue, [(k, base + k, train.SIDE, shown(k)) for k in range(options.scenes)], 1)

    import torch  # after the painters were started: they must not share a GPU context
    import eight_bits
    import places

    class Beside(torch.nn.Module):
        """The head on what the finished network says, which learns no more."""

        def __init__(self, network, head):
            super().__init__()
            self.network = [network]  # hidden from what learns
            self.head = head

        def forward(self, picture):
            with torch.no_grad(), torch.autocast("cuda", enabled=False):
                half, quarter = places.values_of(self.network[0].net, torch.round(picture.float().clamp(0, 1) * 255) / 255)
            return self.head(half, quarter)

    torch.manual_seed(options.seed)
    torch.backends.cudnn.benchmark = True
    torch.backends.cuda.matmul.allow_tf32 = True
    torch.backends.cudnn.allow_tf32 = True
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    rng = np.random.default_rng(options.seed)
    painted = train.Painted(results, train._blocks["tissue"], options.scenes, options.pieces if device.type == "cuda" else 200, device, "places")
    painted.absorb(at_least=options.first_scenes)
    train.say("pieces ready:", painted.count, "troubles:", len(painted.troubles), painted.troubles[:2])
    loss = lambda torch, answer, target: places.loss_of(answer, target, paint.IGNORE)
    net = Beside(places.backbone(options.network).to(device, memory_format=torch.channels_last), places.Places(options.width))
    if options.start:
        net.load_state_dict(torch.load(options.start, map_location="cpu"))
    net, steps = train.learn(torch, net, painted, loss, options.seconds, 10**9, options.batch, options.rate, rng, device, True, "places", 0.3)
    torch.save(net.state_dict(), out / "places-floats.pt")
    net.head.in_bytes()
    net, byte_steps = train.learn(
        torch, net, painted, loss, options.byte_seconds, 10**9, options.batch, options.byte_rate, rng, device, True, "places in bytes", 0.3, exact=True, before=eight_bits.look
    )
    places.write(net.head, options.network, out / "leaf-tissue.onnx")
    about = dict(options=vars(options), steps=steps, byteSteps=byte_steps, scenes=painted.scenes, pieces=painted.taken, troubles=len(painted.troubles))
    about["gap"] = gap_of(torch, places, net, out / "leaf-tissue.onnx")
    (out / "places.json").write_text(json.dumps(about, indent=1))
    train.say("written;", json.dumps(about))
    pool.terminate()
    return 0


def gap_of(torch, places, net, file):
    """How far the written head is from the learned one on a picture of noise, in steps of the file."""
    import onnxruntime

    x = np.random.default_rng(0).random((4, 192, 256), dtype=np.float32)[None]
    settings = onnxruntime.SessionOptions()
    settings.log_severity_level = 3
    said = onnxruntime.InferenceSession(str(file), settings, providers=["CPUExecutionProvider"]).run(["places"], {"picture": x})[0]
    low, width = (np.array([places.SCORE[k]] * places.SLOTS + [places.OFFSET[k]] * (places.SLOTS * 2)) for k in (0, 1))
    net.cpu().network[0].cpu()
    with torch.no_grad():
        ours = net(torch.from_numpy(x))[0].permute(1, 2, 0).numpy()
    return float(np.abs(np.clip((ours - low) * 255 / width, 0, 255) - said[0]).mean())


if __name__ == "__main__":
    sys.exit(main())

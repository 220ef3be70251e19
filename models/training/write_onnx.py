"""Writes leaf-outline.onnx and leaf-tissue.onnx again from a run's weights.npz; needs PyTorch with ONNX, no GPU.

    python3 models/training/write_onnx.py --weights OUT/weights.npz --out models
    python3 models/training/write_onnx.py --weights A/weights.npz --outline-too B/weights.npz --out models    # outline: the mean of two
"""
import argparse
from pathlib import Path

import numpy as np

from net import export_from

parser = argparse.ArgumentParser(description=__doc__)
parser.add_argument("--weights", required=True)
parser.add_argument("--out", type=Path, required=True)
parser.add_argument("--outline-too", nargs="*", default=[], help="weights.npz of further runs whose outline networks are asked as well")
options = parser.parse_args()
export_from(np.load(options.weights), options.out, [np.load(name) for name in options.outline_too])

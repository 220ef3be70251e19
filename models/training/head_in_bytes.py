"""Takes the last steps out of a tissue network in bytes: what is left gives bytes for each two by two pixels, and the program
draws them out to full size itself (src/LeafScan.Leaves/Learned/TissueAnswer.cs). The last layer in floats and the steps after it
took nearly half of the network's time (decision 054).

    python3 models/training/head_in_bytes.py --bytes OUT/leaf-tissue-bytes.onnx --out models/leaf-tissue.onnx

A byte has 256 steps. They are laid over a window of the score's values; the centre's score, of which a hundredth counts, gets
four windows that follow one another, each with channels of its own: their sum is the score in 1,020 steps.
"""
import argparse

import numpy as np
import onnx
from onnx import TensorProto, helper, numpy_helper

# Lowest value, width of a window, windows: of the six class scores, the centre's score, the diameter's score. TissueAnswer.cs has the same.
CLASSES, CENTRE, DIAMETER = (-16.0, 32.0, 1), (-9.0, 4.0, 4), (-5.0, 6.4, 1)
WEIGHT_STEPS = 63


def windows(weight, bias):
    """Weights and biases whose answers, in whole steps, are 0 at a window's lower end and 255 at its upper one."""
    weights, biases = [], []
    for output in range(8):
        low, width, count = CLASSES if output < 6 else CENTRE if output == 6 else DIAMETER
        for window in range(count):
            for pixel in range(4):
                factor = 255 / width
                weights.append(weight[output * 4 + pixel] * factor)
                biases.append((bias[output * 4 + pixel] - (low + window * width)) * factor)
    return np.stack(weights).astype(np.float32), np.array(biases)


def shortened(model):
    graph = model.graph
    constants = {c.name: numpy_helper.to_array(c) for c in graph.initializer}
    head = [n for n in graph.node if n.op_type == "Conv" and n.input[1] in constants][0]  # the only layer in floats
    before = [n for n in graph.node if head.input[0] in n.output][0]
    step = float(constants[before.input[1]])
    kept = list(graph.node)[: list(graph.node).index(head)]
    weight, bias = windows(constants[head.input[1]], constants[head.input[2]])
    widths = (np.abs(weight).max((1, 2, 3)) / WEIGHT_STEPS).astype(np.float32)
    both = (widths.astype(np.float64) * step).astype(np.float32)
    count = len(widths)
    made = []

    def constant(name, value):
        made.append(numpy_helper.from_array(np.array(value, order="C"), name))
        return name

    rounded = np.clip(np.round(weight / widths[:, None, None, None]), -WEIGHT_STEPS, WEIGHT_STEPS).astype(np.int8)
    nodes = [
        helper.make_node("DequantizeLinear", [constant("hw", rounded), constant("hs", widths), constant("hz", np.zeros(count, np.int8))], ["hwf"], axis=0, name="hw_dq"),
        helper.make_node("DequantizeLinear", [constant("hb", np.round(bias / both).astype(np.int32)), constant("hbs", both), constant("hbz", np.zeros(count, np.int32))], ["hbf"], axis=0, name="hb_dq"),
        helper.make_node("Conv", [head.input[0], "hwf", "hbf"], ["hy"], kernel_shape=[3, 3], pads=[1, 1, 1, 1], name="head"),
        helper.make_node("QuantizeLinear", ["hy", constant("one", np.float32(1)), constant("zero", np.uint8(0))], ["hq"], name="head_q"),
        helper.make_node("Transpose", ["hq"], ["answers"], perm=[0, 2, 3, 1], name="pixels_first"),
    ]
    used = {name for node in kept + nodes for name in node.input}
    answers = helper.make_tensor_value_info("answers", TensorProto.UINT8, [1, "half_height", "half_width", count])
    graph = helper.make_graph(kept + nodes, "leaf-tissue", list(graph.input), [answers], [c for c in graph.initializer if c.name in used] + made)
    return helper.make_model(graph, opset_imports=[helper.make_opsetid("", 16)], ir_version=8)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--bytes", required=True, help="leaf-tissue-bytes.onnx of a run")
    parser.add_argument("--out", required=True, help="file to write")
    options = parser.parse_args()
    short = shortened(onnx.load(options.bytes))
    onnx.checker.check_model(short)
    onnx.save(short, options.out)

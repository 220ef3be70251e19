"""The tissue network in whole numbers of eight bits: about half the time on a processor.

A learned network is taken over, its normalisation folded into its layers; then learning goes on with every value rounded
as the finished file will round it (weights to 127 steps per output channel, maps to 256 steps of a learned width; after
Esser et al., Learned Step Size Quantization, ICLR 2020, arXiv 1902.08153). Weights use seven of the eight bits: processors
without dot products of bytes would overflow with eight. The last layer stays
in floats, since a centre's score is read to a hundredth.
"""
import copy

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

WEIGHT_STEPS = 63      # -63..63
PICTURE_STEP = 1 / 255  # the picture's own bytes


def rounded(x):
    return x + (torch.round(x) - x).detach()


class Steps(nn.Module):
    """Rounds a map to whole steps, 0..255 of them, or -128..127 where it may be negative. The first batches set the width."""

    def __init__(self, signed):
        super().__init__()
        self.low, self.high = (-128, 127) if signed else (0, 255)
        self.log_step = nn.Parameter(torch.zeros(()))
        self.looking, self.seen = False, 0.0

    def forward(self, x):
        if self.looking:
            values = x.detach().abs().flatten()
            values = values[:: max(1, values.numel() // 2_000_000)]
            top = float(torch.kthvalue(values, max(1, int(values.numel() * 0.9999))).values)
            self.seen = max(self.seen, top)
            return x
        step = torch.exp(self.log_step)
        return rounded(torch.clamp(x / step, self.low, self.high)) * step


class ByteConv(nn.Module):
    """A layer with its normalisation folded in, weights rounded, its answer rounded."""

    def __init__(self, conv, norm, relu):
        super().__init__()
        scale = norm.weight / torch.sqrt(norm.running_var + norm.eps)
        self.weight = nn.Parameter((conv.weight * scale[:, None, None, None]).detach().clone())
        self.bias = nn.Parameter((norm.bias - norm.running_mean * scale).detach().clone())
        self.stride, self.padding, self.groups, self.relu = conv.stride, conv.padding, conv.groups, relu
        self.after = Steps(signed=not relu)

    def weight_step(self):
        return self.weight.detach().abs().amax((1, 2, 3)).clamp(min=1e-6) / WEIGHT_STEPS

    def forward(self, x):
        step = self.weight_step()[:, None, None, None]
        y = F.conv2d(x, rounded(self.weight / step) * step, self.bias, self.stride, self.padding, 1, self.groups)
        return self.after(F.relu(y) if self.relu else y)


class ByteNet(nn.Module):
    """The whole network, its picture rounded to bytes."""

    def __init__(self, net):
        super().__init__()
        self.net = copy.deepcopy(net).float()
        fold(self.net)

    def forward(self, x):
        return self.net(rounded(x.clamp(0, 1) * 255) / 255)


def look(module, batches):
    """Sets the widths of all steps of a module from some batches."""
    steps = [m for m in module.modules() if isinstance(m, Steps)]
    for s in steps:
        s.looking, s.seen = True, 0.0
    with torch.no_grad():
        for batch in batches:
            module(batch)
        for s in steps:
            s.looking = False
            s.log_step.fill_(float(np.log(max(s.seen, 1e-4) / s.high)))


def fold(module):
    """Every layer of a learned network becomes one of bytes."""
    for name, child in list(module.named_children()):
        if isinstance(child, nn.Sequential) and len(child) and isinstance(child[0], nn.Conv2d):
            setattr(module, name, ByteConv(child[0], child[1], len(child) > 2))
        else:
            fold(child)
    if hasattr(module, "after") and not isinstance(module, ByteConv):
        module.after = Steps(signed=False)


class Graph:
    """Builds the ONNX file: a value between layers is its name, its step and its zero. All names begin with `first`."""

    def __init__(self, first=""):
        self.nodes, self.constants, self.count, self.first = [], [], 0, first

    def constant(self, value):
        from onnx import numpy_helper

        name = f"{self.first}c{len(self.constants)}"
        self.constants.append(numpy_helper.from_array(np.array(value, order="C"), name))
        return name

    def node(self, kind, inputs, **settings):
        from onnx import helper

        self.count += 1
        name = settings.pop("output", f"{self.first}v{self.count}")
        self.nodes.append(helper.make_node(kind, inputs, [name], name=f"{self.first}n{self.count}", **settings))
        return name

    def in_bytes(self, value, step, zero):
        limits = [self.constant(np.float32(step)), self.constant(np.uint8(zero))]
        return self.node("DequantizeLinear", [self.node("QuantizeLinear", [value, *limits]), *limits]), step, zero

    def after(self, value, steps):
        return self.in_bytes(value, np.exp(float(steps.log_step)), -steps.low)

    def conv(self, value, layer):
        name, step, _ = value
        widths = layer.weight_step().cpu().numpy().astype(np.float32)
        weight = np.clip(np.round(layer.weight.detach().cpu().numpy() / widths[:, None, None, None]), -WEIGHT_STEPS, WEIGHT_STEPS).astype(np.int8)
        both = (widths.astype(np.float64) * step).astype(np.float32)
        bias = np.clip(np.round(layer.bias.detach().cpu().numpy() / both), -(2**31) + 1, 2**31 - 1).astype(np.int32)
        w = self.node("DequantizeLinear", [self.constant(weight), self.constant(widths), self.constant(np.zeros(len(widths), np.int8))], axis=0)
        b = self.node("DequantizeLinear", [self.constant(bias), self.constant(both), self.constant(np.zeros(len(widths), np.int32))], axis=0)
        y = self.node("Conv", [name, w, b], kernel_shape=list(weight.shape[2:]), strides=list(layer.stride), pads=list(layer.padding) * 2, group=layer.groups)
        # What is below zero is cut off by the rounding to bytes: no layer of its own for that.
        return self.after(y, layer.after)

    def plain(self, value, layer):
        return self.after(self.node("Add", [value[0], self.conv(value, layer.body)[0]]), layer.after)

    def separable(self, value, layer):
        y = value
        for part in layer.body:
            y = self.conv(y, part)
        return self.after(self.node("Add", [value[0], y[0]]), layer.after)

    def join(self, coarse, fine, layer):
        name, step, zero = self.conv(coarse, layer.coarse)
        twice = self.node(
            "Resize", [name, "", self.constant(np.float32([1, 1, 2, 2]))], mode="nearest", coordinate_transformation_mode="asymmetric", nearest_mode="floor"
        )
        twice = self.in_bytes(twice, step, zero)
        return self.after(self.node("Add", [twice[0], self.conv(fine, layer.fine)[0]]), layer.after)


def write(byte_net, path, classes, largest_diameter):
    """Writes the tissue network's file: input and outputs as those of the float file."""
    import onnx
    from onnx import TensorProto, helper

    g, net = Graph(), byte_net.net
    chain = lambda value, layers, add: value if not len(layers) else chain(add(value, layers[0]), layers[1:], add)
    half = chain(g.conv(g.in_bytes("picture", PICTURE_STEP, 0), net.stem), list(net.at_half), g.plain)
    quarter = chain(g.conv(half, net.to_quarter), list(net.at_quarter), g.plain)
    eighth = chain(g.conv(quarter, net.to_eighth), list(net.at_eighth), g.separable)
    sixteenth = chain(g.conv(eighth, net.to_sixteenth), list(net.at_sixteenth), g.separable)
    coarsest = chain(g.conv(sixteenth, net.to_coarsest), list(net.at_coarsest), g.separable)
    x = g.separable(g.join(coarsest, sixteenth, net.join_sixteenth), net.up_sixteenth)
    x = g.separable(g.join(x, eighth, net.join_eighth), net.up_eighth)
    x = g.plain(g.join(x, quarter, net.join_quarter), net.up_quarter)
    x = g.plain(g.join(x, half, net.join_half), net.up_half)
    head = g.node("Conv", [x[0], g.constant(net.head.weight.detach().cpu().numpy()), g.constant(net.head.bias.detach().cpu().numpy())], kernel_shape=[3, 3], pads=[1, 1, 1, 1])
    full = g.node("DepthToSpace", [head], blocksize=2, mode="CRD")
    part = lambda a, b, **more: g.node("Slice", [full, g.constant(np.int64([a])), g.constant(np.int64([b])), g.constant(np.int64([1]))], **more)
    part(0, classes, output="classes")
    g.node("Sigmoid", [part(classes, classes + 1)], output="centres")
    g.node("Mul", [g.node("Sigmoid", [part(classes + 1, classes + 2)]), g.constant(np.float32(largest_diameter))], output="diameters")
    sized = lambda name, channels: helper.make_tensor_value_info(name, TensorProto.FLOAT, [1, channels, "height", "width"])
    graph = helper.make_graph(g.nodes, "leaf-tissue", [sized("picture", 4)], [sized("classes", classes), sized("centres", 1), sized("diameters", 1)], g.constants)
    model = helper.make_model(graph, opset_imports=[helper.make_opsetid("", 16)], ir_version=8)
    onnx.checker.check_model(model)
    onnx.save(model, str(path))

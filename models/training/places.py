"""Places of specks: a small head beside the tissue network's last layer that says where single specks lie in a crowd.

The centre map has one peak where two or three specks have run together. This head has no map: for each four by four pixels it
names up to three places, each with the chance that a speck lies there, and while it learns every true speck takes the place that
fits it best, each place at most once (points as a set: Song et al., Rethinking Counting and Localization in Crowds, ICCV 2021,
arXiv 2107.12746, simplified). It reads the finished network's own values and changes none of its answers.
"""
import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

import eight_bits
from net import Plain, layer, tissue_net

CELL, SLOTS, FARTHEST = 4, 3, 7.0  # pixels a side; places for each cell; pixels from a cell's middle to its farthest place
# Lowest value and width of the windows in which the written file gives a place's score and its two offsets as bytes.
# SpeckPlaces.cs has the same.
SCORE, OFFSET = (-10.0, 16.0), (-2.0, 4.0)
HALF, QUARTER = 32, 64  # channels of the network's last values at half and at quarter size


class Places(nn.Module):
    """The network's last values at half and at quarter size -> for each cell scores of three places, then their offsets x, y."""

    def __init__(self, width=48):
        super().__init__()
        self.down = layer(HALF, width, stride=2, relu=False)
        self.side = layer(QUARTER, width, 1, relu=False)
        self.after = nn.Identity()  # rounding to bytes, where that is learned
        self.more = nn.Sequential(Plain(width))
        self.out = nn.Conv2d(width, SLOTS * 3, 1)
        with torch.no_grad():
            self.out.bias[:SLOTS] = -4.0  # specks are rare
            self.out.bias[SLOTS:] = torch.tensor([-0.3, 0.3, 0.0, -0.2, -0.2, 0.4])  # places that start apart stay apart

    def forward(self, half, quarter):
        return self.out(self.more(self.after(F.relu(self.down(half) + self.side(quarter)))))

    def in_bytes(self):
        """The same with normalisation folded in and every value rounded as the file rounds it."""
        eight_bits.fold(self)
        return self


def values_of(net, picture):
    """The tissue network's last values at half and at quarter size."""
    half = net.at_half(net.stem(picture))
    quarter = net.at_quarter(net.to_quarter(half))
    eighth = net.at_eighth(net.to_eighth(quarter))
    sixteenth = net.at_sixteenth(net.to_sixteenth(eighth))
    x = net.up_sixteenth(net.join_sixteenth(net.at_coarsest(net.to_coarsest(sixteenth)), sixteenth))
    x = net.up_eighth(net.join_eighth(x, eighth))
    quarter = net.up_quarter(net.join_quarter(x, quarter))
    return net.up_half(net.join_half(quarter, half)), quarter


def spread(answer):
    """Scores and places x, y in pixels, each n x SLOTS x cells down x cells across."""
    n, _, down, across = answer.shape
    answer = answer.float()
    offset = torch.tanh(answer[:, SLOTS:].view(n, SLOTS, 2, down, across)) * FARTHEST
    middle = (CELL - 1) / 2
    x = offset[:, :, 0] + torch.arange(across, device=answer.device) * CELL + middle
    y = offset[:, :, 1] + (torch.arange(down, device=answer.device) * CELL + middle)[:, None]
    return answer[:, :SLOTS], x, y


@torch.no_grad()
def taken_by(score, x, y, specks, reach=2, rounds=8):
    """For each true speck (rows of piece, y, x) the place it takes, as an index into the flattened places; -1 for none. In each round
    every speck without one asks for its best free place among cells within `reach`, and a place goes to the one it suits best."""
    n, slots, down, across = score.shape
    piece, sy, sx = specks.unbind(1)
    count, device = len(specks), score.device
    steps = torch.arange(-reach, reach + 1, device=device)
    cy = (sy // CELL)[:, None, None, None] + steps[None, :, None, None]
    cx = (sx // CELL)[:, None, None, None] + steps[None, None, :, None]
    slot = torch.arange(slots, device=device)[None, None, None, :]
    inside = ((cy >= 0) & (cy < down) & (cx >= 0) & (cx < across)).expand(count, len(steps), len(steps), slots).reshape(count, -1)
    at = (((piece[:, None, None, None] * slots + slot) * down + cy.clamp(0, down - 1)) * across + cx.clamp(0, across - 1)).reshape(count, -1)
    far = torch.sqrt((x.reshape(-1)[at] - sx[:, None]) ** 2 + (y.reshape(-1)[at] - sy[:, None]) ** 2)
    cost = far / 4 - torch.sigmoid(score.reshape(-1)[at]) + torch.rand_like(far) * 1e-3  # no two alike
    never = torch.full_like(cost, 1e4)
    cost = torch.where(inside & (far < 9), cost, never)
    used = torch.zeros(score.numel(), dtype=torch.bool, device=device)
    mine = torch.full((count,), -1, dtype=torch.long, device=device)
    for _ in range(rounds):
        best, which = torch.where(used[at], never, cost).min(1)
        asks = (mine < 0) & (best < 1e3)
        best = torch.where(asks, best, torch.full_like(best, 1e5))
        place = at.gather(1, which[:, None])[:, 0]
        lowest = torch.full((score.numel(),), 1e5, device=device).scatter_reduce_(0, place, best, "amin")
        wins = asks & (lowest[place] == best)
        mine = torch.where(wins, place, mine)
        used[place[wins]] = True
    return mine


def loss_of(answer, target, ignore):
    """`target` is n x 4 x h x w bytes as for the tissue network: label, prior, centres (255 at a centre), diameters."""
    known = target[:, 0] != ignore
    specks = ((target[:, 2] == 255) & known).nonzero()
    score, x, y = spread(answer)
    mine = taken_by(score.detach(), x.detach(), y.detach(), specks)
    got = mine >= 0
    place = mine[got]
    goal = torch.zeros(score.numel(), device=score.device)
    goal[place] = 1
    asked = known[:, 1::CELL, 1::CELL][:, None].expand_as(score)
    entropy = (F.binary_cross_entropy_with_logits(score, goal.view_as(score), reduction="none") * asked).sum()
    off = F.smooth_l1_loss(x.reshape(-1)[place], specks[got, 2].float(), reduction="sum") + F.smooth_l1_loss(y.reshape(-1)[place], specks[got, 1].float(), reduction="sum")
    count = got.sum().clamp(min=50)
    return (entropy + 0.15 * off) / count, dict(entropy=entropy / count, off=off / count)


def backbone(path):
    """The shipped tissue network in bytes (head_in_bytes.py) as one that PyTorch runs; its last layer is not taken over."""
    import onnx
    from onnx import numpy_helper

    graph = onnx.load(str(path)).graph
    constants = {c.name: numpy_helper.to_array(c) for c in graph.initializer}
    made = {name: node for node in graph.node for name in node.output}
    net = eight_bits.ByteNet(tissue_net().eval())
    layers, steps, hooks = [], [], []
    for module in net.modules():
        kept = layers if isinstance(module, eight_bits.ByteConv) else steps if isinstance(module, eight_bits.Steps) else None
        if kept is not None:
            hooks.append(module.register_forward_pre_hook(lambda m, _, kept=kept: kept.append(m)))
    with torch.no_grad():
        net(torch.zeros(1, 4, 64, 64))
    for hook in hooks:
        hook.remove()

    def value(name):
        node = made[name]
        whole, width = (constants[i].astype(np.float64) for i in node.input[:2])
        return torch.from_numpy(whole * width.reshape([-1] + [1] * (whole.ndim - 1)))

    written = [node for node in graph.node if node.op_type == "Conv"][: len(layers)]
    rounded = [n for n in graph.node if n.op_type == "QuantizeLinear" and n.input[0] in made and made[n.input[0]].op_type in ("Conv", "Add")][: len(steps)]
    with torch.no_grad():
        for module, node in zip(layers, written, strict=True):
            module.weight.copy_(value(node.input[1]))
            module.bias.copy_(value(node.input[2]))
        for module, node in zip(steps, rounded, strict=True):
            if int(constants[node.input[2]]) != -module.low:
                raise ValueError(f"{path} is not laid out as this network")
            module.log_step.fill_(float(np.log(constants[node.input[1]])))
    for p in net.parameters():
        p.requires_grad_(False)
    return net.eval()


def write(places, network, path):
    """Writes `network` (a shipped file) once more with a second output: `places`, bytes for each cell, nine deep."""
    import onnx
    from onnx import TensorProto, helper, numpy_helper

    model = onnx.load(str(network))
    graph = model.graph
    kept = [n for n in graph.node if not n.name.startswith("places_")]
    constants = {c.name: numpy_helper.to_array(c) for c in graph.initializer if not c.name.startswith("places_")}
    made = {name: node for node in kept for name in node.output}
    layers = [n for n in kept if n.op_type == "Conv"]
    step_of = lambda name: (name, float(constants[made[name].input[1]]), int(constants[made[name].input[2]]))
    half, quarter = step_of(layers[-1].input[0]), step_of(layers[-4].input[0])  # what the last layer reads; what the last join reads
    places = places.cpu()
    g = eight_bits.Graph("places_")
    both = g.after(g.node("Add", [g.conv(half, places.down)[0], g.conv(quarter, places.side)[0]]), places.after)
    for part in places.more:
        both = g.plain(both, part)
    low, width = (np.array([SCORE[k]] * SLOTS + [OFFSET[k]] * (SLOTS * 2)) for k in (0, 1))
    weight = places.out.weight.detach().numpy() * (255 / width)[:, None, None, None]
    bias = (places.out.bias.detach().numpy() - low) * 255 / width
    steps = (np.abs(weight).max((1, 2, 3)) / eight_bits.WEIGHT_STEPS).astype(np.float32)
    product = (steps.astype(np.float64) * both[1]).astype(np.float32)
    whole = np.clip(np.round(weight / steps[:, None, None, None]), -eight_bits.WEIGHT_STEPS, eight_bits.WEIGHT_STEPS).astype(np.int8)
    zeros = lambda kind: g.constant(np.zeros(SLOTS * 3, kind))
    w = g.node("DequantizeLinear", [g.constant(whole), g.constant(steps), zeros(np.int8)], axis=0)
    b = g.node("DequantizeLinear", [g.constant(np.round(bias / product).astype(np.int32)), g.constant(product), zeros(np.int32)], axis=0)
    y = g.node("Conv", [both[0], w, b], kernel_shape=[1, 1])
    y = g.node("QuantizeLinear", [y, g.constant(np.float32(1)), g.constant(np.uint8(0))])
    g.node("Transpose", [y], perm=[0, 2, 3, 1], output="places")
    answers = [o for o in graph.output if o.name != "places"]
    answers.append(helper.make_tensor_value_info("places", TensorProto.UINT8, [1, "cells_down", "cells_across", SLOTS * 3]))
    old = [c for c in graph.initializer if not c.name.startswith("places_")]
    whole_graph = helper.make_graph(kept + g.nodes, "leaf-tissue", list(graph.input), answers, old + g.constants)
    model = helper.make_model(whole_graph, opset_imports=[helper.make_opsetid("", 16)], ir_version=8)
    onnx.checker.check_model(model)
    onnx.save(model, str(path))

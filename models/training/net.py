"""The networks. All are one lean U-shaped design: plain 3x3 layers where the picture is large and channels are
few (two CPU cores run those fastest), separable layers where it is small, full resolution given back by
depth-to-space so that no layer ever runs at full size.
"""
import torch
import torch.nn as nn
import torch.nn.functional as F

CLASSES = ("background", "sound", "speck", "yellowed", "browned", "unassessed")
LARGEST_DIAMETER = 40.0  # pixels of the network's input; the diameter output is 0..1 of this


def layer(inputs, outputs, kernel=3, stride=1, groups=1, relu=True):
    parts = [
        nn.Conv2d(inputs, outputs, kernel, stride, kernel // 2, groups=groups, bias=False),
        nn.BatchNorm2d(outputs, momentum=0.03),
    ]
    if relu:
        parts.append(nn.ReLU(inplace=True))
    return nn.Sequential(*parts)


class Plain(nn.Module):
    """Residual 3x3 layer."""

    def __init__(self, width):
        super().__init__()
        self.body = layer(width, width, relu=False)
        self.after = nn.Identity()  # rounding to bytes, where that is learned (eight_bits.py)

    def forward(self, x):
        return self.after(F.relu(x + self.body(x)))


class Separable(nn.Module):
    """Residual depthwise 5x5 and pointwise layer, for small maps."""

    def __init__(self, width):
        super().__init__()
        self.body = nn.Sequential(layer(width, width, 5, groups=width, relu=False), layer(width, width, 1), layer(width, width, 1, relu=False))
        self.after = nn.Identity()

    def forward(self, x):
        return self.after(F.relu(x + self.body(x)))


class Join(nn.Module):
    """Brings the coarser map up by two and adds the finer one."""

    def __init__(self, coarse, fine):
        super().__init__()
        self.coarse = layer(coarse, fine, 1, relu=False)
        self.fine = layer(fine, fine, 1, relu=False)
        self.after = nn.Identity()

    def forward(self, coarse, fine):
        return self.after(F.relu(F.interpolate(self.coarse(coarse), scale_factor=2.0, mode="nearest") + self.fine(fine)))


class Leaf(nn.Module):
    """Input height and width are multiples of 32. Gives raw scores at full size."""

    def __init__(self, inputs, outputs, widths=(32, 64, 96, 128, 192), plain=(2, 2), separable=(2, 3, 3)):
        super().__init__()
        a, b, c, d, e = widths
        self.stem = layer(inputs, a, stride=2)
        self.at_half = nn.Sequential(*[Plain(a) for _ in range(plain[0])])
        self.to_quarter = layer(a, b, stride=2)
        self.at_quarter = nn.Sequential(*[Plain(b) for _ in range(plain[1])])
        self.to_eighth = layer(b, c, stride=2)
        self.at_eighth = nn.Sequential(*[Separable(c) for _ in range(separable[0])])
        self.to_sixteenth = layer(c, d, stride=2)
        self.at_sixteenth = nn.Sequential(*[Separable(d) for _ in range(separable[1])])
        self.to_coarsest = layer(d, e, stride=2)
        self.at_coarsest = nn.Sequential(*[Separable(e) for _ in range(separable[2])])
        self.join_sixteenth = Join(e, d)
        self.up_sixteenth = Separable(d)
        self.join_eighth = Join(d, c)
        self.up_eighth = Separable(c)
        self.join_quarter = Join(c, b)
        self.up_quarter = Plain(b)
        self.join_half = Join(b, a)
        self.up_half = Plain(a)
        self.head = nn.Conv2d(a, outputs * 4, 3, padding=1)
        self.outputs = outputs

    def forward(self, x):
        half = self.at_half(self.stem(x))
        quarter = self.at_quarter(self.to_quarter(half))
        eighth = self.at_eighth(self.to_eighth(quarter))
        sixteenth = self.at_sixteenth(self.to_sixteenth(eighth))
        coarsest = self.at_coarsest(self.to_coarsest(sixteenth))
        x = self.up_sixteenth(self.join_sixteenth(coarsest, sixteenth))
        x = self.up_eighth(self.join_eighth(x, eighth))
        x = self.up_quarter(self.join_quarter(x, quarter))
        x = self.up_half(self.join_half(x, half))
        return F.pixel_shuffle(self.head(x), 2)


def tissue_net():
    """Red, green, blue (sRGB / 255) and the coarse leaf prior -> six class scores, speck centre score, diameter score."""
    net = Leaf(4, len(CLASSES) + 2)
    with torch.no_grad():  # a centre is rare: start the centre score low so that the first steps are calm
        net.head.bias[len(CLASSES) * 4 : len(CLASSES) * 4 + 4] = -4.0
    return net


def outline_net():
    """Red, green, blue -> leaf score, leaf margin score."""
    return Leaf(3, 2, widths=(32, 48, 80, 128, 192), plain=(1, 1), separable=(2, 3, 4))


def twig_net():
    """Red, green, blue of a twig -> five class scores (foliage.TWIG_CLASSES)."""
    return Leaf(3, 5)


def plant_net():
    """Red, green, blue of a whole frame and the place in it -> four class scores (foliage.PLANT_CLASSES), score of the full outline."""
    return Leaf(5, 5, widths=(32, 48, 80, 128, 192), plain=(1, 2), separable=(2, 3, 4))


class FoliageForUse(nn.Module):
    """What is exported for twigs and plants: raw class scores, and the chance of the full outline of a plant."""

    def __init__(self, net, has_outline):
        super().__init__()
        self.net, self.has_outline = net, has_outline

    def forward(self, picture):
        y = self.net(picture)
        return (y[:, :-1], torch.sigmoid(y[:, -1:])) if self.has_outline else y


class TissueForUse(nn.Module):
    """What is exported. Class scores stay raw: a softmax over full-size maps costs two cores more than all layers."""

    def __init__(self, net):
        super().__init__()
        self.net = net

    def forward(self, picture):
        y = self.net(picture)
        n = len(CLASSES)
        return y[:, :n], torch.sigmoid(y[:, n : n + 1]), torch.sigmoid(y[:, n + 1 : n + 2]) * LARGEST_DIAMETER


class OutlineForUse(nn.Module):
    """One network, or the mean of what several say: where one alone goes wrong the other seldom does."""

    def __init__(self, *nets):
        super().__init__()
        self.nets = nn.ModuleList(nets)

    def forward(self, picture):
        y = sum(torch.sigmoid(net(picture)) for net in self.nets) / len(self.nets)
        return y[:, :1], y[:, 1:2]


def export(module, path, channels, names):
    """Writes the ONNX file with free height and width; checks nothing itself."""
    module = module.eval().float().cpu()
    example = torch.zeros(1, channels, 64, 96)
    axes = {name: {2: "height", 3: "width"} for name in ["picture", *names]}
    settings = dict(input_names=["picture"], output_names=list(names), opset_version=16, dynamic_axes=axes, do_constant_folding=True)
    with torch.no_grad():
        try:
            torch.onnx.export(module, (example,), str(path), dynamo=False, **settings)
        except TypeError:  # older releases know only this exporter and not the word
            torch.onnx.export(module, (example,), str(path), **settings)


def export_from(weights, folder, more_outlines=()):
    """Writes both ONNX files from a run's weights.npz, the outline together with those of further runs (see write_onnx.py)."""
    for part, make, wrap, channels, names in PARTS:
        nets = [loaded(make(), part, run) for run in (weights, *(more_outlines if part == "outline" else ()))]
        export(wrap(*nets), folder / f"leaf-{part}.onnx", channels, names)


def loaded_from_onnx(net, path, example):
    """Takes the weights of a written float file whose normalisation was folded into its layers. `example`, a batch of the kind
    that learning will see, gives each normalisation the mean and spread at which it changes nothing."""
    import onnx
    from onnx import numpy_helper

    graph = onnx.load(str(path)).graph
    constants = {c.name: numpy_helper.to_array(c) for c in graph.initializer}
    written = [[torch.from_numpy(constants[name].copy()) for name in node.input[1:]] for node in graph.node if node.op_type == "Conv"]
    order, norm_of, hooks = [], {}, []
    for sequence in net.modules():
        if isinstance(sequence, nn.Sequential) and len(sequence) > 1 and isinstance(sequence[0], nn.Conv2d):
            norm_of[sequence[0]] = sequence[1]
    for module in net.modules():
        if isinstance(module, nn.Conv2d):
            hooks.append(module.register_forward_pre_hook(lambda m, _: order.append(m)))
    with torch.no_grad():
        net.eval()(example[:1])
        for hook in hooks:
            hook.remove()
        if len(order) != len(written):
            raise ValueError(f"{path} has {len(written)} layers, this network {len(order)}")
        shift = {}
        for module, (weight, bias) in zip(order, written):
            module.weight.copy_(weight)
            if module in norm_of:
                shift[norm_of[module]] = bias
            else:
                module.bias.copy_(bias)

        def change_nothing(norm, inputs):
            x = inputs[0].float()
            mean, spread = x.mean((0, 2, 3)), x.var((0, 2, 3), unbiased=False)
            norm.running_mean.copy_(mean)
            norm.running_var.copy_(spread)
            norm.weight.copy_(torch.sqrt(spread + norm.eps))
            norm.bias.copy_(shift[norm].to(x.device) + mean)

        hooks = [norm.register_forward_pre_hook(change_nothing) for norm in shift]
        net.eval()(example)
        for hook in hooks:
            hook.remove()
    return net


def loaded(net, part, weights):
    net.load_state_dict({k: torch.from_numpy(weights[f"{part}/{k}"]) for k in net.state_dict()})
    return net


PARTS = (
    ("outline", outline_net, OutlineForUse, 3, ("leaf", "margin")),
    ("tissue", tissue_net, TissueForUse, 4, ("classes", "centres", "diameters")),
)

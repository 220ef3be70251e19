"""Several GPU cards that learn one network together: each draws pieces of its own painters, and gradients are averaged at every step."""
import os
import socket
import subprocess
import sys


class Alone:
    """One card."""

    rank, count = 0, 1

    def same(self, net):
        """All cards begin with the first one's weights."""

    def mean(self, parameters):
        """Gradients become those of all cards together."""

    def agree(self, value):
        """The first card's number, on every card."""
        return value

    def close(self):
        """No more to be said."""


class Together(Alone):
    """One of several cards, each a process with one visible card."""

    def __init__(self, torch, rank, count):
        import torch.distributed as group

        self.torch, self.group, self.rank, self.count = torch, group, rank, count
        group.init_process_group("nccl", rank=rank, world_size=count, device_id=torch.device("cuda:0"))

    def same(self, net):
        for value in net.state_dict().values():
            self.group.broadcast(value, 0)

    def mean(self, parameters):
        grads = [p.grad for p in parameters if p.grad is not None]
        flat = self.torch._utils._flatten_dense_tensors(grads)
        self.group.all_reduce(flat, op=self.group.ReduceOp.AVG)
        self.torch._foreach_copy_(grads, list(self.torch._utils._unflatten_dense_tensors(flat, grads)))

    def agree(self, value):
        held = self.torch.tensor([float(value)], device="cuda")
        self.group.broadcast(held, 0)
        return float(held)

    def close(self):
        self.group.destroy_process_group()


def place():
    """Which of how many this process is."""
    return int(os.environ.get("LEAF_CARD", "0")), int(os.environ.get("LEAF_CARDS", "1"))


def start(count):
    """Runs this very command once for each card and waits. The first exit code that is not zero, else zero."""
    visible = os.environ.get("CUDA_VISIBLE_DEVICES", ",".join(map(str, range(count)))).split(",")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    runs = []
    for rank in range(count):
        own = {**os.environ, "LEAF_CARD": str(rank), "LEAF_CARDS": str(count), "CUDA_VISIBLE_DEVICES": visible[rank], "MASTER_ADDR": "127.0.0.1", "MASTER_PORT": str(port)}
        runs.append(subprocess.Popen([sys.executable, *sys.argv], env=own))
    return next((code for code in [run.wait() for run in runs] if code), 0)
